"""What is compared between good and bad pots, and in which words.

Each attribute is a short phrase that a potter would use, its value one too.
Numbers are put into bins that a potter would call the same.
"""

import statistics
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.core.why import Piece, Strand
from wareboard.records.glazes.bridge import density_of
from wareboard.records.glazes.models import Batch, BatchLine, BucketEventKind, ReadingFlow
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
    lines = {line.pk: line for piece in pieces for line in piece.lines}
    materials = sorted({line.material.name for line in lines.values()})
    return {
        **{LOT + name: Strand.MIX for name in materials},
        **{name: trait.strand for name, trait in READ.items()},
        COAT: Strand.COAT,
    }


def _batch(piece: GlazedPot) -> str | None:
    own = [b for b in piece.batches if b.recipe.glaze_id == glaze_id_of(piece.coats[0])]
    return " + ".join(_("batch %d") % b.number for b in own) or None


def version_of(batches: Iterable[Batch], glaze_id: str | None) -> str | None:
    """Give the version of a glaze's recipe that some batches followed."""
    versions = sorted({b.recipe.version for b in batches if b.recipe.glaze_id == glaze_id})
    return " + ".join(_("version %d") % version for version in versions) or None


def _recipe(piece: GlazedPot) -> str | None:
    return version_of(piece.batches, glaze_id_of(piece.coats[0]))


def _bucket(piece: GlazedPot) -> str | None:
    names = [coat.bucket.name for coat in piece.coats if coat.bucket]
    return " + ".join(dict.fromkeys(names)) or None


def _density(piece: GlazedPot) -> str | None:
    if piece.reading is None:
        return None
    sg = density_of(piece.reading, scale_step_g=1.0).result.sg
    return _("about %s") % rounded(round(sg / SG_BIN) * SG_BIN, 0.01)


def _flow(piece: GlazedPot) -> str | None:
    if piece.reading is None or piece.reading.flow == ReadingFlow.UNKNOWN:
        return None
    return str(ReadingFlow(piece.reading.flow).label)


def _names(piece: GlazedPot, *, before: bool) -> str:
    """Name the other glazes on the same surfaces, beneath or over this one."""
    mine = piece.coats[0]
    faces = set(SURFACES[mine.side]) & piece.surfaces  # type: ignore[index] # the constraint holds it to the list
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


def _form(piece: GlazedPot) -> str | None:
    return piece.pot.form.name if piece.pot.form else None


def _of_batches(piece: GlazedPot) -> Hashable:
    return tuple(batch.pk for batch in piece.batches)


def _stirred_in(piece: GlazedPot) -> str | None:
    if not piece.batches:
        return None
    lots = {
        _("%(material)s, lot %(lot)s")
        % {"material": e.lot.material.name, "lot": piece.bags.get(e.lot.pk, e.lot.label)}
        for e in piece.events
        if e.kind == BucketEventKind.POWDER_IN and e.lot is not None
    }
    return " + ".join(sorted(lots)) or _("nothing")


def _of_buckets(piece: GlazedPot) -> Hashable:
    return tuple(coat.bucket_id for coat in piece.coats)


def _of_reading(piece: GlazedPot) -> Hashable:
    return piece.reading.pk if piece.reading else None


def _of_coats(piece: GlazedPot) -> Hashable:
    coats = tuple((coat.bucket_id, coat.glaze_id, coat.side) for coat in piece.all_coats)
    return coats, piece.all_coats.index(piece.coats[0]), piece.surface


def _of_firing(piece: GlazedPot) -> Hashable:
    return piece.placing.firing_id if piece.placing else None


def _of_place(piece: GlazedPot) -> Hashable:
    return piece.placing.place_id if piece.placing else None


@dataclass(frozen=True)
class Trait:
    """One attribute: part of the chain, its words, and what alone the words rest on.

    Attributes
    ----------
    strand : Strand
        Part of the chain it belongs to.
    words : callable
        Says it of a piece; None where it is not known.
    rests_on : callable
        Gives what is the same for all pieces of which it says the same, so
        that it is said once for all of them.
    """

    strand: Strand
    words: Callable[[GlazedPot], str | None]
    rests_on: Callable[[GlazedPot], Hashable]


