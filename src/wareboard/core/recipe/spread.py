"""How far the bag in hand may differ from its analysis.

Two cases are told apart. Where the analysis is the bag's own sheet, lots of one
product differ from each other by about 0.15 % times the square root of the
percentage, and by 0.5 % at most: 12 % K2O means 12 ± 0.5 (one standard
deviation). That covers the sale tolerances of feldspars that were read, taken
as two standard deviations, and the control limits of kaolin, ball clay and
whiting that are known from memory.

Where the analysis is from the library, the bag is another powder of the same
kind. Ideal minerals and typical powders of the library differ from the
published and certified powders of the same kind by five times as much, in two
thirds of some ninety comparisons; so five times as much is taken.

A deviation that comes with the analysis goes before both. Oxides that the
analysis does not name are taken as absent without doubt, and the oxides of one
powder as independent; both make this a first estimate, no more.

Densities: where the library names two sources for one mineral they differ by
1.7 % (root mean square), so each is taken at 1.2 %; those from memory at 3 %, a
judgement. The density of a powder whose sheet is silent is taken as 2.6 g/cm³
with 14 %, the spread of the white powders of the library.

Sources
-------
Trade specifications of feldspars, and the table ``materials__wareboard2026``.
"""

from math import fsum, sqrt

from wareboard.core.chemistry.analysis import LOI, Analysis
from wareboard.core.doubt import NORMAL_90
from wareboard.refdata.loading import Standing

USUAL_SOLID_G_CM3 = 2.6
"""Density of a powder whose sheet is silent [g cm⁻³]."""

BASIS_OF_ANALYSES = (
    "spread between lots of one product where a powder has its own sheet, five times as much "
    "where the analysis is a general one; 90 %"
)
BASIS_OF_DENSITIES = (
    "one standard deviation of a density is 1.2 % as sources differ, 3 % where from memory, 14 % "
    "where 2.6 was taken; 90 %"
)

_LOT_SD = 0.15
_LOT_SD_AT_MOST = 0.5
_GENERAL = 5.0
_DENSITY_SD = {Standing.FROM_MEMORY: 0.03, Standing.ILLUSTRATIVE: 0.03}
_DENSITY_SD_USUAL = 0.012
_DENSITY_SD_UNKNOWN = 0.14


def percent_sd(analysis: Analysis, column: str) -> float:
    """Give the standard deviation of one number of an analysis.

    Parameters
    ----------
    analysis : Analysis
        Of one powder.
    column : str
        An oxide, or ``"LOI"``.

    Returns
    -------
    float
        Standard deviation [weight per cent]; 0 where the analysis has none of
        it.
    """
    if column in analysis.sd_percent:
        return analysis.sd_percent[column]
    percent = analysis.loi_percent if column == LOI else analysis.oxides.get(column)
    lots = min(_LOT_SD * sqrt(abs(percent or 0.0)), _LOT_SD_AT_MOST)
    return lots if analysis.standing is Standing.GIVEN else _GENERAL * lots


def density_g_cm3(analysis: Analysis) -> tuple[float, float]:
    """Give the density of a powder and its standard deviation.

    Parameters
    ----------
    analysis : Analysis
        Of one powder.

    Returns
    -------
    tuple of (float, float)
        Density and standard deviation [g cm⁻³].
    """
    if analysis.density_g_cm3 is None:
        return USUAL_SOLID_G_CM3, USUAL_SOLID_G_CM3 * _DENSITY_SD_UNKNOWN
    density = analysis.density_g_cm3
    if analysis.density_sd_g_cm3 is not None:
        return density, analysis.density_sd_g_cm3
    return density, density * _DENSITY_SD.get(analysis.density_standing, _DENSITY_SD_USUAL)


def ratio_half_width(
    ratio: float, below: float, entries: list[tuple[float, float, float]]
) -> float:
    """Give the half width of a ratio of two sums over uncertain numbers.

    Parameters
    ----------
    ratio : float
        The ratio itself.
    below : float
        The sum below the line.
    entries : list of (float, float, float)
        For each uncertain number its weight in the sum above, its weight in
        the sum below, and its standard deviation.

    Returns
    -------
    float
        Half of the 90 % interval [unit of the ratio].

    Notes
    -----
    First order: ``sd² = sum(((a - ratio b) / below)² s²)``.
    """
    steps = [(a - ratio * b) / below * s for a, b, s in entries]
    return NORMAL_90 * sqrt(fsum(step * step for step in steps))
