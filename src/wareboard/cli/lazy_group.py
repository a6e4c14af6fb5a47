"""A group of commands that loads only the one that is called."""

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from wareboard.core.errors import CoreError
from wareboard.exchange.refusals import shown


class LazyGroup(click.Group):
    """Commands by name, each somewhere in a module of its own.

    Parameters
    ----------
    places : mapping of str to str
        ``"module:attribute"`` of each command, in the order of the help.
    field : str
        What an unknown name is called in an error.
    ask : str
        What is asked where no name is given, to follow "Say".
    """

    def __init__(
        self, *args: Any, places: Mapping[str, str], field: str, ask: str, **settings: Any
    ) -> None:
        super().__init__(*args, **settings)
        self.places = places
        self.field = field
        self.ask = ask

    def unnamed(self) -> CoreError:
        """Say that no name was given, and which there are."""
        names = ", ".join(self.places)
        return CoreError(f"Say {self.ask}: {names}.", field=self.field, seen=None, accepted=names)

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Name the commands without loading them."""
        return list(self.places)

    def get_command(
        self,
        ctx: click.Context,  # noqa: ARG002 - click's signature
        cmd_name: str,
    ) -> click.Command | None:
        """Load one command; None if there is none of that name."""
        if cmd_name not in self.places:
            return None
        module, _, attribute = self.places[cmd_name].partition(":")
        command: click.Command = getattr(import_module(module), attribute)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command that the arguments name, or say which there are."""
        if args[0] not in self.places and not args[0].startswith("-"):
            from difflib import get_close_matches  # noqa: PLC0415 - only where a name is wrong

            near = get_close_matches(args[0], self.places, n=1)
            hint = f"do you mean {near[0]}?" if near else f"there are {', '.join(self.places)}."
            raise CoreError(
                f'{ctx.command_path} knows no "{shown(args[0])}"; {hint}',
                field=self.field,
                seen=args[0],
                accepted=", ".join(self.places),
            )
        return super().resolve_command(ctx, args)
