"""A recipe as people type it: one material a line, with its parts.

``potash feldspar 40``, or the number first; a plus sign marks what comes on
top of the hundred. The numbers go through the one reader of numbers.
"""

import re
from dataclasses import dataclass, replace

from wareboard.core.units import PARTS
from wareboard.exchange.refusals import TextRefused, shown
from wareboard.exchange.typed_number import read_typed
from wareboard.exchange.typed_text import read_name

MOST_LINES = 60
EXAMPLE = "one material a line with its parts, such as potash feldspar 40"
PARTS_OF_A_LINE = replace(
    PARTS, highest=1e6, above=True, words="a number above 0 and up to 1000000"
)
BREAK = re.compile(r"[\n;·]")
BULLET = re.compile(r"^[-*•]\s+")
NUMBER = r"(?P<number>[-−]?[\d.,½¼¾][\d.,/½¼¾]*)"
UNIT = r"(?:\s*(?:%|g|pts?|parts?))?"
NUMBER_LAST = re.compile(rf"(?P<name>.*\S)[\s:=]+{NUMBER}{UNIT}[.,]?")
NUMBER_FIRST = re.compile(rf"{NUMBER}{UNIT}[\s:=]+(?P<name>\S.*)")


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
    written = [line.strip() for line in BREAK.split(text)]
    lines = tuple(_line(line, field) for line in written if line)
    if not lines:
        raise _refused(field, text, "There is no material in it")
    if len(lines) > MOST_LINES:
        raise _refused(field, text, f"These are {len(lines)} lines, and at most {MOST_LINES} go in")
    return lines


def _line(text: str, field: str) -> TypedLine:
    addition = text.startswith("+")
    tidy = BULLET.sub("", text.removeprefix("+").strip())
    found = NUMBER_LAST.fullmatch(tidy) or NUMBER_FIRST.fullmatch(tidy)
    if found is None:
        raise _refused(field, text, f'"{shown(text)}" has no name or no number')
    name = read_name(found["name"].rstrip(" :=–—-"), field=field)
    if not any(letter.isalpha() for letter in name):
        raise _refused(field, text, f'"{shown(text)}" has no name')
    quantity = replace(PARTS_OF_A_LINE, name=shown(name))
    parts = read_typed(found["number"].rstrip(".,"), quantity, field=field).value
    return TypedLine(" ".join(name.split()), parts, addition)


def _refused(field: str, seen: str, why: str) -> TextRefused:
    return TextRefused(f"{why}; write {EXAMPLE}.", field=field, seen=shown(seen), accepted=EXAMPLE)
