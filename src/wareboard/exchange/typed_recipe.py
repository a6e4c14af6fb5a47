"""A recipe as people type it: one material a line, with its parts.

``potash feldspar 40``, or the number first; between the two may stand blanks,
a tab, a comma, a colon, a dash or an equals sign. A plus sign marks what comes
on top of the hundred. Several on one line have commas between them; where it is
not plain which number is whose, it is asked. The numbers go through the one
reader of numbers.
"""

import re
from dataclasses import dataclass, replace

from wareboard.core.units import MASS_G, PARTS
from wareboard.exchange.refusals import TextRefused, shown
from wareboard.exchange.typed_number import read_typed
from wareboard.exchange.typed_text import read_name

MOST_LINES = 60
LONGEST_LINE = 240
EXAMPLE = "one material a line with its parts, such as potash feldspar 40"
PARTS_OF_A_LINE = replace(
    PARTS, highest=1e6, above=True, words="a number above 0 and up to 1000000"
)
GRAMS_OF_A_LINE = replace(MASS_G, highest=1e6, above=True, words="grams above 0 and up to 1000000")
BREAK = re.compile(r"[\n;·]")
BULLET = re.compile(r"^[-*•]\s+")
NUMBER = r"(?P<number>[-−]?(?=[.,]*[\d½¼¾])[\d.,½¼¾][\d.,/½¼¾]*)"
UNIT = (
    r"(?:\s*(?P<unit>%|g|grams?|grammes?|gr|kg|kilos?|oz|ounces?|lbs?|pounds?|pts?|parts?)"
    r"\.?(?![^\W_]))?"
)
WEIGHED = frozenset({"gr", "kg", "kilo", "kilos", "oz", "ounce", "ounces"})
POUNDS = frozenset({"lb", "lbs", "pound", "pounds"})
# A comma between digits belongs to the number.
COMMA = r",(?!\d)|(?<!\d),(?=\d)"
BETWEEN = rf"(?:[\s:=|–—]|{COMMA})+"
NUMBER_LAST = re.compile(
    rf"(?P<name>.*\S)(?P<between>{BETWEEN}|\s*\+)\(?{NUMBER}{UNIT}\)?[.,]?", re.IGNORECASE
)
NUMBER_FIRST = re.compile(
    rf"{NUMBER}{UNIT}(?P<between>{BETWEEN})\s*(?:of\s+)?(?P<name>\S.*)", re.IGNORECASE
)
SPLIT_BY_SEMICOLON = re.compile(rf"(?<=[^\s\d;]);(?=\s*{NUMBER}{UNIT}\s*(?:[\n;]|\Z))")
ANOTHER_COLUMN = re.compile(rf"\t\s*{NUMBER}{UNIT}\s*\Z", re.IGNORECASE)
AND = re.compile(rf"\s*(?:{COMMA}|(?<=\s)(?:and|&)(?=\s)|(?=\+|(?<=\s)plus\s))\s*", re.IGNORECASE)
NUMBER_ALONE = re.compile(rf"\(?{NUMBER}{UNIT}\)?[.,]?", re.IGNORECASE)
PLUS_NUMBER = re.compile(rf"\+\s*{NUMBER_ALONE.pattern}", re.IGNORECASE)
ON_TOP = re.compile(r"(?:[-*•]\s+)?(?:\+|plus\b:?)\s*", re.IGNORECASE)
FEWEST_PAIRS = 2
LOOSE = " \t,;:.=|+/&_*!?–—-"


@dataclass(frozen=True)
class TypedLine:
    """One line of a typed recipe.

    Attributes
    ----------
    name : str
        The material as it was written.
    parts : float
        Parts by weight, above 0.
    addition : bool
        Whether it comes on top of the hundred.
    """

    name: str
    parts: float
    addition: bool


def read_recipe(text: str, *, field: str) -> tuple[TypedLine, ...]:
    r"""Read the lines of a recipe in their order.

    Parameters
    ----------
    text : str
        As typed.
    field : str
        Form field.

    Returns
    -------
    tuple of TypedLine
        At least one; a material may stand in several.

    Raises
    ------
    CoreError
        If a line has no name or no number, or a number cannot be.

    Examples
    --------
    >>> for line in read_recipe("whiting 16\n+ tin oxide 1,2 %", field="recipe"):
    ...     print(line)
    TypedLine(name='whiting', parts=16.0, addition=False)
    TypedLine(name='tin oxide', parts=1.2, addition=True)
    """
    written = [line.strip() for line in BREAK.split(SPLIT_BY_SEMICOLON.sub(":", text))]
    lines = tuple(one for line in written if line for one in _read_line(line, field))
    if not lines:
        raise _refused(field, text, "There is no material in it")
    if len(lines) > MOST_LINES:
        raise _refused(field, text, f"These are {len(lines)} lines, and at most {MOST_LINES} go in")
    return lines


