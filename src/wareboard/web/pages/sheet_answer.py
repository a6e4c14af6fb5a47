"""What is known of a powder, in sentences: its analysis, its doubt, how far to believe it."""

from typing import Any

from django.utils.translation import gettext as _

from wareboard.core.chemistry import LOI, Analysis, Standing, analysis_of
from wareboard.core.errors import CoreError
from wareboard.records.people.shown import Shown, day, rounded
from wareboard.records.stores.bridge import of_sheet, off_hundred, row_of, shares_of
from wareboard.records.stores.models import Lot, Material, Sheet, SheetStanding
from wareboard.refdata.materials import Material as Row

MEASURED, GENERAL, GUESS = "measured", "general", "guess"
WEAK = {Standing.FROM_MEMORY, Standing.ILLUSTRATIVE}
TRUST_OF_SHEETS = {SheetStanding.TYPICAL: GENERAL, SheetStanding.THEORETICAL: GENERAL}


def known_of(material: Material, lot: Lot | None, sheet: Sheet | None) -> dict[str, Any] | None:
    """Say what is known of a material or of one lot of it; None where nothing is.

    Parameters
    ----------
    material : Material
        Which material.
    lot : Lot or None
        Which lot, where one is meant.
    sheet : Sheet or None
        The sheet that counts, as ``Sheets.sheet_for`` gives it.
    """
    try:
        if sheet is not None:
            return from_sheet(sheet, material, lot)
        row = row_of(material)
        return from_library(row) if row is not None else None
    except CoreError as refused:
        return {"say": str(refused), "trust": GUESS, "rows": []}


def from_sheet(sheet: Sheet, material: Material, lot: Lot | None = None) -> dict[str, Any]:
    """Say what one sheet tells."""
    words = {
        "standing": sheet.get_standing_display(),
        "day": day(sheet.at),
    }
    if lot is None:
        say = _("By its newest sheet (%(standing)s, %(day)s).")
    elif lot.sheet_id == sheet.pk:
        say = _("By its own sheet (%(standing)s, %(day)s).")
    else:
        say = _("It has no sheet of its own: this one is borrowed (%(standing)s, %(day)s).")
    trust = TRUST_OF_SHEETS.get(SheetStanding(sheet.standing), MEASURED)
    return {
        "title": _("%(standing)s, %(day)s") % words,
        **_said(of_sheet(sheet, material)),
        "say": say % words,
        "trust": trust,
        "source": sheet.source,
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


def _said(analysis: Analysis) -> dict[str, Any]:
    total = off_hundred(analysis)
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
            for share in shares_of(analysis)
        ],
        "total": ""
        if total is None
        else _("It adds up to %(total)s %%: look whether a number is missing or mistyped.")
        % {"total": rounded(total, 0.1)},
        "density": density,
    }
