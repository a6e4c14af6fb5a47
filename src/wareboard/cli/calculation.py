"""The frame of a calculation on the command line.

A calculation's own file says which options it takes and what to call; the
frame adds ``--json`` and the example, reads the arguments strictly, and shows
what was found.
"""

from collections.abc import Callable
from functools import update_wrapper
from typing import Any

import click

from wareboard.cli.answers import Told, as_lines, as_object
from wareboard.cli.failures import field_of
from wareboard.core.errors import CoreError
from wareboard.exchange.refusals import shown


class Calculation(click.Command):
    """A command that takes each option once and nothing it does not know."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the arguments, or refuse what is given twice or left over."""
        self._refuse_twice(ctx, args)
        ctx.allow_extra_args = True
        left = super().parse_args(ctx, args)
        if left:
            raise CoreError(
                f'"{shown(" ".join(left))}" is left over; put the name of an option before each '
                "value.",
                field="arguments",
                seen=shown(" ".join(left)),
                accepted=self.get_usage(ctx),
            )
        return left

    def invoke(self, ctx: click.Context) -> Any:
        """Run, and name the option where the core names its own argument."""
        try:
            return super().invoke(ctx)
        except CoreError as error:
            dashed = error.field.replace("_", "-")
            if dashed in map(field_of, self.params):
                error.field = dashed
            raise

    def _refuse_twice(self, ctx: click.Context, args: list[str]) -> None:
        for param in self.get_params(ctx):
            for name in param.opts if isinstance(param, click.Option) else ():
                if sum(arg == name or arg.startswith(f"{name}=") for arg in args) > 1:
                    raise CoreError(
                        f"{name} is given twice.",
                        field=field_of(param),
                        seen=name,
                        accepted=f"{name} once",
                    )


def calculation(name: str, *, example: str) -> Callable[[Callable[..., Told]], click.Command]:
    """Make a command of a function that tells an answer.

    Parameters
    ----------
    name : str
        Name of the calculation.
    example : str
        Arguments that work as they stand in the folder ``examples``.
    """

    def make(function: Callable[..., Told]) -> click.Command:
        def reckon(*, as_json: bool, **options: Any) -> None:
            told = function(**options)
            if as_json:
                click.echo(as_object(name, told, options))
            else:
                for line in as_lines(told):
                    click.echo(line)

        command = click.command(
            name,
            cls=Calculation,
            epilog=f"\b\nExample, in the folder examples:\n  wareboard reckon {name} {example}",
        )(update_wrapper(reckon, function))
        command.params.append(
            click.Option(["--json", "as_json"], is_flag=True, help="One JSON object, in full.")
        )
        return command

    return make
