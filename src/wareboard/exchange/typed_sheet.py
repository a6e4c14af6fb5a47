"""An analysis sheet as people type it: ``SiO2 66.5, Al2O3 18.3, LOI 0.4``.

Oxide and number, or number and oxide, in any order of oxides, with commas,
semicolons, new lines or blanks between; small lowered digits are digits,
capitals do not matter, and plain words will do: ``silica 66, .4 iron``. A zero
typed for the letter O is asked about, and what cannot be read is named.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from wareboard.core.chemistry.analysis import LOI, Analysis
from wareboard.core.units import ANALYSIS_PERCENT, PERCENT
from wareboard.exchange.materials_csv import HIGHEST_TOTAL_PERCENT
from wareboard.exchange.refusals import TextRefused, shown
from wareboard.exchange.typed_number import read_typed
from wareboard.refdata.oxides import all_oxides

USUAL_TOTAL_PERCENT = (98.0, 102.0)
"""Between these an analysis adds up well enough to say nothing (common practice)."""

EXAMPLE = "oxide and number, such as SiO2 66.5, alumina 18.3, LOI 0.4"
LOSS = re.compile(r"loss on ignition|ignition loss|\bl\.o\.i\.?|\bloss\b", re.IGNORECASE)
BETWEEN = re.compile(r"(?:[\s,;|·&]|\band\b)*", re.IGNORECASE)
NUMBER = r"(?:[-+−] ?)?[.,]?\d[\d.,]*"
WORDS = re.compile(r"[^\W\d_]\w*(?:[ \t]+[^\W\d_]\w*)*")
SAME = re.compile(r"\s*\((?P<words>[^()\n]*)\)")
NUMBER_AFTER = re.compile(rf"[\s:=]*(?P<number>{NUMBER})[ \t]*%?")
NUMBER_BEFORE = re.compile(rf"(?P<number>{NUMBER})[ \t]*%?[\s:=]*(?:of\s+)?(?=[^\W\d_])")
IN_WORDS = {
    "silica": "SiO2",
    "alumina": "Al2O3",
    "aluminum oxide": "Al2O3",
    "iron": "Fe2O3",
    "iron oxide": "Fe2O3",
    "red iron oxide": "Fe2O3",
    "ferric oxide": "Fe2O3",
    "ferrous oxide": "FeO",
    "titania": "TiO2",
    "titanium": "TiO2",
    "titanium oxide": "TiO2",
    "lime": "CaO",
    "calcia": "CaO",
    "magnesia": "MgO",
    "soda": "Na2O",
    "potash": "K2O",
    "lithia": "Li2O",
    "strontia": "SrO",
    "baria": "BaO",
    "zinc": "ZnO",
    "boric oxide": "B2O3",
    "phosphoric oxide": "P2O5",
    "zirconia": "ZrO2",
    "zirconium oxide": "ZrO2",
    "tin oxide": "SnO2",
    "manganese": "MnO",
    "manganese oxide": "MnO",
    "chrome oxide": "Cr2O3",
    "cobalt oxide": "CoO",
    "copper oxide": "CuO",
    "nickel oxide": "NiO",
    "sulfur trioxide": "SO3",
    "fluorine": "F",
}
"""What sheets and potters call an oxide; iron is reported as Fe2O3 (common practice)."""


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
        oxide, number, place = _pair(tidy, place, field)
        if oxide in found:
            raise _refused(field, oxide, f"{oxide} stands twice")
        quantity = PERCENT if oxide == LOI else ANALYSIS_PERCENT
        found[oxide] = read_typed(number, replace(quantity, name=oxide), field=field).value
        place = BETWEEN.match(tidy, place).end()  # type: ignore[union-attr] # as above
    loi_percent = found.pop(LOI, None)
    if not found:
        raise _refused(field, text, "there is no oxide in it")
    sheet = TypedSheet(found, loi_percent)
    if sheet.total_percent > HIGHEST_TOTAL_PERCENT:
        say = f"this adds up to {sheet.total_percent:.1f} %, which no analysis does"
        raise _refused(field, text, say)
    return sheet


def _pair(text: str, place: int, field: str) -> tuple[str, str, int]:
    """Read an oxide and its number, whichever comes first, and say where they end."""
    before = NUMBER_BEFORE.match(text, place)
    words = WORDS.match(text, before.end() if before else place)
    if words is None:
        raise _refused(field, text[place:], f'"{shown(text[place:])}" cannot be read here')
    oxide, length = _oxide(words[0], field)
    end = words.start() + length
    also = SAME.match(text, end)
    if also is not None and _known().get(_folded(also["words"])) == oxide:
        end = also.end()
    if before is not None:
        return oxide, before["number"].rstrip(".,"), end
    after = NUMBER_AFTER.match(text, end)
    if after is None:
        typed = shown(text[words.start() : end])
        raise _refused(field, oxide, f"after {typed} a number is missing")
    return oxide, after["number"].rstrip(".,"), after.end()


def _oxide(words: str, field: str) -> tuple[str, int]:
    """Give the oxide that some words begin with, or the loss, and how long its name is."""
    known = _known()
    ends = [found.end() for found in re.finditer(r"\w+", words)]
    for end in reversed(ends):
        oxide = known.get(_folded(words[:end]))
        if oxide is not None:
            return oxide, end
    first = words[: ends[0]]
    meant = known.get(_folded(first).replace("0", "o"))
    ask = f"; do you mean {meant}?" if meant else f"; write {EXAMPLE}."
    raise TextRefused(
        f'"{shown(first)}" is no oxide known here{ask}',
        field=field,
        seen=shown(first),
        accepted=f"{LOI}, {', '.join(all_oxides())}",
    )


@cache
def _known() -> Mapping[str, str]:
    """Give the formula of every name of an oxide, and of the loss, in small letters."""
    table = {oxide.name.casefold(): formula for formula, oxide in all_oxides().items()}
    formulas = {formula.casefold(): formula for formula in (*all_oxides(), LOI)}
    return MappingProxyType(table | IN_WORDS | formulas)


def _folded(words: str) -> str:
    return " ".join(unicodedata.normalize("NFKC", words).casefold().split())


def _refused(field: str, seen: str, why: str) -> TextRefused:
    return TextRefused(
        f"{why[:1].upper()}{why[1:]}; write {EXAMPLE}.",
        field=field,
        seen=shown(seen),
        accepted=EXAMPLE,
    )
