"""What a command says when it fails: one sentence, or one JSON object.

Every failure ends here, those of the command line itself included, and takes
the same shape. Bad input leaves with exit code 2; a fault of the program
itself, which no input should bring about, with 1.
"""

import os
from collections.abc import Sequence
from math import isfinite

import click

from wareboard.cli.lazy_group import LazyGroup
from wareboard.core.errors import CoreError
from wareboard.exchange.refusals import shown

BAD_INPUT = 2
OWN_FAULT = 1


def option_field(name: str) -> str:
    """Name an option as errors do: its long form without the dashes in front."""
    return name.lstrip("-")


def field_of(param: click.Parameter | None) -> str:
    """Name the field of an option or an argument."""
    if param is None:
        return "arguments"
    longest = max(param.opts, key=len)
    return option_field(longest)


def from_click(error: click.ClickException, arguments: Sequence[str]) -> CoreError:
    """Say an error of the argument reader as one of ours.

    Parameters
    ----------
    error : click.ClickException
        As it was raised.
    arguments : sequence of str
        What it was raised about.

    Returns
    -------
    CoreError
        With the option at fault as its field.
    """
    if isinstance(error, click.NoSuchOption):
        group = error.ctx.command if error.ctx else None
        if isinstance(group, LazyGroup) and error.option_name == "--json":
            return group.unnamed()
        options = _options(error.ctx)
        near = f"; do you mean {' or '.join(error.possibilities)}" if error.possibilities else ""
        end = "?" if near else "."
        return CoreError(
            f"There is no option {shown(error.option_name)}{near}{end}",
            field=option_field(error.option_name),
            seen=error.option_name,
            accepted=", ".join(options),
        )
    if isinstance(error, click.MissingParameter) and error.param is not None:
        return _missing(error.param)
    if isinstance(error, click.BadOptionUsage):
        name = error.option_name
        has_value = any(argument.startswith(f"{name}=") for argument in arguments)
        return CoreError(
            f"{name} takes no value." if has_value else f"{name} needs a value behind it.",
            field=option_field(name),
            seen=name,
            accepted=f"{name} alone" if has_value else "a value behind it",
        )
    param = getattr(error, "param", None)
    field = field_of(param)
    return CoreError(
        f"{field}: {_sentence(error.message)}" if param else _sentence(error.message),
        field=field,
        seen=None,
        accepted=_accepted(param) if param else "what --help says",
    )


def fail(error: CoreError, *, as_json: bool) -> int:
    """Say an error where it belongs and give the exit code for bad input."""
    if as_json:
        seen = error.seen
        if not isinstance(seen, str | int | float | None):
            seen = str(seen)
        if isinstance(seen, float) and not isfinite(seen):
            seen = str(seen)
        _write_error(error.field, seen, error.accepted, error.say)
    else:
        # A folder that is refused tells each of its faults, one a line.
        click.echo(str(error), err=True)
    return BAD_INPUT


def own_fault(error: Exception, *, as_json: bool) -> int:
    """Say that the program itself is at fault, and where, without a traceback."""
    place = error.__traceback__
    while place and place.tb_next:
        place = place.tb_next
    file = os.path.basename(place.tb_frame.f_code.co_filename) if place else "?"  # noqa: PTH119 - pathlib costs a short command its time
    line = place.tb_lineno if place else 0
    say = (
        f"This is a fault of wareboard itself ({type(error).__name__} in {file}, line {line}), "
        "not of what you typed: please report it."
    )
    if as_json:
        _write_error("wareboard", type(error).__name__, "nothing to mend on your side", say)
    else:
        click.echo(say, err=True)
    return OWN_FAULT


def _write_error(field: str, seen: object, accepted: str, say: str) -> None:
    said = {"field": field, "seen": seen, "accepted": accepted, "say": say}
    import json  # noqa: PLC0415 - only where something failed, or was asked for as JSON

    click.echo(json.dumps({"error": said}, allow_nan=False))


def _missing(param: click.Parameter) -> CoreError:
    name = max(param.opts, key=len)
    accepted = _accepted(param)
    return CoreError(
        f"{name} is missing: give {accepted}.",
        field=option_field(name),
        seen=None,
        accepted=accepted,
    )


def _accepted(param: click.Parameter) -> str:
    words = getattr(param.type, "accepted", None)
    return str(words) if words else param.type.name


def _options(context: click.Context | None) -> Sequence[str]:
    if context is None:
        return ()
    return [max(param.opts, key=len) for param in context.command.get_params(context)]


def _sentence(message: str) -> str:
    return shown(" ".join(message.split())).rstrip(".") + "."
