"""An analysis sheet as people type it: ``SiO2 66.5, Al2O3 18.3, LOI 0.4``.

Oxide and number, in any order of oxides, with commas, semicolons, new lines or
blanks between; small lowered digits are digits, capitals do not matter. A zero
typed for the letter O is asked about, and what cannot be read is named.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace

from wareboard.core.chemistry.analysis import LOI, Analysis
from wareboard.core.units import ANALYSIS_PERCENT, PERCENT
from wareboard.exchange.materials_csv import HIGHEST_TOTAL_PERCENT
from wareboard.exchange.refusals import TextRefused, shown
from wareboard.exchange.typed_number import read_typed
from wareboard.refdata.oxides import all_oxides

USUAL_TOTAL_PERCENT = (98.0, 102.0)
"""Between these an analysis adds up well enough to say nothing (common practice)."""

EXAMPLE = "oxide and number, such as SiO2 66.5, Al2O3 18.3, LOI 0.4"
LOSS = re.compile(r"loss on ignition|ignition loss|\bl\.o\.i\.?|\bloss\b", re.IGNORECASE)
BETWEEN = re.compile(r"[\s,;|·]*")
PAIR = re.compile(r"(?P<word>[^\W\d_]\w*)[\s:=]*(?P<number>(?:[-+−] ?)?\d[\d.,]*)?[ \t]*%?")


@dataclass(frozen=True)
class TypedSheet:
    """What a typed sheet says.

    Attributes
    ----------
    oxides : mapping of str to float
        In the order they were typed [weight per cent].
    loi_percent : float or None
        Loss on ignition [weight per cent]; None where none was typed.
    """

    oxides: Mapping[str, float]
    loi_percent: float | None

    @property
    def total_percent(self) -> float:
        """What stays and what leaves in the fire, together [weight per cent]."""
        return Analysis("typed", self.oxides, self.loi_percent).total_percent


def read_sheet(text: str, *, field: str) -> TypedSheet:
    r"""Read an analysis.

    Parameters
    ----------
    text : str
        As typed.
    field : str
        Form field.

    Returns
    -------
    TypedSheet
        At least one oxide.

    Raises
    ------
    CoreError
        If a word is no oxide, a number is missing or cannot be, an oxide
        stands twice, or the whole adds up to more than 110 %.

    Examples
    --------
    >>> read_sheet("SiO₂ 66,5; al2o3 18.3\nLOI 0.4", field="sheet").oxides
    {'SiO2': 66.5, 'Al2O3': 18.3}
    """
    tidy = LOSS.sub(LOI, text)
    found: dict[str, float] = {}
    place = BETWEEN.match(tidy).end()  # type: ignore[union-attr] # matches nothing at all as well
    while place < len(tidy):
        pair = PAIR.match(tidy, place)
        if pair is None:
            raise _refused(field, tidy[place:], f'"{shown(tidy[place:])}" cannot be read here')
        oxide = _oxide(pair["word"], field)
        if not pair["number"]:
            raise _refused(field, oxide, f"after {shown(pair['word'])} a number is missing")
        if oxide in found:
            raise _refused(field, oxide, f"{oxide} stands twice")
        number = pair["number"].rstrip(".,")
        quantity = PERCENT if oxide == LOI else ANALYSIS_PERCENT
        found[oxide] = read_typed(number, replace(quantity, name=oxide), field=field).value
        place = BETWEEN.match(tidy, pair.end()).end()  # type: ignore[union-attr] # as above
    loi_percent = found.pop(LOI, None)
    if not found:
        raise _refused(field, text, "there is no oxide in it")
    sheet = TypedSheet(found, loi_percent)
    if sheet.total_percent > HIGHEST_TOTAL_PERCENT:
        say = f"this adds up to {sheet.total_percent:.1f} %, which no analysis does"
        raise _refused(field, text, say)
    return sheet


def _oxide(word: str, field: str) -> str:
    """Give the oxide that a word means, or the loss on ignition."""
    folded = unicodedata.normalize("NFKC", word).casefold()
    known = {name.casefold(): name for name in (*all_oxides(), LOI)}
    if folded in known:
        return known[folded]
    meant = known.get(folded.replace("0", "o"))
    ask = f"; do you mean {meant}?" if meant else ""
    raise TextRefused(
        f'"{shown(word)}" is no oxide known here{ask or f"; write {EXAMPLE}."}',
        field=field,
        seen=shown(word),
        accepted=f"{LOI}, {', '.join(all_oxides())}",
    )


def _refused(field: str, seen: str, why: str) -> TextRefused:
    return TextRefused(
        f"{why[:1].upper()}{why[1:]}; write {EXAMPLE}.",
        field=field,
        seen=shown(seen),
        accepted=EXAMPLE,
    )
