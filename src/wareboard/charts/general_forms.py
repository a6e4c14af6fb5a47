"""General outlines by the word for the form, for pots whose own outline nobody has drawn yet.

They are no pot's measure. Each is what the word makes a potter think of, drawn
from memory as common practice, in the size such a pot often has; whoever shows
one says "general" beside it.
"""

from dataclasses import dataclass

from .outline import Point


@dataclass(frozen=True)
class GeneralForm:
    """An outline that stands for a word.

    Attributes
    ----------
    word : str
        The word it stands for.
    profile_cm : tuple of (r, z)
        Outside, foot to rim [cm].
    wall_mm : float
        A usual wall [mm].
    """

    word: str
    profile_cm: tuple[Point, ...]
    wall_mm: float


def _form(word: str, wall_mm: float, *profile_cm: Point) -> GeneralForm:
    return GeneralForm(word, profile_cm, wall_mm)


FORMS = (
    _form("bowl", 5, (3.6, 0), (3.7, 0.6), (5.4, 1.6), (7.2, 4.0), (8.0, 7.4)),
    _form("jug", 5, (4.2, 0), (5.4, 2.4), (6.2, 6.2), (5.2, 11.4), (4.0, 15.2), (4.4, 18.0)),
    _form(
        "bottle",
        5,
        (3.6, 0),
        (4.9, 2.6),
        (5.4, 6.6),
        (4.3, 10.8),
        (1.7, 14.6),
        (1.5, 18.2),
        (1.9, 19.2),
    ),
    _form("dish", 6, (5.8, 0), (6.4, 0.5), (8.6, 2.2), (10.6, 4.6)),
    _form("jar", 5, (3.8, 0), (4.8, 1.6), (5.6, 5.2), (5.1, 8.8), (4.2, 10.2), (4.3, 11.4)),
    _form("planter", 7, (6.2, 0), (6.6, 1.0), (7.8, 8.0), (8.8, 13.6), (9.3, 14.8)),
    _form("plate", 6, (6.6, 0), (7.0, 0.5), (10.4, 1.2), (13.0, 2.8)),
    _form("mug", 4.5, (3.6, 0), (4.0, 0.8), (4.2, 4.6), (4.1, 9.4)),
    _form("cup", 4, (2.6, 0), (2.7, 0.5), (3.8, 1.8), (4.4, 4.4), (4.6, 6.8)),
    _form("casserole", 7, (6.6, 0), (7.8, 1.2), (9.6, 4.6), (9.8, 8.4), (9.1, 11.0)),
    _form("pig", 6, (4.6, 0), (5.4, 2.0), (5.8, 6.0), (5.2, 10.6), (4.0, 13.2), (3.6, 14.0)),
    _form("vase", 5, (3.8, 0), (5.0, 2.6), (5.6, 8.0), (4.4, 14.4), (3.0, 19.0), (3.8, 22.0)),
    _form("holder", 5, (4.4, 0), (4.5, 0.6), (3.0, 1.8), (1.9, 4.2), (1.8, 7.4), (2.4, 8.6)),
    _form("baker", 5, (5.2, 0), (5.6, 0.6), (6.6, 2.0), (6.9, 4.2)),
    _form("tile", 8, (3.0, 0), (3.0, 0.8)),
)
"""The outlines, in the order in which a name is searched for them."""

SAME = {
    "pitcher": "jug",
    "pot": "jar",
    "crock": "jar",
    "caddy": "jar",
    "beaker": "cup",
    "tumbler": "mug",
    "tea": "cup",
    "platter": "plate",
    "basin": "bowl",
    "colander": "bowl",
    "candle": "holder",
    "piece": "tile",
    "test": "tile",
}
"""Words that make one think of the same outline."""


def general_form(name: str) -> GeneralForm:
    """Give the general outline for a pot's or a form's name.

    Parameters
    ----------
    name : str
        What the potter calls it, "butter dish" or "oil bottle".

    Returns
    -------
    GeneralForm
        Of the last word that is known; a bowl where none is.
    """
    known = {form.word: form for form in FORMS}
    known |= {word: known[same] for word, same in SAME.items()}
    for word in reversed(name.lower().replace(",", " ").split()):
        form = known.get(word) or known.get(word.removesuffix("s"))
        if form is None and len(word) > 4:  # noqa: PLR2004 -- "teabowl" ends in a word, "cap" in none
            form = next((f for w, f in known.items() if word.removesuffix("s").endswith(w)), None)
        if form is not None:
            return form
    return known["bowl"]
