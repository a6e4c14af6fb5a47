"""What is known of a powder, in sentences: its analysis, its doubt, how far to believe it."""

from typing import Any

from django.urls import reverse
from django.utils.translation import gettext as _

from wareboard.core.chemistry import LOI, Analysis, Standing, analysis_of
from wareboard.core.errors import CoreError
from wareboard.records.people.shown import Shown, day, rounded
from wareboard.records.stores.bridge import (
    ALL_OF_IT_PERCENT,
    of_sheet,
    off_hundred,
    row_of,
    shares_of,
    stand_in_of,
)
from wareboard.records.stores.models import Lot, Material, Sheet, SheetStanding
from wareboard.refdata.materials import Material as Row

MEASURED, GENERAL, GUESS = "measured", "general", "guess"
WEAK = {Standing.FROM_MEMORY, Standing.ILLUSTRATIVE}
TRUST_OF_SHEETS = {SheetStanding.TYPICAL: GENERAL, SheetStanding.THEORETICAL: GENERAL}


def known_of(
    material: Material, lot: Lot | None, sheet: Sheet | None, *, own: bool = False
) -> dict[str, Any] | None:
    """Say what is known of a material or of one lot of it; None where nothing is.

    Parameters
    ----------
    material : Material
        Which material.
    lot : Lot or None
        Which lot, where one is meant.
    sheet : Sheet or None
        The sheet that counts, as ``Sheets.sheet_for`` gives it.
    own : bool
        Whether it is that lot's own.
    """
    try:
        if sheet is not None:
            return from_sheet(sheet, material, lot, own=own)
        row = row_of(material)
        return from_library(row) if row is not None else None
    except CoreError as refused:
        return {"say": str(refused), "trust": GUESS, "rows": []}


def from_sheet(
    sheet: Sheet, material: Material, lot: Lot | None = None, *, own: bool = False
) -> dict[str, Any]:
    """Say what one sheet tells, and where it is put right."""
    words = {
        "standing": sheet.get_standing_display(),
        "day": day(sheet.at),
    }
    if lot is None:
        say = _("By its newest sheet (%(standing)s, %(day)s).")
    elif own:
        say = _("By its own sheet (%(standing)s, %(day)s).")
    else:
        say = _("It has no sheet of its own: this one is borrowed (%(standing)s, %(day)s).")
    trust = TRUST_OF_SHEETS.get(SheetStanding(sheet.standing), MEASURED)
    return {
        "title": _("%(standing)s, %(day)s") % words,
        **_said(of_sheet(sheet, material), stand_in_of(material)),
        "say": say % words,
        "trust": trust,
        "source": sheet.source,
        "right": reverse("stores:right-sheet", args=[sheet.pk]),
        "corrected": sheet.corrects_id is not None,
    }


def from_library(row: Row) -> dict[str, Any]:
    """Say what the row of the built-in table tells that stands in."""
    analysis = analysis_of(row.id)
    weak = analysis.standing in WEAK
    say = _("No sheet yet: “%(row)s” of the built-in table stands in.") % {"row": row.name}
    if weak:
        say += " " + standing_said(analysis.standing)
    return {
        **_said(analysis),
        "say": say,
        "trust": GUESS if weak else GENERAL,
        "source": source_words(row.analysis_source),
    }


def source_words(source: str) -> str:
    """Put the source of a row into words; how far it is believed stands beside it already."""
    words = source.partition(": ")[2] or source
    if words.startswith("stoichiometry"):
        return _("its formula, by the atomic weights of 2021")
    return words[:1].upper() + words[1:]


def standing_said(standing: Standing) -> str:
    """Mark what nobody has looked up."""
    if standing is Standing.FROM_MEMORY:
        return _("Its figures are from memory.")
    return _("Its figures are made up to show the kind.")


def _said(analysis: Analysis, standing_in: Analysis | None = None) -> dict[str, Any]:
    density = ""
    if analysis.density_g_cm3 is not None:
        density = _("Density of the powder: %(d)s g/cm³") % {
            "d": rounded(analysis.density_g_cm3, 0.01)
        }
        if analysis.density_standing in WEAK:
            density += " " + _("(from memory)")
    return {
        "rows": [
            {
                "oxide": _("lost in the fire (LOI)") if share.oxide == LOI else share.oxide,
                "percent": rounded(share.percent, 0.1 if share.percent >= 1 else 0.01),
                "doubt": Shown.span(share.doubt, 0.1 if share.percent >= 1 else 0.01),
            }
            for share in shares_of(analysis, standing_in)
        ],
        **total_said(analysis),
        "density": density,
    }


def total_said(analysis: Analysis) -> dict[str, str]:
    """Say what an analysis adds up to, and what is missing or over; warn where that is much."""
    if not analysis.oxides:
        return {"together": "", "together_of": "", "gap": "", "total": ""}
    total = rounded(analysis.total_percent, 0.1)
    gap = float(total) - ALL_OF_IT_PERCENT
    over = {"gap": rounded(abs(gap), 0.1)}
    said, far = "", ""
    if gap:
        said = _("%(gap)s missing") % over if gap < 0 else _("%(gap)s over") % over
    if off_hundred(analysis) is not None:
        words = {"total": total, **over}
        look = (
            _("Is it what is lost in the fire (LOI), or was a number left out or mistyped?")
            if gap < 0 and analysis.loi_percent is None
            else _("Look whether a number is missing or mistyped.")
        )
        adds_up = (
            _("It adds up to %(total)s %%: %(gap)s %% is missing.")
            if gap < 0
            else _("It adds up to %(total)s %%: %(gap)s %% too much.")
        )
        far = f"{adds_up % words} {look}"
    fluorine = "F" in analysis.oxides
    together = _("Together, less the oxygen fluorine stands for") if fluorine else _("Together")
    return {"together": total, "together_of": together, "gap": said, "total": far}
