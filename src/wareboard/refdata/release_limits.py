"""How much of an element may come out of ware for food.

Only lead and cadmium have limits for ceramics in the places listed. The guide
values are for metals and alloys and stand here for comparison only. A value
below a limit is no proof of anything but that one test: a laboratory decides.

Sources
-------
The table ``release_limits__fda_eu_edqm`` and its provenance file.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from wareboard.refdata.loading import Standing, UnknownNameError, load

TABLE = "release_limits__fda_eu_edqm"

_GUIDE = "EDQM_SRL_mg_per_kg_food_METALS_guide_comparison_only"


class ReleaseLimit(NamedTuple):
    """What may be released of one element, in three places.

    Attributes
    ----------
    element : str
        Symbol.
    us_limit, us_source : str
        Limit in the United States with its unit, and where it was read.
    us_standing : Standing
        How far it can be trusted.
    eu_limit, eu_source : str
        Limit for ceramics in the European Union, and where it was read.
    eu_standing : Standing
        How far it can be trusted.
    metals_guide_mg_kg, metals_guide_source : str
        Release from metals and alloys into food [mg kg⁻¹, in words], for
        comparison only, and where it was read.
    metals_guide_standing : Standing
        How far it can be trusted.
    usual_test : str
        The test the limits belong to.
    """

    element: str
    us_limit: str
    us_standing: Standing
    us_source: str
    eu_limit: str
    eu_standing: Standing
    eu_source: str
    metals_guide_mg_kg: str
    metals_guide_standing: Standing
    metals_guide_source: str
    usual_test: str


@cache
def all_release_limits() -> Mapping[str, ReleaseLimit]:
    """Give every element of the table.

    Returns
    -------
    mapping of str to ReleaseLimit
        By symbol, in the order of the table.
    """
    return MappingProxyType({row["element"]: _limit(row) for row in load(TABLE).rows})


def release_limit(element: str) -> ReleaseLimit:
    """Look up one element.

    Parameters
    ----------
    element : str
        Symbol such as ``"Pb"``.

    Returns
    -------
    ReleaseLimit
        What the table says of it.

    Raises
    ------
    UnknownNameError
        If the table does not hold it.
    """
    try:
        return all_release_limits()[element]
    except KeyError:
        raise UnknownNameError("release limit", element) from None


def _limit(row: Mapping[str, str]) -> ReleaseLimit:
    """Build an element from its row."""
    return ReleaseLimit(
        element=row["element"],
        us_limit=row["US_limit"],
        us_standing=Standing.of(row["US_source"]),
        us_source=row["US_source"],
        eu_limit=row["EU_ceramic_limit"],
        eu_standing=Standing.of(row["EU_source"]),
        eu_source=row["EU_source"],
        metals_guide_mg_kg=row[_GUIDE],
        metals_guide_standing=Standing.of(row["EDQM_source"]),
        metals_guide_source=row["EDQM_source"],
        usual_test=row["usual_test"],
    )