READ: Mapping[str, Trait] = {
    "recipe": Trait(Strand.MIX, _recipe, _of_batches),
    "batch": Trait(Strand.MIX, _batch, _of_batches),
    "bucket": Trait(Strand.MIX, _bucket, _of_buckets),
    "powder stirred in": Trait(
        Strand.MIX,
        _stirred_in,
        lambda piece: (_of_batches(piece), *(event.pk for event in piece.events)),
    ),
    "density of the slop": Trait(Strand.MIX, _density, _of_reading),
    "how the slop hung": Trait(Strand.MIX, _flow, _of_reading),
    "beneath it": Trait(Strand.COAT, _beneath, _of_coats),
    "over it": Trait(Strand.COAT, _over, _of_coats),
    "how dry the pot was": Trait(Strand.COAT, _dryness, lambda piece: piece.coats[0].beneath),
    "place": Trait(Strand.PLACE, _place, _of_place),
    "firing": Trait(Strand.FIRE, _firing, _of_firing),
    "reduction began": Trait(Strand.FIRE, _reduction, _of_firing),
    "cone on that shelf": Trait(
        Strand.FIRE, _cone, lambda piece: piece.cones[-1].pk if piece.cones else None
    ),
    "clay": Trait(Strand.CLAY, _clay, lambda piece: piece.pot.clay_id),
    "form": Trait(Strand.FORM, _form, lambda piece: piece.pot.form_id),
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
    versions = _said_once("recipe", glazed)
    compared = compared_of(list(zip(versions, (piece.faulty for piece in glazed), strict=True)))
    kept: list[GlazedPot] = []
    aside: list[GlazedPot] = []
    for piece, version in zip(glazed, versions, strict=True):
        (kept if version in compared else aside).append(piece)
    return kept, aside


def versions_of(glazed: Sequence[GlazedPot]) -> list[str]:
    """Give the versions of the recipe that some pieces have, each once."""
    return sorted({version for version in _said_once("recipe", glazed) if version})


def compared_of(pieces: Collection[tuple[str | None, bool]]) -> set[str | None]:
    """Say pieces of which recipe versions are compared.

    Parameters
    ----------
    pieces : collection of (str or None, bool)
        Version of each piece, and whether it is faulty.
    """
    versions = {version for version, _faulty in pieces}
    failed = {version for version, faulty in pieces if faulty}
    sound = {version for version, faulty in pieces if not faulty}
    telling = (failed & sound) - {None}
    return failed | {None} if telling else versions


def _said_once(name: str, glazed: Sequence[GlazedPot]) -> list[str | None]:
    """Say one attribute of every piece; what rests on the same is said once."""
    trait = READ[name]
    said: dict[Hashable, str | None] = {}
    found = []
    for piece in glazed:
        ground = trait.rests_on(piece)
        if ground not in said:
            said[ground] = trait.words(piece)
        found.append(said[ground])
    return found


def lots_of(lines: Iterable[BatchLine], bags: Mapping[str, str]) -> dict[str, str]:
    """Give the lot of each material that was in a bucket, several joined; unknown ones nowhere.

    Parameters
    ----------
    lines : iterable of BatchLine
        What went into its batches.
    bags : mapping of str to str
        What each lot is called, by its id.
    """
    labels: dict[str, set[str]] = {}
    unknown = set()
    for line in lines:
        if line.lot is None:
            unknown.add(line.material.name)
        else:
            name = bags.get(line.lot.pk, line.lot.label)
            labels.setdefault(line.material.name, set()).add(name)
    return {
        LOT + name: " + ".join(sorted(found))
        for name, found in labels.items()
        if name not in unknown
    }


def pieces_of(glazed: Sequence[GlazedPot]) -> Sequence[Piece]:
    """Turn glazed pots into what the core counts."""
    sound = [p.coat_mm for p in glazed if not p.faulty and p.coat_mm is not None]
    good_mm = statistics.median(sound) if sound else None
    said = {name: _said_once(name, glazed) for name in READ}
    lots: dict[Hashable, dict[str, str]] = {}
    pieces = []
    for number, pot in enumerate(glazed):
        mixed = _of_batches(pot)
        if mixed not in lots:
            lots[mixed] = lots_of(pot.lines, pot.bags)
        attributes = {name: words[number] for name, words in said.items()}
        attributes[COAT] = _coat_word(pot.coat_mm, good_mm)
        known = {name: value for name, value in attributes.items() if value is not None}
        pieces.append(Piece(pot.id, pot.faulty, known | lots[mixed], pot.remembered))
    return pieces
