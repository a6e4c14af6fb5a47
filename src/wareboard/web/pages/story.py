"""The story of a pot: the whole chain on one page."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.formats import date_format
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wareboard.records.glazes.change_said import much_of
from wareboard.records.glazes.models import ReadingFlow
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.shelf.story import CoatTold, Small, Story, summary, tell
from wareboard.records.ware.bridge import WorkedCoat, work_out
from wareboard.records.ware.drawn import draw_pots, name_of, profiles_of, shape_of
from wareboard.records.ware.put_right import coat_was, put_right, weighing_was
from wareboard.records.ware.queries import pots_for
from wareboard.records.ware.words import (
    DecorationKind,
    HopeKind,
    MarkKind,
    WeighingState,
)


@dataclass(frozen=True)
class Knot:
    """One link of the chain, as it stands on the page.

    Attributes
    ----------
    at : datetime
        When.
    what : str
        What happened, in a few words.
    more : tuple of str
        What else is known of it.
    kind : str
        Which part of the chain.
    remembered : str
        How it is remembered; empty for a fact.
    trust : str
        How far a number in it may be believed; empty where there is none.
    right : str
        When it was put right, and what it was; empty where it never was.
    """

    at: datetime
    what: str
    more: tuple[str, ...] = ()
    kind: str = ""
    remembered: str = ""
    trust: str = ""
    right: str = ""


def _bucket_lines(told: CoatTold, shown: Shown) -> list[str]:
    """Say what was in the bucket: batches, then lots, then how it weighed."""
    lines = [
        _("%(glaze)s batch %(number)d, mixed %(day)s")
        % {
            "glaze": batch.recipe.glaze.name,
            "number": batch.number,
            "day": date_format(batch.at, "j F"),
        }
        for batch in told.batches
    ]
    lots = [f"{line.material.name} {line.lot.label}" for line in told.lines if line.lot]
    if lots:
        lines.append(_("Lots: %s") % ", ".join(dict.fromkeys(lots)))
    lines += [
        _("Stirred in on %(day)s: %(powder)s")
        % {"day": date_format(event.at, "j F"), "powder": much_of(event, shown)}
        for event in told.powders
    ]
    if told.reading is not None:
        sg = (told.reading.full_g - told.reading.empty_g) / told.reading.volume_ml
        flow = f", {ReadingFlow(told.reading.flow).label}" if told.reading.flow else ""
        lines.append(_("The bucket was at %(sg)s%(flow)s.") % {"sg": shown.sg(sg), "flow": flow})
    return lines


def _coat_knot(told: CoatTold, worked: WorkedCoat, shown: Shown) -> Knot:
    coat = told.coat
    glaze = coat.bucket.glaze if coat.bucket else coat.glaze
    what = _("%(how)s in %(glaze)s, %(side)s, %(extent)s") % {
        "how": str(coat.get_how_display()).capitalize(),
        "glaze": glaze.name if glaze else "?",
        "side": coat.get_side_display(),
        "extent": coat.get_extent_display(),
    }
    more = []
    trust = ""
    if worked.answer is not None:
        result = worked.answer.result
        trust = "usual" if worked.usual else "worked-out"
        doubt = worked.answer.doubt
        if worked.told_mm is None:
            much, span = shown.mass(result.coat_g), shown.span(doubt["coat_g"], 1)
        else:
            much, span = shown.thickness(worked.told_mm), shown.span(doubt["coat_mm"], 0.05)
        more.append(
            _("%(much)s dry %(span)s, %(water)s of water into the wall (%(percent)s of the pot)")
            % {
                "much": much,
                "span": span,
                "water": shown.mass(result.water_g),
                "percent": shown.percent(result.water_percent_of_pot),
            }
        )
        if worked.told_mm is None:
            more.append(_("How thick that is is not known: nobody has drawn the pot's form."))
    else:
        more.append(_("How thick is not known: %s.") % worked.missing)
    if coat.seconds:
        more.append(_("%s seconds") % f"{coat.seconds:g}")
    if coat.beneath:
        more.append(_("on it was: %s") % coat.get_beneath_display())
    more += _bucket_lines(told, shown)
    right = put_right(coat.kept_at, coat_was(coat, shown)) if coat.corrects_id else ""
    return Knot(coat.at, what, tuple(more), "coat", coat.remembered, trust, right)


def _small_knot(one: Small, shown: Shown) -> Knot | None:
    if one.kind == "weighing" and one.weight_g is not None:
        state, right = str(WeighingState(one.word).label), ""
        if one.was_g is not None and one.was_word is not None:
            was = weighing_was(one.weight_g, one.word, one.was_g, one.was_word, shown)
            right = put_right(one.kept_at, was)
        weight = shown.mass(one.weight_g)
        return Knot(one.at, weight, (state,), "weighing", one.remembered, "measured", right)
    labels: dict[str, Any] = {"decoration": DecorationKind, "mark": MarkKind}
    if one.kind in labels:
        word = str(labels[one.kind](one.word).label).capitalize()
        return Knot(one.at, word, (one.where,) if one.where else (), one.kind, one.remembered)
    if one.kind == "hope":
        kind = str(HopeKind(one.where).label).capitalize()
        return Knot(one.at, f"{kind}: {one.word}" if one.word else kind, (), "hope", one.remembered)
    return None


def _fire_knots(story: Story) -> list[Knot]:
    placing = story.placing
    if placing is None:
        return []
    lit_at: datetime = placing.lit_at
    where = (
        f"{placing.place.get_level_display()} {placing.place.name}".strip() if placing.place else ""
    )
    more = [_("Stood on the %s shelf.") % where] if where else []
    reduction = placing.reduction_c
    if reduction is not None:
        more.append(_("Reduction began at %d °C.") % round(reduction))
    more += [
        _("Cone %(cone)s stood at %(clock)s o'clock.")
        % {"cone": cone.cone, "clock": f"{cone.clock:g}"}
        for cone in story.cones
    ]
    number = placing.firing_number
    return [Knot(lit_at, _("Firing %d") % number, tuple(more), "firing", placing.remembered)]


def _verdict_knots(story: Story) -> list[Knot]:
    return [
        Knot(
            told.verdict.at,
            f"{str(told.verdict.get_surface_display()).capitalize()}: "
            f"{told.verdict.get_thumb_display()}",
            tuple(line for line in (", ".join(told.faults), told.verdict.words) if line),
            "verdict",
            told.verdict.remembered,
        )
        for told in story.verdicts
    ]


def knots_of(story: Story, worked: Sequence[WorkedCoat], shown: Shown) -> list[Knot]:
    """Put all that is known of a pot in order of time."""
    pot = story.pot
    made = [str(part) for part in (pot.form, pot.clay) if part] + ([pot.note] if pot.note else [])
    knots = [Knot(pot.at, _("Made"), tuple(made), "pot", pot.remembered)]
    knots += [_coat_knot(told, one, shown) for told, one in zip(story.coats, worked, strict=True)]
    knots += [knot for one in story.small if (knot := _small_knot(one, shown))]
    knots += _fire_knots(story) + _verdict_knots(story)
    return sorted(knots, key=lambda knot: knot.at)


@require_safe
def story_page(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Show everything the record knows of a pot."""
    pot = get_object_or_404(pots_for(request.member), pk=pot_id)
    shown = Shown(request.member.studio)
    story = tell(request.member, pot)
    shape = shape_of(pot, profiles_of([pot.form_id] if pot.form_id else []))
    worked = [
        work_out(
            told.coat,
            shape=shape,
            reading=told.reading,
            solid=told.solid,
            scale_step_g=shown.studio.scale_step_g,
        )
        for told in story.coats
    ]
    drawing = draw_pots(
        [pot],
        {pot.pk: [told.coat for told in story.coats]},
        {one.coat.pk: one.thickness_mm for one in worked},
        shapes={pot.pk: shape},
    )[pot.pk]
    return render(
        request,
        "shelf/story.html",
        {
            "pot": pot,
            "name": name_of(pot),
            "summary": summary(story),
            "drawing": mark_safe(drawing),  # noqa: S308 - our own drawing, every text in it escaped
            "photos": story.photos,
            "knots": knots_of(story, worked, shown),
            "placing": story.placing,
        },
    )
