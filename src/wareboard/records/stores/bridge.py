"""Sheets and materials, turned into analyses the core reckons with."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.db.models import OuterRef, Subquery

from wareboard.core.answer import Interval
from wareboard.core.chemistry import LOI, Analysis, Standing, analysis_of
from wareboard.core.doubt import NORMAL_90, around
from wareboard.core.errors import CompositionError
from wareboard.core.recipe.spread import BASIS_OF_ANALYSES, percent_sd
from wareboard.exchange.typed_sheet import USUAL_TOTAL_PERCENT
from wareboard.refdata.materials import Material as Row
from wareboard.refdata.materials import all_materials

from .models import Lot, Material, Sheet, SheetStanding

ALL_OF_IT_PERCENT = 100.0
COMES_ALONG_PERCENT = {"SiO2": 100.0, "Al2O3": 39.5}
"""Most that quartz and clay hold, which minerals come mixed with [%] (common practice).

Of anything else no powder can hold more than the formula of its mineral does.
"""


class Sheets:
    """The sheets of some materials, read once.

    Parameters
    ----------
    materials : iterable of Material
        Of which materials; two queries, however many.
    """

    def __init__(self, materials: Iterable[Material]) -> None:
        standing = Sheet.objects.standing().filter(
            material__in={material.pk for material in materials}
        )
        sheets = list(standing.prefetch_related("oxides").order_by("at", "kept_at", "pk"))
        self._by_id = {sheet.pk: sheet for sheet in sheets}
        self._later = {sheet.corrects_id: sheet.pk for sheet in sheets if sheet.corrects_id}
        current = [sheet for sheet in sheets if sheet.pk not in self._later]
        self._newest = {sheet.material_id: sheet for sheet in current}

    def own_of(self, lot: Lot) -> Sheet | None:
        """Give the sheet that is a lot's own, as it stands now; None where it has none."""
        sheet_id = lot.sheet_id
        while sheet_id in self._later:
            sheet_id = self._later[sheet_id]
        return self._by_id.get(sheet_id) if sheet_id else None

    def sheet_for(self, material: Material, lot: Lot | None = None) -> Sheet | None:
        """Give the sheet of a lot, its own or borrowed; None where there is none."""
        own = self.own_of(lot) if lot is not None else None
        return own or self._newest.get(material.pk)

    def analysis_for(self, material: Material, lot: Lot | None = None) -> Analysis:
        """Give the analysis of a lot, or what its material is taken to be.

        A lot without a sheet of its own borrows its material's newest; a
        material without any stands on its row of the built-in table.

        Raises
        ------
        CompositionError
            If nothing is known of it.
        """
        sheet = self.sheet_for(material, lot)
        if sheet is not None:
            return of_sheet(sheet, material)
        library = stand_in_of(material)
        if library is not None:
            return replace(library, name=material.name)
        raise CompositionError(
            f"What {material.name} is made of is not known yet: give it a sheet.",
            field="material",
            seen=material.name,
            accepted="a material with a sheet, or one that stands on the built-in table",
        )


def row_of(material: Material) -> Row | None:
    """Give the row of the built-in table that stands in; None where there is none.

    A record taken in from elsewhere may name a row that this table never had.
    """
    return all_materials().get(material.library_id)


def stand_in_of(material: Material) -> Analysis | None:
    """Give what stands in for a material without a sheet; None where nothing does."""
    return analysis_of(material.library_id) if row_of(material) is not None else None


# These are of a powder of the kind, not of the very powder in the bag.
IN_GENERAL = {
    SheetStanding.PUBLISHED: Standing.VERIFIED,
    SheetStanding.THEORETICAL: Standing.COMPUTED,
    SheetStanding.TYPICAL: Standing.ILLUSTRATIVE,
}


