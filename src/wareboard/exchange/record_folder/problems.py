"""What can be wrong with a record folder, said so that a person can mend it.

::

    CoreError
    ├── FolderRefused      a folder that cannot be taken in, with all its problems
    └── FolderNotWritten   a record that could not be handed out; nothing changed

A folder is taken in whole or not at all, so its problems are collected first
and told together.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.core.errors import CoreError
from wareboard.exchange.refusals import shown

SENTENCES_SHOWN = 20


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with a record folder.

    Attributes
    ----------
    file : str
        Path inside the folder, with forward slashes.
    row : int or None
        Row as a spreadsheet counts it: the header is row 1.
    column : str
        Column at fault, empty where the whole row or file is.
    seen : str
        What stands there.
    accepted : str
        What would do, in words.
    say : str
        All of this in one sentence.
    """

    file: str
    row: int | None
    column: str
    seen: str
    accepted: str
    say: str


class EnoughProblems(Exception):
    """The list of problems is full."""


class Findings:
    """The problems found so far.

    Parameters
    ----------
    most : int
        How many are kept; then the search stops.
    """

    def __init__(self, most: int) -> None:
        self.problems: list[Problem] = []
        self._most = most

    def add(
        self,
        file: str,
        fault: str,
        *,
        accepted: str,
        row: int | None = None,
        column: str = "",
        seen: str = "",
        text_line: int | None = None,
    ) -> None:
        """Keep one problem.

        Parameters
        ----------
        file : str
            Path inside the folder.
        fault : str
            What is wrong, to follow the place and the value in a sentence.
        accepted : str
            What would do, as a request.
        row : int, optional
            Row of the spreadsheet, header 1.
        column : str
            Column at fault.
        seen : str
            What stands there.
        text_line : int, optional
            Line in a text editor, told where it is not the row.

        Raises
        ------
        EnoughProblems
            If the list is full with this one.
        """
        place = shown_path(file)
        if row is not None:
            place += f", row {row}"
            if text_line is not None and text_line != row:
                place += f" (line {text_line} in a text editor)"
        if column:
            place += f", column {shown(column)}"
        value = f'"{shown(seen)}" ' if seen else ""
        say = f"{place}: {value}{fault}; {accepted}."
        self.problems.append(Problem(file, row, column, shown(seen), accepted, say))
        if len(self.problems) >= self._most:
            raise EnoughProblems


class FolderRefused(CoreError):
    """A folder that cannot be taken in; nothing of it was.

    Parameters
    ----------
    problems : sequence of Problem
        At least one.
    all_told : bool
        False if the search stopped because the list was full.

    Attributes
    ----------
    problems : tuple of Problem
        In the order in which the folder was gone through.
    all_told : bool
        As given.
    """

    def __init__(self, problems: Sequence[Problem], *, all_told: bool = True) -> None:
        first = problems[0]
        super().__init__(
            first.say,
            field=first.column or "path",
            seen=first.seen,
            accepted=first.accepted,
        )
        self.problems = tuple(problems)
        self.all_told = all_told

    def __str__(self) -> str:
        """Tell the problems, one a line, the first twenty."""
        lines = [problem.say for problem in self.problems[:SENTENCES_SHOWN]]
        more = len(self.problems) - len(lines)
        if more or not self.all_told:
            at_least = "" if self.all_told else "at least "
            lines.append(f"And {at_least}{more} more." if more else "There may be more.")
        return "\n".join(lines)


class FolderNotWritten(CoreError):
    """A record that could not be handed out; what stood at the target stands there still."""


def shown_path(path: str) -> str:
    """Show the whole of a path that is one of ours, and the start of any other.

    Examples
    --------
    >>> shown_path("pots.csv")
    'pots.csv'
    """
    return (
        path if path.isascii() and path.isprintable() and len(path) <= LONGEST_PATH else shown(path)
    )


LONGEST_PATH = 90
