"""What can be wrong with something typed or read.

::

    CoreError                a value that cannot be, or cannot be used here
    ├── NumberRefused        text that is no usable number
    │   └── NumberAsked      text that could be more than one number
    ├── TextRefused          a name or a note that cannot be kept
    └── FileRefused          a file, a row or a cell that cannot be read

All carry ``field``, ``seen``, ``accepted`` and ``say`` as their root does, so
that a form, a command and an import report them in the same way.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Self

from wareboard.core.errors import CoreError

LONGEST_SHOWN = 60


def shown(text: str) -> str:
    """Shorten a text so that it can stand in a sentence.

    Examples
    --------
    >>> shown("1,5")
    '1,5'
    """
    printable = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text[:LONGEST_SHOWN])
    return printable + "..." if len(text) > LONGEST_SHOWN else printable


class NumberRefused(CoreError):
    """Text that is no usable number."""


@dataclass(frozen=True)
class Choice:
    """One thing that an unclear number may mean.

    Attributes
    ----------
    value : float
        The number [unit of the quantity].
    typed : str
        Text that means this and nothing else.
    """

    value: float
    typed: str


class NumberAsked(NumberRefused):
    """Text that could be more than one number, or is likely a slip.

    Parameters
    ----------
    choices : sequence of Choice
        What may be meant, likeliest first.
    """

    def __init__(
        self, say: str, *, field: str, seen: object, accepted: str, choices: Sequence[Choice]
    ) -> None:
        super().__init__(say, field=field, seen=seen, accepted=accepted)
        self.choices = tuple(choices)


class TextRefused(CoreError):
    """A name or a note that cannot be kept."""


class FileRefused(CoreError):
    """A file, a row or a cell that cannot be read.

    Parameters
    ----------
    file : str
        Name of the file as it was given.
    line : int, optional
        Physical line of the file, counted from 1.
    """

    def __init__(
        self,
        say: str,
        *,
        field: str,
        seen: object,
        accepted: str,
        file: str,
        line: int | None = None,
    ) -> None:
        name = shown(file.replace("\\", "/").rstrip("/").rpartition("/")[2])
        place = name if line is None else f"{name}, line {line}"
        super().__init__(f"{place}: {say}", field=field, seen=seen, accepted=accepted)
        self.file = file
        self.line = line

    @classmethod
    def at(cls, error: CoreError, *, file: str, line: int) -> Self:
        """Say of an error in which row of which file it stands."""
        named = error.say.startswith(error.field)
        return cls(
            error.say if named else f"{error.field}: {error.say}",
            field=error.field,
            seen=error.seen,
            accepted=error.accepted,
            file=file,
            line=line,
        )
