"""Read a chemical formula, and turn it into the analysis of an ideal mineral.

Formulas are written as in the tables: ``Al2Si2O5(OH)4``, ``Na2B4O7*10H2O``,
``0.3Na2O*0.7CaO*2SiO2``. Water of crystallisation and oxides that stand side
by side are joined by ``*`` or ``·``.

Sources
-------
Molar masses: table ``oxides__iupac2021``. An element's own molar mass is what
is left of its oxide without the oxygen.
"""

import re
from math import fsum

from wareboard.core.chemistry.analysis import Analysis
from wareboard.core.errors import CompositionError
from wareboard.refdata.loading import Standing
from wareboard.refdata.oxides import (
    OXYGEN_FOR_FLUORINE,
    OXYGEN_MOLAR_MASS_G_MOL,
    all_oxides,
    molar_mass_g_mol,
)

_TOKEN = re.compile(r"(?P<element>[A-Z][a-z]?)|(?P<open>\()|(?P<close>\))")
_COUNT = re.compile(r"\d+(?:\.\d+)?")

_UNUSUAL_FORMS = {"FeO", "Fe3O4", "Cu2O", "MnO2", "Mn2O3", "Mn3O4", "Co3O4"}
"""Oxides that an element is not counted in unless somebody says so."""


def parse_formula(formula: str) -> dict[str, float]:
    """Count the atoms in a formula.

    Parameters
    ----------
    formula : str
        As ``"KAlSi3O8"`` or ``"Na2B4O7*10H2O"``; counts may have decimals.

    Returns
    -------
    dict of str to float
        Atoms of each element.

    Raises
    ------
    CompositionError
        If the formula cannot be read.

    Examples
    --------
    >>> parse_formula("CaMg(CO3)2")
    {'Ca': 1.0, 'Mg': 1.0, 'C': 2.0, 'O': 6.0}
    """
    atoms: dict[str, float] = {}
    for part in re.split(r"[*·]", formula.replace(" ", "")):
        times, start = _count(part, 0)
        for element, count in _atoms(part, start, formula).items():
            atoms[element] = atoms.get(element, 0.0) + times * count
    return atoms


def element_and_oxide(oxide: str) -> tuple[str, float, float]:
    """Split an oxide into its element and oxygen.

    Parameters
    ----------
    oxide : str
        Formula such as ``"Al2O3"``.

    Returns
    -------
    tuple of (str, float, float)
        The element, its atoms and the oxygen atoms in one molecule.

    Raises
    ------
    CompositionError
        If it is not an oxide that can be counted here.
    """
    if oxide not in all_oxides() or oxide == "F":
        raise CompositionError(
            f"{oxide} is not an oxide that can be counted here.",
            field="oxide",
            seen=oxide,
            accepted="an oxide such as Al2O3",
        )
    atoms = parse_formula(oxide)
    oxygen = atoms.pop("O")
    ((element, count),) = atoms.items()
    return element, count, oxygen