def of_sheet(sheet: Sheet, material: Material) -> Analysis:
    """Turn a sheet into an analysis; its density falls back on the built-in table.

    A sheet that is published, typical or worked out from a formula is not of
    the bag in hand: it keeps a standing of its own, and a wider doubt with it.
    """
    library = stand_in_of(material)
    density = sheet.density_g_cm3
    standing = Standing.GIVEN
    if density is None and library is not None:
        density, standing = library.density_g_cm3, library.density_standing
    oxides = list(sheet.oxides.all())
    return Analysis(
        material.pk,
        {o.oxide: o.percent for o in oxides},
        loi_percent=sheet.loss_percent,
        density_g_cm3=density,
        standing=IN_GENERAL.get(SheetStanding(sheet.standing), Standing.GIVEN),
        density_standing=standing,
        name=material.name,
        sd_percent={o.oxide: o.doubt_percent for o in oxides if o.doubt_percent is not None},
        source=sheet.source,
    )


def newest_density(material: str) -> Subquery:
    """Give the density on a material's newest sheet, for use inside another query.

    Parameters
    ----------
    material : str
        Name of the field that holds the material in the outer query.
    """
    sheets = Sheet.objects.current().filter(
        material=OuterRef(material), density_g_cm3__isnull=False
    )
    return Subquery(sheets.order_by("-at").values("density_g_cm3")[:1])


def density_alone(material: Material, density_g_cm3: float | None) -> Analysis:
    """Give what is known of a material's density, its oxides left out.

    For the volume of a powder the oxides do not count.

    Parameters
    ----------
    material : Material
        Which material.
    density_g_cm3 : float or None
        On its own sheet; the built-in table stands in where there is none.
    """
    density, standing = density_g_cm3, Standing.GIVEN
    library = stand_in_of(material) if density is None else None
    if library is not None:
        density, standing = library.density_g_cm3, library.density_standing
    return Analysis(
        material.pk, {}, density_g_cm3=density, density_standing=standing, name=material.name
    )


@dataclass(frozen=True)
class Share:
    """One number of an analysis with its doubt.

    Attributes
    ----------
    oxide : str
        Formula, or LOI.
    percent : float
        Share by weight [%].
    doubt : Interval
        Where it lies nine times in ten [%].
    """

    oxide: str
    percent: float
    doubt: Interval


def shares_of(analysis: Analysis, standing_in: Analysis | None = None) -> list[Share]:
    """Give what an analysis says, line by line, the loss last.

    Parameters
    ----------
    analysis : Analysis
        Of one powder.
    standing_in : Analysis or None
        What the built-in table has of the powder; where that is a formula, no
        doubt reaches beyond it.
    """
    columns = _columns(analysis)
    most = _most_percent(standing_in or analysis)
    return [
        Share(
            column,
            percent,
            around(
                percent,
                NORMAL_90 * percent_sd(analysis, column),
                BASIS_OF_ANALYSES,
                lowest=min(0.0, percent),
                highest=max(percent, most.get(column, ALL_OF_IT_PERCENT)),
            ),
        )
        for column, percent in columns.items()
    ]


def _columns(analysis: Analysis) -> dict[str, float]:
    """Give the oxides of an analysis and the loss, where it is told."""
    loss = {} if analysis.loi_percent is None else {LOI: analysis.loi_percent}
    return {**analysis.oxides, **loss}


def _most_percent(analysis: Analysis) -> dict[str, float]:
    """Give the most of each oxide that a powder of a formula can hold [%]; else nothing."""
    if analysis.standing is not Standing.COMPUTED:
        return {}
    return {
        column: max(percent, COMES_ALONG_PERCENT.get(column, 0.0))
        for column, percent in _columns(analysis).items()
        if percent
    }


def off_hundred(analysis: Analysis) -> float | None:
    """Give what an analysis adds up to, where that is far from a hundred [%]."""
    total = analysis.total_percent
    low, high = USUAL_TOTAL_PERCENT
    return None if low <= total <= high else total
