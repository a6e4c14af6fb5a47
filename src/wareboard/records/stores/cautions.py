"""What to mind when handling a material, in one calm line.

The built-in table says of each powder what it does to people; here the same is
said in plain words. A powder is found by the row that stands in for it and by
its names: whichever has most to mind is said. It is a reason to read the
supplier's safety sheet and the local code, never a replacement for either.
"""

import re
from collections.abc import Iterable, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from wareboard.refdata.handling import handled_as
from wareboard.refdata.materials import material as row_named

from .bridge import row_of
from .models import Material, MaterialKind

COMES_FIRST = _("The safety sheet and your local code come first.")
NOT_KNOWN = _("what its dust does is not known here; read the supplier's safety sheet.")
PLAIN = _("plain dust, yet none is good for lungs; mask, wipe wet, never sweep dry.")
QUARTZ = _("the dust may hold fine quartz, which scars lungs; mask, never sweep dry.")
POWDERS = {MaterialKind.GLAZE, MaterialKind.COLOURANT, MaterialKind.FOUND}

# The first that is found in the table's note counts: what hurts most stands first.
SAID: tuple[tuple[str, str | Promise], ...] = (
    (r"lead", _("holds lead, a poison that gathers in the body; do not use it.")),
    (r"nerve poison", _("dust and fume harm the nerves; wear a mask, vent the kiln outdoors.")),
    (r"fluorid", _("gives off fluorine compounds in the fire; vent the kiln outdoors.")),
    (r"suspected carcinogen by", _("do not breathe the fine dust.")),
    (r"carcinogen", _("may cause cancer when breathed, and allergy; mask, gloves, wipe wet.")),
    (r"toxic if swallowed", _("poisonous if swallowed; mask, gloves, far from food and children.")),
    (r"toxic dust", _("the dust is poisonous; mask, gloves, wipe wet.")),
    (r"cr\(vi\)", _("can turn into a poisonous form in the fire; mask, gloves, wipe wet.")),
    (r"reproductive", _("classed as harmful to fertility and the unborn; mask, gloves.")),
    (r"caustic", _("burns skin and eyes when wet; gloves and goggles.")),
    (r"harmful", _("harmful if swallowed; gloves, and nothing down the drain.")),
    (r"irritant", _("hurts eyes and skin; gloves, and goggles when it is tipped.")),
    (r"fume fever", _("its fume makes ill for a day; vent the kiln outdoors.")),
    (r"asbestos", _("ask the supplier whether it is free of asbestos; do not breathe the dust.")),
    (r"(?<!no free )quartz|silica", QUARTZ),
    (r"fibrous|radioactiv", _("do not breathe the dust.")),
    (r"contain ba", _("some grades hold barium; ask the supplier.")),
    (r"dust|low", PLAIN),
)

# What can pass from a fired glaze into food, by the oxide it is counted as.
MAY_PASS = {
    "PbO": _("lead"),
    "BaO": _("barium"),
    "MnO": _("manganese"),
    "CoO": _("cobalt"),
    "NiO": _("nickel"),
    "CuO": _("copper"),
    "Cr2O3": _("chromium"),
    "V2O5": _("vanadium"),
    "Li2O": _("lithium"),
}
NEVER = {"PbO"}
TRACE_PERCENT = 0.1
"""Up to this an oxide stands in most clays (general)."""


def caution_of(material: Material) -> str:
    """Say what to mind with one material; empty where it makes no dust."""
    found = [place for note in notes_of(material) if (place := _place(note)) is not None]
    if found:
        return str(SAID[min(found)][1])
    if material.kind == MaterialKind.CLAY:
        return str(QUARTZ)
    return str(NOT_KNOWN) if material.kind in POWDERS else ""


def notes_of(material: Material) -> list[str]:
    """Give what the built-in table notes of a material, by its stand-in and by its names."""
    row = row_of(material)
    names = [material.name, *material.other_names.split(",")]
    by_name = [row_named(key).hazard_note for name in names for key in handled_as(name)]
    return by_name if row is None else [row.hazard_note, *by_name]


def _place(note: str) -> int | None:
    """Give the place in the list of what a note comes to: the smaller, the worse."""
    places = (n for n, (word, _say) in enumerate(SAID) if re.search(word, note, re.IGNORECASE))
    return next(places, None)


def cautions_of(some: Iterable[Material]) -> list[str]:
    """Say what to mind with several materials: one line for all that harm alike."""
    names: dict[str, list[str]] = {}
    for material in some:
        say = caution_of(material)
        if say and material.name not in names.setdefault(say, []):
            names[say].append(material.name)
    order = [str(say) for _pattern, say in SAID]
    lines = sorted(names, key=lambda say: order.index(say) if say in order else len(order))
    return [f"{_sentence(', '.join(names[say]))}: {say}" for say in lines]


def release_caution(fired_percent: Mapping[str, float]) -> str:
    """Say what may pass from a fired glaze into food, and who can tell; else empty.

    Parameters
    ----------
    fired_percent : mapping of str to float
        The fired glaze by its oxides [weight per cent].
    """
    metals = [
        str(metal)
        for oxide, metal in MAY_PASS.items()
        if fired_percent.get(oxide, 0.0) > (0.0 if oxide in NEVER else TRACE_PERCENT)
    ]
    if not metals:
        return ""
    say = _(
        "%(metals)s can pass from a glaze into food. Whether this one may touch food is for a "
        "laboratory's release test and your local code to say; no arithmetic can."
    )
    *first, last = metals
    all_of_them = _("%(first)s and %(last)s") % {"first": ", ".join(first), "last": last}
    return _sentence(str(say) % {"metals": all_of_them if first else last})


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
