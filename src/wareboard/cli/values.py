"""Options and arguments of our commands: numbers, files, choices.

Each refuses through the same error tree as everything else, and knows in words
what it accepts.
"""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import click

from wareboard.cli.failures import field_of
from wareboard.core.errors import CoreError
from wareboard.core.units import Quantity
from wareboard.exchange.refusals import shown
from wareboard.exchange.typed_number import read_number

Function = TypeVar("Function", bound=Callable[..., Any])


class NumberOf(click.ParamType[float]):
    """A plain number of a quantity."""

    name = "number"

    def __init__(self, quantity: Quantity) -> None:
        self.quantity = quantity
        self.accepted = quantity.words

    def convert(
        self,
        value: Any,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002 - click's signature
    ) -> float:
        """Read the number, or raise NumberRefused."""
        if isinstance(value, float):
            return value
        return read_number(value, self.quantity, field=field_of(param))


class FileName(click.ParamType[str]):
    """The name of a file; whoever reads it says what is wrong with it."""

    name = "file"

    def __init__(self, accepted: str) -> None:
        self.accepted = accepted

    def convert(
        self,
        value: Any,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002 - click's signature
    ) -> str:
        """Refuse a blank name only."""
        if not str(value).strip():
            raise CoreError(
                f"{field_of(param)} is blank: give {self.accepted}.",
                field=field_of(param),
                seen="",
                accepted=self.accepted,
            )
        return str(value)


class OneOf(click.ParamType[str]):
    """One of a few words."""

    name = "word"

    def __init__(self, words: Sequence[str]) -> None:
        self.words = tuple(words)
        self.accepted = " or ".join(self.words)

    def convert(
        self,
        value: Any,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002 - click's signature
    ) -> str:
        """Refuse any other word."""
        if value not in self.words:
            raise CoreError(
                f'{field_of(param)} is "{shown(str(value))}"; say {self.accepted}.',
                field=field_of(param),
                seen=value,
                accepted=self.accepted,
            )
        return str(value)


def number_option(
    name: str,
    quantity: Quantity,
    words: str,
    *,
    required: bool = False,
    default: float | None = None,
) -> Callable[[Function], Function]:
    """Give a command an option that is a number.

    Parameters
    ----------
    name : str
        Long option with its dashes.
    quantity : Quantity
        What it is a number of.
    words : str
        Help, without the default.
    required : bool
        Whether it must be given.
    default : float, optional
        Taken where it is not given, and shown in the help.
    """
    settings: dict[str, Any] = {"required": required}
    if default is not None:
        settings["default"] = default
        words += f" [{default:g} where not given]"
    return click.option(name, type=NumberOf(quantity), metavar="N", help=words, **settings)


def file_argument(name: str, accepted: str) -> Callable[[Function], Function]:
    """Give a command a file as its argument."""
    return click.argument(name, type=FileName(accepted), metavar=f"{name.upper()}.csv")


def materials_option() -> Callable[[Function], Function]:
    """Give a command the option for the potter's own sheets."""
    return click.option(
        "--materials",
        type=FileName("a CSV file of analyses"),
        metavar="FILE.csv",
        help="Your own analyses: id, one column an oxide, LOI, density_g_cm3, name. "
        "They win over the library.",
    )
