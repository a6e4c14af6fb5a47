"""What is compared between good and bad pots, and in which words.

Each attribute is a short phrase that a potter would use, its value one too.
Numbers are put into bins that a potter would call the same.
"""

import statistics
from collections.abc import Callable, Mapping, Sequence

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.core.why import Piece, Strand
from wareboard.records.glazes.bridge import density_of
from wareboard.records.glazes.models import ReadingFlow
from wareboard.records.people.shown import rounded
from wareboard.records.ware.books import glaze_id_of
from wareboard.records.ware.words import Dryness

from .evidence import SURFACES, GlazedPot

SG_BIN = 0.03
REDUCTION_BIN_C = 50
LOT = "lot of "
COAT = "coat"
ALIKE = 0.2
"""Coats within this share of each other are called the same (common practice) [ratio]."""


def strands_of(pieces: Sequence[GlazedPot]) -> Mapping[str, Strand]:
    """Give the attributes worth comparing, each with its part of the chain.

    The lot of every material of every batch is one attribute of its own.
    """
    materials = sorted({line.material.name for piece in pieces for line in piece.lines})
    return {
        **{LOT + name: Strand.MIX for name in materials},
        **{name: strand for name, (strand, _read) in READ.items()},
        COAT: Strand.COAT,
    }


def _batch(piece: GlazedPot) -> str | None:
    own = [b for b in piece.batches if b.recipe.glaze_id == glaze_id_of(piece.coats[0])]
    return " + ".join(_("batch %d") % b.number for b in own) or None


def recipe_of(piece: GlazedPot) -> str | None:
    """Give the version of the recipe that a piece's own batch followed."""
    own = [b for b in piece.batches if b.recipe.glaze_id == glaze_id_of(piece.coats[0])]
    versions = sorted({b.recipe.version for b in own})
    return " + ".join(_("version %d") % version for version in versions) or None


def _bucket(piece: GlazedPot) -> str | None:
    bucket = piece.coats[0].bucket
    return bucket.name if bucket else None


def _density(piece: GlazedPot) -> str | None:
    if piece.reading is None:
        return None
    sg = density_of(piece.reading, scale_step_g=1.0).result.sg
    return _("about %s") % rounded(round(sg / SG_BIN) * SG_BIN, 0.01)


def _flow(piece: GlazedPot) -> str | None:
    if piece.reading is None or piece.reading.flow == ReadingFlow.UNKNOWN:
        return None
    return str(piece.reading.get_flow_display())


def _names(piece: GlazedPot, *, before: bool) -> str:
    """Name the other glazes on the same surfaces, beneath or over this one."""
    mine = piece.coats[0]
    faces = set(SURFACES[mine.side])  # type: ignore[index] # the constraint holds it to the list
    place = piece.all_coats.index(mine)
    others = piece.all_coats[:place] if before else piece.all_coats[place + 1 :]
    names = []
    for coat in others:
        glaze = coat.bucket.glaze if coat.bucket else coat.glaze
        shares = faces & set(SURFACES[coat.side])  # type: ignore[index] # as above
        if glaze is not None and shares and glaze_id_of(coat) != glaze_id_of(mine):
            names.append(glaze.name)
    return " + ".join(dict.fromkeys(names))


def _beneath(piece: GlazedPot) -> str | None:
    return _names(piece, before=True) or _("bare clay")


def _over(piece: GlazedPot) -> str | None:
    return _names(piece, before=False) or _("nothing")


def _dryness(piece: GlazedPot) -> str | None:
    coat = piece.coats[0]
    return str(coat.get_beneath_display()) if coat.beneath != Dryness.UNKNOWN else None


def _place(piece: GlazedPot) -> str | None:
    place = piece.placing.place if piece.placing else None
    return (
        _("%(level)s shelf %(name)s").strip()
        % {"level": place.get_level_display(), "name": place.name}
        if place and place.name
        else (_("%s shelf") % place.get_level_display() if place else None)
    )


