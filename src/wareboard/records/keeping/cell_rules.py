"""What one cell may not say, worked out from the model's field: length, lines, ids, years."""

import re
from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any

from django.core.validators import RegexValidator
from django.db import models

FIRST_YEAR, LAST_YEAR = 1900, 2100
FROM_ONE = frozenset({"version", "number", "position"})
NEXT_LINE = re.compile(r"[\t\r\n]")
SMALL, LARGE = 32_767, 2_147_483_647

Asked = tuple[Callable[[Any], bool], str, str]


def cell_checks(field: "models.Field[Any, Any]") -> Iterator[Asked]:
    """Give what a cell of a field must not be, each with how that is said."""
    if isinstance(field, models.DateTimeField):
        accepted = f"write a day from {FIRST_YEAR} to {LAST_YEAR}"
        yield _no_time, "is a year no potter writes", accepted
    elif isinstance(field, models.IntegerField):
        low = 1 if field.name in FROM_ONE else 0
        high = SMALL if isinstance(field, models.PositiveSmallIntegerField) else LARGE
        accepted = f"write a whole number from {low} to {high}"
        yield lambda value: not low <= value <= high, "is out of range", accepted
    elif isinstance(field, models.CharField | models.TextField) and not field.choices:
        longest = field.max_length or LARGE
        accepted = f"write at most {longest} letters"
        yield lambda value: len(value) > longest, "is too long", accepted
        patterns = [one for one in field.validators if isinstance(one, RegexValidator)]
        for pattern in patterns:
            said = str(pattern.message).rstrip(".")
            yield _not_as(pattern), "cannot stand here", said[:1].lower() + said[1:]
        if not patterns and isinstance(field, models.CharField):
            yield lambda value: not value.strip(), "holds blanks alone", "write a word"
            yield _has_lines, "has more than one line", "write it in one line"


def _not_as(pattern: RegexValidator) -> Callable[[str], bool]:
    matches = re.compile(pattern.regex).match
    return lambda value: not matches(value)


def _has_lines(value: str) -> bool:
    return NEXT_LINE.search(value) is not None


def _no_time(value: datetime) -> bool:
    return not FIRST_YEAR <= value.year <= LAST_YEAR
