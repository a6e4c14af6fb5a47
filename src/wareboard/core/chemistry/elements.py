"""Elements and their oxides: two ways to write one analysis.

Sources
-------
Molar masses: table ``oxides__iupac2021``.
"""

from math import isfinite

from wareboard.core.chemistry.formula import element_and_oxide
from wareboard.core.errors import CompositionError
from wareboard.refdata.oxides import OXYGEN_MOLAR_MASS_G_MOL, molar_mass_g_mol


def element_share(oxide: str) -> float:
    """Give the share of the element in the mass of its oxide.

    Parameters
    ----------
    oxide : str
        Formula such as ``"Al2O3"``.

    Returns
    -------
    float
        Mass of the element over mass of the oxide; a fraction.

    Raises
    ------
    CompositionError
        If it is not an oxide that can be counted here.

    Examples
    --------
    >>> round(element_share("SiO2"), 4)
    0.4674
    """
    _, _, oxygen = element_and_oxide(oxide)
    return 1.0 - oxygen * OXYGEN_MOLAR_MASS_G_MOL / molar_mass_g_mol(oxide)


def element_to_oxide_percent(oxide: str, element_percent: float) -> float:
    """Turn weight per cent of an element into weight per cent of its oxide.

    Parameters
    ----------
    oxide : str
        The oxide wanted, such as ``"Al2O3"``.
    element_percent : float
        The element [weight per cent].

    Returns
    -------
    float
        The oxide [weight per cent].

    Raises
    ------
    CompositionError
        If the oxide is unknown, or the amount negative or not finite.
    """
    return _percent(element_percent) / element_share(oxide)


def oxide_to_element_percent(oxide: str, oxide_percent: float) -> float:
    """Turn weight per cent of an oxide into weight per cent of its element.

    Parameters
    ----------
    oxide : str
        The oxide given, such as ``"Al2O3"``.
    oxide_percent : float
        The oxide [weight per cent].

    Returns
    -------
    float
        The element [weight per cent].

    Raises
    ------
    CompositionError
        If the oxide is unknown, or the amount negative or not finite.
    """
    return _percent(oxide_percent) * element_share(oxide)


def as_other_oxide_percent(oxide: str, oxide_percent: float, other: str) -> float:
    """Write an oxide as another oxide of the same element.

    Parameters
    ----------
    oxide : str
        The oxide given, such as ``"FeO"``.
    oxide_percent : float
        The oxide [weight per cent].
    other : str
        The oxide wanted, such as ``"Fe2O3"``.

    Returns
    -------
    float
        The same element as the other oxide [weight per cent].

    Raises
    ------
    CompositionError
        If the two are not oxides of one element, or the amount cannot be.

    Examples
    --------
    >>> round(as_other_oxide_percent("FeO", 1.0, "Fe2O3"), 4)
    1.1113
    """
    if element_and_oxide(oxide)[0] != element_and_oxide(other)[0]:
        raise CompositionError(
            f"{oxide} cannot be written as {other}: they hold different elements.",
            field="oxide",
            seen=other,
            accepted=f"another oxide of the element in {oxide}",
        )
    return element_to_oxide_percent(other, oxide_to_element_percent(oxide, oxide_percent))


def _percent(percent: float) -> float:
    """Give an amount back, or raise CompositionError where it cannot be one."""
    if not (isfinite(percent) and percent >= 0.0):
        raise CompositionError(
            f"An amount cannot be {percent} %.",
            field="percent",
            seen=percent,
            accepted="a number of weight per cent, 0 or more",
        )
    return percent