def _firing(piece: GlazedPot) -> str | None:
    if piece.placing is None:
        return None
    lit_at = timezone.localtime(piece.placing.lit_at)
    return _("firing %(number)d, %(day)s") % {
        "number": piece.placing.firing_number,
        "day": date_format(lit_at, "j F"),
    }


def _reduction(piece: GlazedPot) -> str | None:
    temp_c = piece.placing.reduction_c if piece.placing else None
    if temp_c is None:
        return None
    return _("about %d °C") % (round(temp_c / REDUCTION_BIN_C) * REDUCTION_BIN_C)


def _cone(piece: GlazedPot) -> str | None:
    if not piece.cones:
        return None
    last = piece.cones[-1]
    return _("cone %(cone)s at %(clock)s o'clock") % {
        "cone": last.cone,
        "clock": rounded(last.clock, 1),
    }


def _clay(piece: GlazedPot) -> str | None:
    return piece.pot.clay.name if piece.pot.clay else None


READ: Mapping[str, tuple[Strand, Callable[[GlazedPot], str | None]]] = {
    "recipe": (Strand.MIX, recipe_of),
    "batch": (Strand.MIX, _batch),
    "bucket": (Strand.MIX, _bucket),
    "density of the slop": (Strand.MIX, _density),
    "how the slop hung": (Strand.MIX, _flow),
    "beneath it": (Strand.COAT, _beneath),
    "over it": (Strand.COAT, _over),
    "how dry the pot was": (Strand.COAT, _dryness),
    "place": (Strand.PLACE, _place),
    "firing": (Strand.FIRE, _firing),
    "reduction began": (Strand.FIRE, _reduction),
    "cone on that shelf": (Strand.FIRE, _cone),
    "clay": (Strand.CLAY, _clay),
}


def _coat_word(thickness_mm: float | None, good_mm: float | None) -> str | None:
    """Say how thick a coat is against those that came out sound."""
    if thickness_mm is None or good_mm is None:
        return None
    if thickness_mm > good_mm * (1 + ALIKE):
        return _("thicker than on the sound ones")
    if thickness_mm < good_mm * (1 - ALIKE):
        return _("thinner than on the sound ones")
    return _("as on the sound ones")


def of_one_recipe(
    glazed: Sequence[GlazedPot],
) -> tuple[Sequence[GlazedPot], Sequence[GlazedPot]]:
    """Set aside pieces of recipe versions that never failed, where others tell on their own.

    A re-balanced recipe that comes out sound with the suspected bag speaks for
    the suspect, not against it: bags are held against each other within one
    recipe, as long as that recipe has both good and bad pieces.

    Returns
    -------
    sequence of GlazedPot, sequence of GlazedPot
        Those to compare, and those set aside.
    """
    by_version: dict[str | None, list[GlazedPot]] = {}
    for piece in glazed:
        by_version.setdefault(recipe_of(piece), []).append(piece)
    failed = {version for version, found in by_version.items() if any(p.faulty for p in found)}
    telling = any(
        any(not p.faulty for p in by_version[version]) and version is not None for version in failed
    )
    if not telling or len(by_version) == len(failed):
        return glazed, ()
    kept = [p for p in glazed if recipe_of(p) in failed or recipe_of(p) is None]
    return kept, [p for p in glazed if p not in kept]


def pieces_of(glazed: Sequence[GlazedPot]) -> Sequence[Piece]:
    """Turn glazed pots into what the core counts."""
    sound = [p.coat_mm for p in glazed if not p.faulty and p.coat_mm is not None]
    good_mm = statistics.median(sound) if sound else None
    pieces = []
    for pot in glazed:
        attributes = {name: read(pot) for name, (_strand, read) in READ.items()}
        attributes[COAT] = _coat_word(pot.coat_mm, good_mm)
        for line in pot.lines:
            if line.lot is not None:
                attributes[LOT + line.material.name] = line.lot.label
        known = {name: value for name, value in attributes.items() if value is not None}
        pieces.append(Piece(pot.pot.pk, pot.faulty, known, pot.remembered))
    return pieces
