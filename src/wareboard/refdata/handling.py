"""By which caution a powder is handled, found by what potters call it.

Flint, china clay or spar may stand in a studio's stores under these names
alone. Each name leads to the row of the table of materials whose caution holds.

Sources
-------
The table ``handled_as__wareboard2026`` and its provenance file: common practice.
"""

import re
from collections.abc import Mapping
from functools import cache

from wareboard.refdata.loading import load

TABLE = "handled_as__wareboard2026"
WORD = re.compile(r"[^\W\d_]+")


def handled_as(name: str) -> tuple[str, ...]:
    """Find the rows of the table of materials that a name speaks of.

    Parameters
    ----------
    name : str
        As the potter calls it.

    Returns
    -------
    tuple of str
        Ids in the order of the words; of two names that overlap the longer
        one counts. Empty where no word is known.

    Examples
    --------
    >>> handled_as("China clay, fine")
    ('kaolin_primary_typical',)
    >>> handled_as("soda ash")
    ('soda_ash',)
    """
    names = _rows_by_words()
    longest = max(map(len, names))
    words = tuple(WORD.findall(name.casefold()))
    found: list[str] = []
    place = 0
    while place < len(words):
        for length in range(longest, 0, -1):
            row = names.get(words[place : place + length])
            if row is not None:
                found.append(row)
                place += length
                break
        else:
            place += 1
    return tuple(found)


@cache
def _rows_by_words() -> Mapping[tuple[str, ...], str]:
    """Give the row for each name, the name as its words."""
    return {tuple(row["name"].split()): row["handled_as"] for row in load(TABLE).rows}
