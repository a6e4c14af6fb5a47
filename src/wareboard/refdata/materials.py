"""Raw materials: analyses, loss, density and what to mind when handling them.

Three kinds of rows must be told apart: ideal minerals computed from their
formula, published or certified analyses of one named powder, and typical
figures. None of them is the bag on the shelf; its own sheet wins.

Sources
-------
The table ``materials__wareboard2026`` and its provenance file; each row names
the source of its analysis and of its density.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from wareboard.refdata.loading import Standing, UnknownNameError, load, near_names, number

TABLE = "materials__wareboard2026"

_FIRST_OXIDE = "SiO2"
_LAST_OXIDE = "F"


class Material(NamedTuple):
    """One material of the built-in library.

    Attributes
    ----------
    id, name : str
        Key and name.
    kind : str
        theoretical, certified, published, typical or illustrative.
    formula : str
        Chemical formula of an ideal material, else empty.
    oxides : mapping of str to float
        Analysis [weight per cent], only what is present.
    loi_percent : float or None
        Loss on ignition [weight per cent]; None where the source gives none.
    analysis_standing : Standing
        How far the analysis can be trusted.
    analysis_source : str
        Where it was read.
    density_g_cm3 : float or None
        Density of the solid [g cm⁻³].
    density_standing : Standing or None
        How far the density can be trusted; None where there is none.
    density_source : str
        Where it was read.
    role : str
        What it is for.
    plasticity : str
        Of a clay, in words; empty for the rest.
    dry_shrinkage_min_percent, dry_shrinkage_max_percent : float or None
        Linear drying shrinkage of a clay [%].
    gas_released, gas_temperature : str
        What it gives off, and where [°C, in words].
    water_solubility : str
        In words.
    hazard_note : str
        What to mind when handling it.
    note : str
        Anything else.
    """

    id: str
    name: str
    kind: str
    formula: str
    oxides: Mapping[str, float]
    loi_percent: float | None
    analysis_standing: Standing
    analysis_source: str
    density_g_cm3: float | None
    density_standing: Standing | None
    density_source: str
    role: str
    plasticity: str
    dry_shrinkage_min_percent: float | None
    dry_shrinkage_max_percent: float | None
    gas_released: str
    gas_temperature: str
    water_solubility: str
    hazard_note: str
    note: str


@cache
def all_materials() -> Mapping[str, Material]:
    """Give every material of the library.

    Returns
    -------
    mapping of str to Material
        By id, in the order of the table.
    """
    return MappingProxyType({row["id"]: _material(row) for row in load(TABLE).rows})


@cache
def material(material_id: str) -> Material:
    """Look up a material of the library.

    Parameters
    ----------
    material_id : str
        Id such as ``"calcite_ideal"``.

    Returns
    -------
    Material
        What the table says of it.

    Raises
    ------
    UnknownNameError
        If the library does not hold it; ``near`` names what looks like it.
    """
    rows = _rows()
    try:
        return _material(rows[material_id])
    except KeyError:
        near = near_names(material_id, {key: f"{key} {row['name']}" for key, row in rows.items()})
        raise UnknownNameError("material", material_id, near) from None


@cache
def _rows() -> Mapping[str, Mapping[str, str]]:
    """Give the rows by id."""
    return {row["id"]: row for row in load(TABLE).rows}


def _material(row: Mapping[str, str]) -> Material:
    """Build a material from its row."""
    columns = list(row)
    oxides = columns[columns.index(_FIRST_OXIDE) : columns.index(_LAST_OXIDE) + 1]
    density = row["density_source"]
    return Material(
        id=row["id"],
        name=row["name"],
        kind=row["row_kind"],
        formula=row["formula"],
        oxides=MappingProxyType({o: float(row[o]) for o in oxides if row[o]}),
        loi_percent=number(row["LOI"]),
        analysis_standing=Standing.of(row["analysis_source"]),
        analysis_source=row["analysis_source"],
        density_g_cm3=number(row["density_g_cm3"]),
        density_standing=Standing.of(density) if density else None,
        density_source=density,
        role=row["role"],
        plasticity=row["plasticity"],
        dry_shrinkage_min_percent=number(row["dry_shrinkage_pct_min"]),
        dry_shrinkage_max_percent=number(row["dry_shrinkage_pct_max"]),
        gas_released=row["gas_released"],
        gas_temperature=row["gas_temperature_C"],
        water_solubility=row["water_solubility"],
        hazard_note=row["hazard_note"],
        note=row["note"],
    )