def ideal_analysis(formula: str, *, mineral_id: str = "", ferrous: float = 0.0) -> Analysis:
    """Work out the analysis of an ideal mineral from its formula.

    Parameters
    ----------
    formula : str
        As for `parse_formula`.
    mineral_id : str, optional
        Id for the analysis; the formula where empty.
    ferrous : float, optional
        Atoms of iron to be counted as FeO; the rest is Fe2O3.

    Returns
    -------
    Analysis
        Weight per cent of each oxide; water, carbon dioxide and the oxygen
        that is given off or taken up make the loss on ignition.

    Raises
    ------
    CompositionError
        If the formula cannot be read, holds an element without an oxide here,
        or has less iron than is called ferrous.

    Notes
    -----
    Oxygen balance: what the formula has, and half an oxygen for each fluorine,
    less what the oxides need, leaves as gas; negative where it is taken up.

    Examples
    --------
    >>> round(ideal_analysis("KAlSi3O8").oxides["K2O"], 2)
    16.92
    """
    atoms = parse_formula(formula)
    oxygen = atoms.pop("O", 0.0)
    fluorine = atoms.pop("F", 0.0)
    molecules = _molecules(atoms, ferrous, formula)
    mass = {oxide: n * molar_mass_g_mol(oxide) for oxide, n in molecules.items()}
    if fluorine:
        mass["F"] = fluorine * molar_mass_g_mol("F")
    needed = fsum(n * element_and_oxide(oxide)[2] for oxide, n in molecules.items())
    spare = (oxygen + fluorine / 2 - needed) * OXYGEN_MOLAR_MASS_G_MOL
    whole = fsum([*mass.values(), spare, -OXYGEN_FOR_FLUORINE * mass.get("F", 0.0)])
    percent = {oxide: 100.0 * m / whole for oxide, m in mass.items()}
    return Analysis(
        id=mineral_id or formula,
        oxides={oxide: p for oxide, p in percent.items() if oxide not in {"H2O", "CO2"}},
        loi_percent=fsum([percent.get("H2O", 0.0), percent.get("CO2", 0.0), 100.0 * spare / whole]),
        standing=Standing.COMPUTED,
    )


def _molecules(atoms: dict[str, float], ferrous: float, formula: str) -> dict[str, float]:
    """Count the oxide molecules that the cations make."""
    if not 0.0 <= ferrous <= atoms.get("Fe", 0.0):
        raise CompositionError(
            f"{formula} has {atoms.get('Fe', 0.0):g} iron, so {ferrous:g} of it cannot be ferrous.",
            field="ferrous",
            seen=ferrous,
            accepted="from 0 to the iron of the formula",
        )
    usual = _usual_oxides()
    molecules = {"FeO": ferrous} if ferrous else {}
    for element, count in atoms.items():
        if element not in usual:
            raise CompositionError(
                f"{formula} holds {element}, which has no oxide here.",
                field="formula",
                seen=element,
                accepted=f"formulas of O, F, {', '.join(usual)}",
            )
        oxide, per_molecule = usual[element]
        rest = count - ferrous if element == "Fe" else count
        if rest > 0.0:
            molecules[oxide] = rest / per_molecule
    return molecules


def _usual_oxides() -> dict[str, tuple[str, float]]:
    """Give for each element the oxide it is counted in, and its atoms there."""
    usual = {}
    for oxide in all_oxides():
        if oxide != "F" and oxide not in _UNUSUAL_FORMS:
            element, count, _ = element_and_oxide(oxide)
            usual[element] = (oxide, count)
    return usual


def _count(text: str, at: int) -> tuple[float, int]:
    """Read a number, one where there is none, and where it ends."""
    found = _COUNT.match(text, at)
    return (float(found.group()), found.end()) if found else (1.0, at)


def _atoms(part: str, at: int, formula: str) -> dict[str, float]:
    """Count the atoms of a part that holds no joining sign."""
    groups: list[dict[str, float]] = [{}]
    if at == len(part):
        raise _unreadable(formula)
    while at < len(part):
        token = _TOKEN.match(part, at)
        if token is None:
            raise _unreadable(formula)
        if token["open"]:
            groups.append({})
            at = token.end()
            continue
        times, at = _count(part, token.end())
        if token["close"]:
            inner = groups.pop()
            if not groups:
                raise _unreadable(formula)
        else:
            inner = {token["element"]: 1.0}
        for element, count in inner.items():
            groups[-1][element] = groups[-1].get(element, 0.0) + times * count
    if len(groups) != 1:
        raise _unreadable(formula)
    return groups[0]


def _unreadable(formula: str) -> CompositionError:
    """Say that a formula cannot be read."""
    return CompositionError(
        f"The formula {formula!r} cannot be read.",
        field="formula",
        seen=formula,
        accepted="a formula such as KAlSi3O8, CaMg(CO3)2 or Na2B4O7*10H2O",
    )
