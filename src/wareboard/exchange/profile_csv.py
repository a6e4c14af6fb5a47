"""PROFILE.csv: the outline of a pot.

Columns ``r_cm`` and ``z_cm``: distance from the axis and height of points on
the outside, in order from the foot to the rim.
"""

from dataclasses import replace

from wareboard.core.units import LENGTH_CM
from wareboard.exchange.csv_table import Headings, read_csv_table

HEADINGS = Headings(needed=(("r_cm",), ("z_cm",)))
MOST_LINES = 10_000
RADIUS_CM = replace(LENGTH_CM, name="distance from the axis")
HEIGHT_CM = replace(LENGTH_CM, name="height", lowest=-1e4, words="centimetres from -10000 to 10000")


def read_profile_csv(path: str, *, field: str = "profile") -> list[tuple[float, float]]:
    """Read an outline.

    Parameters
    ----------
    path : str
        Where it lies.
    field : str
        Option or argument that named it.

    Returns
    -------
    list of (float, float)
        Distance from the axis and height of each point [cm], in the order of
        the file.

    Raises
    ------
    FileRefused
        If the file cannot be read as an outline.
    """
    table = read_csv_table(path, HEADINGS, field=field, most_rows=MOST_LINES)
    return list(
        zip(table.numbers("r_cm", RADIUS_CM), table.numbers("z_cm", HEIGHT_CM), strict=True)
    )
