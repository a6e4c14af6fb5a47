"""How thick a coat one dip leaves, before it is hard to believe.

Sources
-------
None that measured it: dry coats of 0.4 to 0.8 mm are ordinary, and 1 to 2 mm
thick on purpose (common practice).
"""

from collections.abc import Sequence

from wareboard.core.coat.words import check_coat_mm

THICK_ON_PURPOSE_MM = 2.0
"""A dry coat beyond that is hardly one dip (common practice) [mm]."""

TIMES_GOOD = 3.0
"""A coat so many times the thickest good one is hard to believe."""

THICK_GLAZE = 1.5
"""A glaze that is put on thick may be put on thicker still by this ratio."""


def most_of_one_dip_mm(good_mm: Sequence[float]) -> float:
    """Give the thickest coat of one dip that is not asked about.

    Parameters
    ----------
    good_mm : sequence of float
        Dry coats of this glaze's good pots [mm]; may be empty.

    Returns
    -------
    float
        Dry thickness [mm].

    Raises
    ------
    ShapeError
        If a thickness cannot be.

    Examples
    --------
    >>> most_of_one_dip_mm([0.4, 0.5])
    1.5
    """
    most_mm = max((check_coat_mm(mm, field="good-mm") for mm in good_mm), default=None)
    if most_mm is None:
        return THICK_ON_PURPOSE_MM
    return min(TIMES_GOOD * most_mm, max(THICK_ON_PURPOSE_MM, THICK_GLAZE * most_mm))
