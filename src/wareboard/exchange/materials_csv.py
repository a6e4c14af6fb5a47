"""MATERIALS.csv: the potter's own analysis sheets.

Columns ``id``, one for each oxide in weight per cent, ``LOI`` for the loss on
ignition, and if wanted ``density_g_cm3`` and ``name``. Blank cells are oxides
that are not there; a blank loss or density is one that is not known.
"""

import unicodedata

from wareboard.core.chemistry.analysis import LOI, Analysis
from wareboard.core.errors import CompositionError, CoreError
from wareboard.core.units import ANALYSIS_PERCENT, LOI_PERCENT, SOLID_G_CM3, Quantity
from wareboard.exchange.csv_table import CsvTable, Headings, read_csv_table
from wareboard.exchange.refusals import FileRefused, TextRefused, shown
from wareboard.exchange.typed_text import read_name
from wareboard.refdata.oxides import all_oxides

MOST_LINES = 10_000
HIGHEST_TOTAL_PERCENT = 110.0
DENSITY = "density_g_cm3"


def oxide_heading(text: str) -> str:
    """Give the oxide that a heading means.

    Parameters
    ----------
    text : str
        As written; capitals do not matter, and small lowered digits are
        digits.

    Returns
    -------
    str
        The oxide as we write it.

    Raises
    ------
    TextRefused
        If it is none; a zero in place of the letter O is named.

    Examples
    --------
    >>> oxide_heading("sio₂")
    'SiO2'
    """
    folded = unicodedata.normalize("NFKC", text).casefold()
    known = {oxide.casefold(): oxide for oxide in all_oxides()}
    if folded in known:
        return known[folded]
    meant = known.get(folded.replace("0", "o"))
    hint = f"; do you mean {meant}?" if meant else "."
    raise TextRefused(
        f'the heading "{shown(text)}" is no oxide known here{hint}',
        field=text,
        seen=shown(text),
        accepted=f"id, name, {LOI}, {DENSITY}, {', '.join(all_oxides())}",
    )


HEADINGS = Headings(needed=(("id",),), optional=(LOI, DENSITY, "name"), other=oxide_heading)


def read_materials_csv(path: str, *, field: str = "materials") -> dict[str, Analysis]:
    """Read a file of analysis sheets.

    Parameters
    ----------
    path : str
        Where it lies.
    field : str
        Option or argument that named it.

    Returns
    -------
    dict of str to Analysis
        By id, in the order of the file.

    Raises
    ------
    FileRefused
        If the file cannot be read so, if an id stands twice, or if an analysis
        adds up to nothing or to more than 110 %.
    """
    table = read_csv_table(path, HEADINGS, field=field, most_rows=MOST_LINES)
    found: dict[str, Analysis] = {}
    for row in range(len(table.lines)):
        try:
            analysis = _analysis(table, row)
            if analysis.id in found:
                raise _refused(
                    "id", analysis.id, f'the id "{analysis.id}" stands twice.', "new ids"
                )
        except FileRefused:
            raise
        except CoreError as error:
            raise table.refused(error, row) from error
        found[analysis.id] = analysis
    return found


def _analysis(table: CsvTable, row: int) -> Analysis:
    key = read_name(table.columns["id"][row], field="id")
    if not key:
        raise _refused("id", "", "id is blank.", "a name for the material")
    oxides = {
        oxide: percent
        for oxide in all_oxides()
        if (percent := _number(table, row, oxide, ANALYSIS_PERCENT))
    }
    loi = _number(table, row, LOI, LOI_PERCENT)
    name = read_name(table.columns["name"][row], field="name") if "name" in table.columns else ""
    analysis = Analysis(key, oxides, loi, _number(table, row, DENSITY, SOLID_G_CM3), name=name)
    _refuse_total(analysis)
    return analysis


def _number(table: CsvTable, row: int, column: str, quantity: Quantity) -> float | None:
    """Read a cell that may be blank or of a column that is not there."""
    if column not in table.columns or not table.columns[column][row]:
        return None
    return table.number(column, row, quantity)


def _refuse_total(analysis: Analysis) -> None:
    """Refuse what can only be a slip; smaller misses are a caution later."""
    total = analysis.total_percent
    if total > HIGHEST_TOTAL_PERCENT or not analysis.oxides:
        raise _refused(
            "id",
            analysis.id,
            f"the analysis of {analysis.id} adds up to {total:g} %.",
            f"oxides and {LOI} that add up to about 100",
        )
    if analysis.loi_percent is not None and analysis.loi_percent < 0.0:
        kept = sum(analysis.kept.values())
        if kept <= 100.0:  # noqa: PLR2004 - a whole, in per cent
            raise _refused(
                LOI,
                analysis.loi_percent,
                f"{LOI} of {analysis.id} is {analysis.loi_percent:g}; only a powder that takes up "
                "oxygen in the fire has a loss below 0, and its oxides add up to more than 100.",
                "0 or more",
            )


def _refused(field: str, seen: object, say: str, accepted: str) -> CompositionError:
    return CompositionError(say, field=field, seen=seen, accepted=accepted)