def _apart(line: str, field: str) -> list[str]:
    """Take the materials of one line apart, where it holds several.

    Raises
    ------
    TextRefused
        If they cannot be told apart.
    """
    pieces: list[str] = []
    for piece in filter(None, AND.split(line)):
        if pieces and PLUS_NUMBER.fullmatch(piece):
            pieces[-1] += f" {piece}"
        else:
            pieces.append(piece)
    alone = [NUMBER_ALONE.fullmatch(piece) is not None for piece in pieces]
    whole = [_is_whole(piece) for piece in pieces]
    if len(pieces) > 1 and all(whole):
        return pieces
    pairs = len(pieces) // 2
    in_turn = alone in ([False, True] * pairs, [True, False] * pairs)
    if not any(whole) and pairs >= FEWEST_PAIRS and in_turn:
        return [f"{a}, {b}" for a, b in zip(pieces[::2], pieces[1::2], strict=True)]
    if max(sum(whole), sum(alone)) > 1:
        odd = pieces[whole.index(False)]
        lacks = "name" if alone[whole.index(False)] else "number"
        raise _refused(field, line, f'"{shown(odd)}" has no {lacks} of its own')
    return [line]


def _is_whole(piece: str) -> bool:
    """Tell whether a piece of a line has a name and a number."""
    if len(piece) > LONGEST_LINE or NUMBER_ALONE.fullmatch(piece):
        return False
    tidy = ON_TOP.sub("", piece, count=1)
    return any(way.fullmatch(tidy) for way in (NUMBER_LAST, NUMBER_FIRST))


def _read_line(line: str, field: str) -> list[TypedLine]:
    """Read the materials of one line; what has no plus sign comes before what has one."""
    lines = [_line(piece, field) for piece in _apart(line, field)]
    on_top = [one.addition for one in lines]
    if on_top != sorted(on_top):
        say = f'In "{shown(line)}" one has a plus and the next has none: begin a new line there'
        raise _refused(field, line, say)
    return lines


def _line(text: str, field: str) -> TypedLine:
    if len(text) > LONGEST_LINE:
        say = (
            f'The line "{shown(text)}" has {len(text)} characters, and at most {LONGEST_LINE} go in'
        )
        raise _refused(field, text, say)
    plus = ON_TOP.match(text)
    tidy = BULLET.sub("", text[plus.end() if plus else 0 :].strip())
    found = _read(tidy, text, field)
    if found is None:
        raise _refused(field, text, f'"{shown(text)}" has no name or no number')
    inside = found["name"].rstrip().endswith("+") or "+" in found["between"]
    name = read_name(" ".join(found["name"].strip(LOOSE).split()), field=field)
    unit = (found["unit"] or "").casefold()
    weighed = unit in WEIGHED | POUNDS
    quantity = replace(GRAMS_OF_A_LINE if weighed else PARTS_OF_A_LINE, name=shown(name))
    number = found["number"].rstrip(".,") + (f" {unit}" if weighed else "")
    parts = read_typed(number, quantity, field=field).value
    return TypedLine(name, parts, addition=plus is not None or inside)


def _read(tidy: str, text: str, field: str) -> re.Match[str] | None:
    """Find name and number of a line, whichever comes first; None where there are none.

    Raises
    ------
    TextRefused
        If it may be read both ways, as ``20 frit 3134``, or has two numbers.
    """
    either = [found for way in (NUMBER_LAST, NUMBER_FIRST) if (found := way.fullmatch(tidy))]
    named = [found for found in either if any(letter.isalpha() for letter in found["name"])]
    if either and not named:
        raise _refused(field, text, f'"{shown(text)}" has no name')
    if any(ANOTHER_COLUMN.search(found["name"]) for found in named[:1]):
        raise _refused(field, text, f'"{shown(text)}" has two numbers')
    told = [found for found in named if _is_told(found)] if len(named) > 1 else named
    if named and len(told) != 1:
        say = f'"{shown(text)}" begins and ends with a number: put a colon before its parts'
        raise _refused(field, text, say)
    return told[0] if told else None


def _is_told(found: re.Match[str]) -> bool:
    """Tell whether a unit or a mark shows that this number is the parts."""
    bare = found["name"].strip() == found["name"].strip(LOOSE) and not found["between"].strip(" ")
    return bool(found["unit"]) or not bare


def _refused(field: str, seen: str, why: str) -> TextRefused:
    return TextRefused(f"{why}; write {EXAMPLE}.", field=field, seen=shown(seen), accepted=EXAMPLE)
