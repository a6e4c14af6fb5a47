"""Oxides of the unity formula: molar masses and what each does in a glaze.

Sources
-------
The table ``oxides__iupac2021`` and its provenance file.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from wareboard.refdata.loading import Standing, UnknownNameError, load, number

TABLE = "oxides__iupac2021"

FLUXES = ("Li2O", "Na2O", "K2O", "Rb2O", "MgO", "CaO", "SrO", "BaO", "ZnO", "PbO")
"""What is summed to one. Iron, manganese, colourants and B2O3 stay outside."""

GASES = ("F", "SO3", "CO2", "H2O")
"""What leaves with the gases of the fire and is not in the fired glaze."""

OXYGEN_MOLAR_MASS_G_MOL = 15.999
"""Oxygen by itself, the difference of Fe2O3 and twice FeO in the table."""

OXYGEN_FOR_FLUORINE = OXYGEN_MOLAR_MASS_G_MOL / (2 * 18.998)
"""Mass of oxygen that takes the place of a mass of fluorine in an analysis."""


class Oxide(NamedTuple):
    """One oxide, or fluorine, with where its numbers come from.

    Attributes
    ----------
    symbol, name : str
        Formula and name.
    molar_mass_g_mol : float
        Molar mass [g mol⁻¹].
    molar_mass_standing : Standing
        How far the molar mass can be trusted.
    molar_mass_source : str
        Where it was read.
    unity_group : str
        Column of the unity formula by habit.
    role : str
        What it does in a glaze, in a few words.
    melting_point_c : float or None
        Melting point of the oxide by itself [°C].
    melting_point_standing : Standing or None
        How far the melting point can be trusted; None where there is none.
    melting_point_source : str
        Where it was read.
    behavior : str
        What it does, in a sentence.
    """

    symbol: str
    name: str
    molar_mass_g_mol: float
    molar_mass_standing: Standing
    molar_mass_source: str
    unity_group: str
    role: str
    melting_point_c: float | None
    melting_point_standing: Standing | None
    melting_point_source: str
    behavior: str


@cache
def all_oxides() -> Mapping[str, Oxide]:
    """Give every oxide of the table.

    Returns
    -------
    mapping of str to Oxide
        By formula, in the order of the unity formula: fluxes, colourants,
        amphoteric oxides, glass formers, gases.
    """
    return MappingProxyType({row["oxide"]: _oxide(row) for row in load(TABLE).rows})


def oxide(symbol: str) -> Oxide:
    """Look up an oxide by its formula.

    Parameters
    ----------
    symbol : str
        Formula such as ``"CaO"``; fluorine is ``"F"``.

    Returns
    -------
    Oxide
        What the table says of it.

    Raises
    ------
    UnknownNameError
        If the table does not hold it.
    """
    try:
        return all_oxides()[symbol]
    except KeyError:
        near = tuple(known for known in all_oxides() if known.lower() == symbol.lower())
        raise UnknownNameError("oxide", symbol, near) from None


def molar_mass_g_mol(symbol: str) -> float:
    """Give the molar mass of an oxide.

    Parameters
    ----------
    symbol : str
        Formula such as ``"CaO"``.

    Returns
    -------
    float
        Molar mass [g mol⁻¹].

    Raises
    ------
    UnknownNameError
        If the table does not hold the oxide.

    Examples
    --------
    >>> molar_mass_g_mol("CaO")
    56.077
    """
    return oxide(symbol).molar_mass_g_mol


@cache
def colorants() -> tuple[str, ...]:
    """Give the oxides that color a glaze.

    Returns
    -------
    tuple of str
        Those whose unity group names a colourant, in table order.
    """
    return tuple(
        symbol for symbol, found in all_oxides().items() if "colourant" in found.unity_group
    )


def _oxide(row: Mapping[str, str]) -> Oxide:
    """Build an oxide from its row."""
    melting = row["melting_point_source"]
    return Oxide(
        symbol=row["oxide"],
        name=row["name"],
        molar_mass_g_mol=float(row["molar_mass_g_mol"]),
        molar_mass_standing=Standing.of(row["molar_mass_source"]),
        molar_mass_source=row["molar_mass_source"],
        unity_group=row["unity_group"],
        role=row["role"],
        melting_point_c=number(row["melting_point_C"]),
        melting_point_standing=Standing.of(melting) if melting else None,
        melting_point_source=melting,
        behavior=row["behaviour_note"],
    )
