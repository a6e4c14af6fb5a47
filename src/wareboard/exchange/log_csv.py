"""LOG.csv: the temperatures of a firing.

Columns ``hours`` or ``time`` (ISO 8601, with or without offset) and ``temp_c``
or ``temp_f``. Rows may stand in any order; putting them in order is the work
of :mod:`wareboard.core.firing.log`.
"""

from dataclasses import dataclass
from datetime import datetime

from wareboard.core.errors import CoreError
from wareboard.core.units import CLOCK_HOURS, TEMP_C, TEMP_F
from wareboard.exchange.csv_table import CsvTable, Headings, read_csv_table
from wareboard.exchange.refusals import TextRefused, shown
from wareboard.exchange.units import fahrenheit_to_celsius

HEADINGS = Headings(needed=(("hours", "time"), ("temp_c", "temp_f")))
MOST_LINES = 2_000_000
SECONDS_PER_HOUR = 3600.0
SHORTEST_TIME = len("2026-11-25T14:30")
TIME_WORDS = "a date and time such as 2026-11-25T14:30:00+01:00"
NO_OFFSET = (
    "The times have no offset from UTC: if the clocks were changed during this firing, "
    "an hour of it is wrong."
)


@dataclass(frozen=True)
class LogRows:
    """The rows of a log, in the order of the file.

    Attributes
    ----------
    hours : list of float
        Instants [h]: as given, or counted from the earliest time.
    temp_c : list of float
        Temperature at each [°C].
    cautions : tuple of str
        What to mind about the times.
    """

    hours: list[float]
    temp_c: list[float]
    cautions: tuple[str, ...]


def read_log_csv(path: str, *, field: str = "log") -> LogRows:
    """Read a firing log.

    Parameters
    ----------
    path : str
        Where it lies.
    field : str
        Option or argument that named it.

    Returns
    -------
    LogRows
        At least one row, in the order of the file.

    Raises
    ------
    FileRefused
        If the file cannot be read as a log.
    """
    table = read_csv_table(path, HEADINGS, field=field, most_rows=MOST_LINES)
    if "temp_c" in table.columns:
        temp_c = table.numbers("temp_c", TEMP_C)
    else:
        temp_c = [fahrenheit_to_celsius(temp_f) for temp_f in table.numbers("temp_f", TEMP_F)]
    if "hours" in table.columns:
        return LogRows(table.numbers("hours", CLOCK_HOURS), temp_c, ())
    times = _times(table)
    first = min(times)
    hours = [(time - first).total_seconds() / SECONDS_PER_HOUR for time in times]
    return LogRows(hours, temp_c, () if first.tzinfo else (NO_OFFSET,))


def _times(table: CsvTable) -> list[datetime]:
    """Read the column of times; all have an offset, or none has."""
    cells = table.columns["time"]
    try:
        times = list(map(datetime.fromisoformat, cells))
    except ValueError:
        times = []
    if not times or min(map(len, cells)) < SHORTEST_TIME:
        times = [_time(table, row) for row in range(len(cells))]
    with_offset = times[0].tzinfo is not None
    for row, time in enumerate(times):
        if (time.tzinfo is not None) is not with_offset:
            lacks = (
                "has no offset, others have one" if with_offset else "has an offset, others none"
            )
            raise table.refused(_no_time(cells[row], lacks), row)
    return times


def _time(table: CsvTable, row: int) -> datetime:
    cell = table.columns["time"][row]
    try:
        time = datetime.fromisoformat(cell)
    except ValueError:
        raise table.refused(_no_time(cell, "is no date and time"), row) from None
    if len(cell) < SHORTEST_TIME:
        raise table.refused(_no_time(cell, "lacks the time of day"), row)
    return time


def _no_time(cell: str, why: str) -> CoreError:
    return TextRefused(
        f'"{shown(cell)}" {why}; accepted is {TIME_WORDS}.',
        field="time",
        seen=shown(cell),
        accepted=TIME_WORDS,
    )
