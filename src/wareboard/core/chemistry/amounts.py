"""Masses of oxides, amounts of oxides, and the unity formula.

The unity formula (Seger formula) counts molecules and scales them so that the
fluxes add up to one. Which oxides are fluxes is a convention: here Li2O Na2O
K2O Rb2O MgO CaO SrO BaO ZnO PbO. Iron, manganese, the colourants and B2O3 are
not in the sum. Books that count them give other numbers for the same glaze.

Sums are exact to the last digit, so the order of the oxides never matters.

Sources
-------
Molar masses: table ``oxides__iupac2021``.
"""

from collections.abc import Mapping
from math import fsum, isfinite

from wareboard.core.chemistry.analysis import known_oxide
from wareboard.core.errors import CompositionError
from wareboard.refdata.oxides import FLUXES, GASES, all_oxides, molar_mass_g_mol

_OXYGENS_OF_ACID = {"SiO2": 2, "TiO2": 2, "ZrO2": 2, "SnO2": 2}
_OXYGENS_OF_BASE = {**dict.fromkeys(FLUXES, 1), "Al2O3": 3}


def amounts(masses: Mapping[str, float]) -> dict[str, float]:
    """Turn masses of oxides into amounts of substance.

    Parameters
    ----------
    masses : mapping of str to float
        Mass of each oxide [any mass unit, or weight per cent].

    Returns
    -------
    dict of str to float
        Amount of each oxide that is there [mol, if the masses are in g], in
        the order of the unity formula.

    Raises
    ------
    CompositionError
        If an oxide is unknown, or a mass negative or not finite.

    Examples
    --------
    >>> amounts({"SiO2": 60.083, "CaO": 56.077})
    {'CaO': 1.0, 'SiO2': 1.0}
    """
    _refuse(masses)
    return {
        oxide: masses[oxide] / molar_mass_g_mol(oxide)
        for oxide in all_oxides()
        if masses.get(oxide, 0.0) > 0.0
    }


def masses(amounts_mol: Mapping[str, float]) -> dict[str, float]:
    """Turn amounts of oxides into masses.

    Parameters
    ----------
    amounts_mol : mapping of str to float
        Amount of each oxide [mol].

    Returns
    -------
    dict of str to float
        Mass of each oxide that is there [g], in the order of the unity formula.

    Raises
    ------
    CompositionError
        If an oxide is unknown, or an amount negative or not finite.
    """
    _refuse(amounts_mol)
    return {
        oxide: amounts_mol[oxide] * molar_mass_g_mol(oxide)
        for oxide in all_oxides()
        if amounts_mol.get(oxide, 0.0) > 0.0
    }


def to_hundred(composition: Mapping[str, float]) -> dict[str, float]:
    """Scale a composition so that it adds up to 100.

    Parameters
    ----------
    composition : mapping of str to float
        Masses or amounts [any unit].

    Returns
    -------
    dict of str to float
        Per cent of the sum, in the order of the unity formula.

    Raises
    ------
    CompositionError
        If there is nothing, or something negative or not finite.
    """
    _refuse(composition)
    total = fsum(composition.values())
    if total == 0.0:
        raise CompositionError(
            "There is nothing in this composition to calculate with.",
            field="oxides",
            seen=0.0,
            accepted="at least one oxide",
        )
    return {
        oxide: 100.0 * (composition[oxide] / total)
        for oxide in all_oxides()
        if composition.get(oxide, 0.0) > 0.0
    }


def mass_to_amount_percent(mass_percent: Mapping[str, float]) -> dict[str, float]:
    """Turn weight per cent into molecules per cent.

    Parameters
    ----------
    mass_percent : mapping of str to float
        Oxides [weight per cent]; need not add up to 100.

    Returns
    -------
    dict of str to float
        Oxides [per cent of all molecules], adding up to 100.

    Raises
    ------
    CompositionError
        As `amounts` and `to_hundred`.
    """
    return to_hundred(amounts(mass_percent))


