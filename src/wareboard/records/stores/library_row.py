"""A row of the built-in table, found by typing part of its name."""

import re
from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from wareboard.exchange.refusals import shown
from wareboard.records.people.fields import TypedText, named
from wareboard.refdata import materials

MOST_OFFERED = 12
WORD = re.compile(r"[^\W_]+")


class LibraryRow(TypedText):
    """A row of the built-in table, found by typing part of its name.

    The page lists the names for the browser to offer (``library_names``); where
    it offers none, part of a name will do. Where several are meant, ``offered``
    says which, and the page has a word to tap for each.
    """

    def __init__(self, **options: Any) -> None:
        options.setdefault("required", False)
        super().__init__(**options)
        self.widget.attrs.update({"list": "library", "autocomplete": "off"})
        self.offered: list[tuple[str, str]] = []

    def clean(self, value: Any) -> str:
        """Give the id of the row; empty where nothing was typed."""
        typed = super().clean(value)
        if not typed:
            return ""
        fits = rows_called(typed)
        if len(fits) == 1:
            return fits[0]
        question = str(self.label)
        if not fits:
            none = _("nothing in the built-in table is called “%(seen)s”; leave it empty, or try")
            say = str(none) % {"seen": shown(typed)} + " feldspar, whiting, silica …"
            raise ValidationError(named(question, say))
        rows = materials.all_materials()
        self.offered = [(key, rows[key].name) for key in fits[:MOST_OFFERED]]
        several = (
            _("“%(seen)s” may be %(n)d of them. Tap one, or write more of its name.")
            if len(fits) > MOST_OFFERED
            else _("“%(seen)s” may be %(n)d of them. Tap one.")
        )
        said = str(several) % {"seen": shown(typed), "n": len(fits)}
        raise ValidationError(named(question, said))

    def bound_data(self, data: Any, initial: Any) -> Any:
        """Give what stands in the field again: of a row that was tapped, its name."""
        row = materials.all_materials().get(data)
        return super().bound_data(data if row is None else row.name, initial)


def rows_called(typed: str) -> list[str]:
    """Find the rows that a text may mean: by the whole name, by how it begins, by its words.

    Parameters
    ----------
    typed : str
        As typed, or the id of a row.

    Returns
    -------
    list of str
        Ids, in the order of the table; of the nearest kind only.
    """
    rows = materials.all_materials()
    if typed in rows:
        return [typed]
    wanted = typed.casefold()
    words = WORD.findall(wanted)
    names = {key: row.name.casefold() for key, row in rows.items()}
    ways = (
        lambda name: name == wanted,
        lambda name: re.match(rf"{re.escape(wanted)}(?!\w)", name) is not None,
        lambda name: _has_words(name, words),
        lambda name: all(part in name for part in wanted.split()),
    )
    for way in ways:
        fits = [key for key, name in names.items() if way(name)]
        if fits:
            return fits
    return []


def _has_words(name: str, words: list[str]) -> bool:
    """Tell whether a word of the name begins with each of some words."""
    own = WORD.findall(name)
    return bool(words) and all(any(one.startswith(word) for one in own) for word in words)


def library_names() -> list[str]:
    """Give the names of the built-in table in the order of the alphabet."""
    return sorted(row.name for row in materials.all_materials().values())
