"""The digits of a number as people write them, before anyone knows its unit.

What looks alike is treated alike, by one rule: Unicode compatibility (NFKC)
for blanks, full-width signs and units, then ASCII digits only. Raised and
circled digits are refused, since the rule would read ``10²`` as 102.

A text may be read in more than one way: exactly three digits behind a single
comma or point are thousands or a fraction. All ways are given; choosing is not
done here.
"""

import re
import unicodedata

LIKE_OURS = str.maketrans(
    {"\N{FRACTION SLASH}": "/", "\N{MINUS SIGN}": "-", "\N{RIGHT SINGLE QUOTATION MARK}": "'"}
)
RAISED_IN_UNITS = "\N{SUPERSCRIPT TWO}\N{SUPERSCRIPT THREE}"

# Patterns stay text, so that a short command need not compile them.
FRACTION = (
    r"(?P<sign>[+-]?) ?(?:(?P<whole>[0-9]{1,6}) )?(?P<top>[0-9]{1,3}) ?/ ?(?P<bottom>[0-9]{1,3})"
    r"(?![0-9/])(?P<unit>.*)"
)
DECIMAL = (
    r"(?P<sign>[+-]?) ?(?P<digits>[.,]?[0-9](?:[0-9.,' ]*[0-9])?[.,]?)"
    r"(?P<exponent>(?:[eE][+-]?[0-9]{1,4})?)(?P<unit>.*)"
)
GROUPED = (
    r"(?P<whole>[1-9][0-9]{0,2}(?P<by>[ '.,])[0-9]{3}(?:(?P=by)[0-9]{3})*)"
    r"(?:(?P<mark>[.,])(?P<part>[0-9]*))?"
)
SIMPLE = r"[0-9]*[.,]?[0-9]*"
RANGE = r" ?(?:[-\u2010-\u2015~]|to|\.\.) ?[0-9]"
UNIT_LIKE = r" ?[^\W\d_]|[ %\N{DEGREE SIGN}]"


class NotANumberError(ValueError):
    """Text that is no number in any way; says why, to go on after the text."""


def plain_forms(text: str) -> tuple[list[str], str, str]:
    """Find the ways a typed number can be read.

    Parameters
    ----------
    text : str
        As typed, perhaps with a unit.

    Returns
    -------
    forms : list of str
        At least one: the number in plain form, with a point and without
        groups.
    unit : str
        What stands behind it, still as written; blank if nothing does.
    mark : str
        The comma or point that may stand for thousands; blank where there is
        one way only.

    Raises
    ------
    NotANumberError
        If it cannot be read as one number.

    Examples
    --------
    >>> plain_forms("1,500 kg")
    (['1.500', '1500'], 'kg', ',')
    """
    tidy = _tidied(text)
    _refuse_unreadable(tidy)
    forms: list[str] = []
    mark = ""
    if found := re.fullmatch(FRACTION, tidy):
        forms = _fraction(found)
    elif found := re.fullmatch(DECIMAL, tidy):
        forms = [
            found["sign"] + form + found["exponent"] for form in _decimal_forms(found["digits"])
        ]
        mark = "" if len(forms) < 2 else "," if "," in found["digits"] else "."  # noqa: PLR2004 - two ways
    if not found or not forms:
        raise NotANumberError("is not a number")
    unit = found["unit"].strip()
    if unit and re.match(RANGE, found["unit"]):
        raise NotANumberError("is a range, not one number")
    if unit and not re.match(UNIT_LIKE, found["unit"]) and not unit.startswith(('"', "”")):
        raise NotANumberError("is not a number")
    return forms, unit, mark


def written(number: float) -> str:
    """Write a number shortest so that it reads back the same.

    Examples
    --------
    >>> written(2500.0)
    '2500'
    """
    return repr(number).removesuffix(".0")


def _tidied(text: str) -> str:
    """Bring characters that look alike to one form."""
    parts: list[str] = []
    for before, character in zip(" " + text, text, strict=False):
        fraction = unicodedata.decomposition(character).startswith("<fraction>")
        raised = character in RAISED_IN_UNITS and before.isalpha()
        if character.isnumeric() and not (character.isdecimal() or fraction or raised):
            raise NotANumberError(f'has "{character}" in it')
        parts.append(f" {character}" if fraction else character)
    tidy = unicodedata.normalize("NFKC", "".join(parts)).translate(LIKE_OURS)
    return " ".join(tidy.split(" ")).strip()


def _refuse_unreadable(tidy: str) -> None:
    if not tidy:
        raise NotANumberError("is blank")
    for character in tidy:
        if unicodedata.category(character) in {"Cf", "Cc", "Cs"}:
            raise NotANumberError(f"has an invisible character (U+{ord(character):04X}) in it")
        if character.isdecimal() and not character.isascii():
            raise NotANumberError("has digits other than 0 to 9")


def _fraction(found: re.Match[str]) -> list[str]:
    whole, top, bottom = int(found["whole"] or 0), int(found["top"]), int(found["bottom"])
    if bottom == 0 or (found["whole"] and top >= bottom):
        return []
    return [found["sign"] + written((whole * bottom + top) / bottom)]


def _decimal_forms(digits: str) -> tuple[str, ...]:
    """Write the digits with a point and without groups, in each way they can be read."""
    if grouped := re.fullmatch(GROUPED, digits):
        by, mark = grouped["by"], grouped["mark"]
        if by == mark:
            return ()
        together = grouped["whole"].replace(by, "")
        single = mark is None and digits.count(by) == 1
        if single and by in ",.":
            return (digits.replace(",", "."), together)
        return (f"{together}.{grouped['part']}" if mark else together,)
    if re.fullmatch(SIMPLE, digits):
        return (digits.replace(",", "."),)
    return ()