def amount_to_mass_percent(amount_percent: Mapping[str, float]) -> dict[str, float]:
    """Turn molecules, in per cent or in a unity formula, into weight per cent.

    Parameters
    ----------
    amount_percent : mapping of str to float
        Oxides [per cent of all molecules, or amounts of a formula].

    Returns
    -------
    dict of str to float
        Oxides [weight per cent], adding up to 100.

    Raises
    ------
    CompositionError
        As `masses` and `to_hundred`.
    """
    return to_hundred(masses(amount_percent))


def unity(amounts_mol: Mapping[str, float]) -> dict[str, float]:
    """Scale amounts so that the fluxes add up to one.

    Parameters
    ----------
    amounts_mol : mapping of str to float
        Amount of each oxide [mol].

    Returns
    -------
    dict of str to float
        Unity formula without the gases, in its own order.

    Raises
    ------
    CompositionError
        If there is no flux, or something negative or not finite.

    Examples
    --------
    >>> unity({"K2O": 0.6, "CaO": 1.4, "Al2O3": 1.0, "SiO2": 8.0})
    {'K2O': 0.3, 'CaO': 0.7, 'Al2O3': 0.5, 'SiO2': 4.0}
    """
    _refuse(amounts_mol)
    fluxes = flux_sum(amounts_mol)
    if fluxes == 0.0:
        raise CompositionError(
            "There is no flux in this recipe, so it has no unity formula.",
            field="material",
            seen=0.0,
            accepted=f"a recipe with at least one of {', '.join(FLUXES)}",
        )
    return {
        oxide: amounts_mol[oxide] / fluxes
        for oxide in all_oxides()
        if oxide not in GASES and amounts_mol.get(oxide, 0.0) > 0.0
    }


def flux_sum(amounts_mol: Mapping[str, float]) -> float:
    """Add up the fluxes.

    Parameters
    ----------
    amounts_mol : mapping of str to float
        Amount of each oxide [mol].

    Returns
    -------
    float
        Sum over the fluxes of the convention [mol].
    """
    return fsum(amounts_mol.get(flux, 0.0) for flux in FLUXES)


def oxygen_ratio(amounts_mol: Mapping[str, float]) -> float:
    """Weigh acid against base by their oxygen, as Binns did for matt glazes.

    Parameters
    ----------
    amounts_mol : mapping of str to float
        Amount of each oxide [mol]; a unity formula will do.

    Returns
    -------
    float
        Oxygen of SiO2, TiO2, ZrO2 and SnO2 over oxygen of the fluxes and
        Al2O3; a ratio. Boron, phosphorus and the colourants stay outside.

    Raises
    ------
    CompositionError
        If there is no base.

    Notes
    -----
    For silica and alumina alone this is ``2 SiO2 / (1 + 3 Al2O3)`` [Binns]_.

    .. [Binns] C. F. Binns, The Potter's Craft, 1910.
    """
    _refuse(amounts_mol)
    acid = fsum(n * amounts_mol.get(oxide, 0.0) for oxide, n in _OXYGENS_OF_ACID.items())
    base = fsum(n * amounts_mol.get(oxide, 0.0) for oxide, n in _OXYGENS_OF_BASE.items())
    if base == 0.0:
        raise CompositionError(
            "There is neither flux nor alumina here to weigh the silica against.",
            field="oxides",
            seen=0.0,
            accepted="a composition with a flux or alumina",
        )
    return acid / base


def _refuse(composition: Mapping[str, float]) -> None:
    """Raise CompositionError for what cannot be an amount of an oxide."""
    for oxide, amount in composition.items():
        known_oxide(oxide)
        if not (isfinite(amount) and amount >= 0.0):
            raise CompositionError(
                f"The amount of {oxide} cannot be {amount}.",
                field=oxide,
                seen=amount,
                accepted="a number, 0 or more",
            )
