"""Pots as they are drawn: their own outline where one is known, else a general one."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from django.utils.translation import gettext as _

from wareboard.charts.general_forms import general_form
from wareboard.charts.pot_drawing import CoatDrawn, pot_drawing, scale_for
from wareboard.core.pot.coated import coated_dm2
from wareboard.records.people.entry import nth
from wareboard.records.people.shown import day

from .models import Coat, Form, FormPoint, Pot

LIP_CM = 3.0
BOARD_PX = 560.0
REMEMBERED = 1024


@dataclass(frozen=True)
class Shape:
    """Outline and wall of a pot.

    Attributes
    ----------
    profile_cm : tuple of (r, z)
        Outside, foot to rim [cm].
    wall_mm : float
        Thickness of the wall [mm].
    own : bool
        Whether it was measured on this form, not taken from a general one.
    """

    profile_cm: tuple[tuple[float, float], ...]
    wall_mm: float
    own: bool


def profiles_of(form_ids: Iterable[str]) -> Mapping[str, tuple[tuple[float, float], ...]]:
    """Read the outlines of some forms."""
    found: dict[str, list[tuple[float, float]]] = {}
    points = FormPoint.objects.filter(form__in=set(form_ids)).order_by("form", "position")
    for form_id, r_cm, z_cm in points.values_list("form_id", "r_cm", "z_cm"):
        found.setdefault(form_id, []).append((r_cm, z_cm))
    return {form_id: tuple(profile) for form_id, profile in found.items()}


def shape_of(pot: Pot, profiles: Mapping[str, tuple[tuple[float, float], ...]]) -> Shape:
    """Give a pot's outline: its form's own, or a general one for its name."""
    own = profiles.get(pot.form_id or "")
    general = general_form(pot.form.name if pot.form else pot.name)
    if own is None:
        return Shape(tuple(general.profile_cm), general.wall_mm, own=False)
    wall_mm = pot.form.wall_mm if pot.form and pot.form.wall_mm else general.wall_mm
    return Shape(own, wall_mm, own=True)


def shape_of_form(form: Form, profiles: Mapping[str, tuple[tuple[float, float], ...]]) -> Shape:
    """Give a form's outline: its own, or a general one for its name."""
    own, general = profiles.get(form.pk), general_form(form.name)
    if own is None:
        return Shape(tuple(general.profile_cm), general.wall_mm, own=False)
    return Shape(own, form.wall_mm or general.wall_mm, own=True)


@dataclass(frozen=True)
class Measures:
    """What an outline measures.

    Attributes
    ----------
    height_cm, width_cm : float
        Over all [cm].
    outside_dm2, inside_dm2 : float
        What a coat covers, the disc below the foot left out [dm²].
    """

    height_cm: float
    width_cm: float
    outside_dm2: float
    inside_dm2: float


def measures_of(shape: Shape) -> Measures:
    """Measure an outline."""
    heights = [z_cm for _r, z_cm in shape.profile_cm]
    return Measures(
        max(heights) - min(heights),
        2 * max(r_cm for r_cm, _z in shape.profile_cm),
        coated_dm2(shape.profile_cm, shape.wall_mm, side="outside"),
        coated_dm2(shape.profile_cm, shape.wall_mm, side="inside"),
    )


def draw_shape(shape: Shape, title: str, *, px_cm: float = 4.5) -> str:
    """Draw an outline without any coat."""
    return pot_drawing(
        shape.profile_cm, shape.wall_mm, title=title, px_cm=px_cm, general=not shape.own
    )


def kind_of(pot: Pot) -> str:
    """Give what a pot and those like it are called: its own name, else its form's, else its day."""
    if pot.name:
        return pot.name
    return pot.form.name if pot.form else _("pot of %s") % day(pot.at, "j M")


def number_in_tap(pot: Pot) -> int | None:
    """Give which of the alike pots of one tap it is, as its id says; None for one made alone."""
    tail = pot.pk.rpartition("-")[2]
    if pot.together and tail.isdecimal() and pot.pk == nth(pot.together, int(tail)):
        return int(tail)
    return None


def name_of(pot: Pot) -> str:
    """Give what a pot is called on every page: the third of six made in one tap is mug 3."""
    number = None if pot.name else number_in_tap(pot)
    if number is None:
        return kind_of(pot)
    if pot.form is None:
        return _("pot %(n)d of %(day)s") % {"n": number, "day": day(pot.at, "j M")}
    return f"{kind_of(pot)} {number}"


def names_of(pots: Collection[Pot]) -> dict[str, str]:
    """Name the pots of a list; where two would be called alike, by the day they were made too."""
    names = {pot.pk: name_of(pot) for pot in pots}
    days = {pot.pk: day(pot.at, "j M") for pot in pots}
    alike = Counter(names.values())
    of_one_day = Counter((name, days[key]) for key, name in names.items())
    return {
        key: _("%(pot)s of %(day)s") % {"pot": name, "day": days[key]}
        if alike[name] > of_one_day[name, days[key]]
        else name
        for key, name in names.items()
    }


def _drawn(coat: Coat, thickness_mm: float | None) -> CoatDrawn:
    glaze = coat.bucket.glaze if coat.bucket else coat.glaze
    return CoatDrawn(
        swatch=glaze.swatch if glaze else "#a9a79c",
        side=coat.side,  # type: ignore[arg-type] # the constraint holds it to the list
        thickness_mm=thickness_mm,
        extent=coat.extent,  # type: ignore[arg-type] # as above
        depth_cm=coat.lip_cm,
    )


def draw_pots(
    pots: Sequence[Pot],
    coats: Mapping[str, Sequence[Coat]],
    thickness_mm: Mapping[str, float | None],
    *,
    width_px: float = BOARD_PX,
    px_cm: float | None = None,
    shapes: Mapping[str, Shape] | None = None,
) -> Mapping[str, str]:
    """Draw pots that stand on one board, at one scale.

    Parameters
    ----------
    pots : sequence of Pot
        With their forms at hand.
    coats : mapping of str to sequence of Coat
        For each pot its coats in order, buckets and glazes at hand.
    thickness_mm : mapping of str to float or None
        For each coat its thickness, where it was worked out [mm].
    width_px : float
        How long the board is [px].
    px_cm : float, optional
        The scale, where it is given by more than this board [px per cm].
    shapes : mapping of str to Shape, optional
        Outlines by pot, where they are at hand.

    Returns
    -------
    mapping of str to str
        For each pot its drawing as SVG.
    """
    if shapes is None:
        profiles = profiles_of(pot.form_id for pot in pots if pot.form_id)
        shapes = {pot.pk: shape_of(pot, profiles) for pot in pots}
    profiles_cm = [shape.profile_cm for shape in shapes.values()]
    scale = scale_for(profiles_cm, width_px) if px_cm is None else px_cm
    return {
        pot.pk: _drawing(
            shapes[pot.pk],
            tuple(_drawn(c, thickness_mm.get(c.pk)) for c in coats.get(pot.pk, ())),
            name_of(pot),
            scale,
            pot.foot_gap_mm,
        )
        for pot in pots
    }


@lru_cache(maxsize=REMEMBERED)
def _drawing(
    shape: Shape,
    coats: tuple[CoatDrawn, ...],
    title: str,
    px_cm: float,
    foot_gap_mm: float | None,
) -> str:
    """Remember a drawing: a pot looks the same each time its page is opened."""
    return pot_drawing(
        shape.profile_cm,
        shape.wall_mm,
        coats,
        title=title,
        px_cm=px_cm,
        foot_gap_mm=foot_gap_mm,
        general=not shape.own,
    )
