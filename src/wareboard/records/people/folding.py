"""Words found whatever their case and accents: “creme” finds Crème.

SQLite knows capitals of plain letters only, and no accents at all. It compares
plain texts by itself, thousands in a blink; only a text with other letters in
it is folded here.
"""

import re
import unicodedata
from functools import lru_cache
from typing import Any

from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.models import CharField, Lookup, TextField

FOLD = "wareboard_fold"
MOST_WORDS = 6
PASSED_OVER = frozenset(
    re.findall(r"\w+", "a an and at by for from in is it of on or that the to was which with")
)
"""Words that join others and name nothing."""
REMEMBERED = 4096
# Letters of their own that no rule of Unicode takes apart.
PLAINER = str.maketrans({"ø": "o", "æ": "ae", "œ": "oe", "đ": "d", "ł": "l", "þ": "th"})
ESCAPED = str.maketrans({"\\": "\\\\", "%": "\\%", "_": "\\_"})


@lru_cache(maxsize=REMEMBERED)
def fold(text: str) -> str:
    """Write a text in small letters without accents.

    Examples
    --------
    >>> fold("Crème BRÛLÉE")
    'creme brulee'
    """
    plain = unicodedata.normalize("NFKD", text).casefold()
    apart = unicodedata.normalize("NFKD", plain)
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).translate(PLAINER)


def words_in(text: str) -> list[str]:
    """Give the words of what is searched for, folded, each once; the first few of very many.

    Words that only join others are passed over, unless there are no others.

    Examples
    --------
    >>> words_in("the mug with a blue rim, the mug")
    ['mug', 'blue', 'rim']
    """
    words = list(dict.fromkeys(re.findall(r"[^\s,;]+", fold(text))))
    return [word for word in words if word not in PASSED_OVER][:MOST_WORDS] or words[:MOST_WORDS]


@CharField.register_lookup
@TextField.register_lookup
class Says(Lookup):
    """Whether a text holds a folded word anywhere."""

    lookup_name = "says"

    def as_sql(self, compiler: Any, connection: Any) -> tuple[str, tuple[Any, ...]]:
        """Compare the text as it stands; fold it only where it has other than plain letters."""
        column, given = self.process_lhs(compiler, connection)
        pattern = f"%{str(self.rhs).translate(ESCAPED)}%"
        sql = (
            f"({column} LIKE %s ESCAPE '\\' OR ({column} GLOB '*[^ -~]*'"
            f" AND {FOLD}({column}) LIKE %s ESCAPE '\\'))"
        )
        return sql, (*given, pattern, *given, *given, pattern)


def teach(connection: BaseDatabaseWrapper, **_signal: Any) -> None:
    """Let a new connection fold."""
    connection.connection.create_function(FOLD, 1, fold, deterministic=True)
