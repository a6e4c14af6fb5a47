"""The drawing of a pot: what lies where, and what may stand in a page."""

import re
from xml.etree import ElementTree as ET  # the drawing is our own text

import pytest

from wareboard.charts.general_forms import FORMS, general_form
from wareboard.charts.pot_drawing import CoatDrawn, pot_drawing, scale_for
from wareboard.core.errors import ShapeError

SVG = "{http://www.w3.org/2000/svg}"
JUG = general_form("jug")
RED, GREY = "#8e3b32", "#8d9a90"


def drawn(*coats: CoatDrawn, **more: object) -> ET.Element:
    svg = pot_drawing(JUG.profile_cm, JUG.wall_mm, coats, title="jug", **more)  # type: ignore[arg-type]
    return ET.fromstring(svg)  # noqa: S314 -- our own text


def paths(svg: ET.Element, kind: str) -> list[ET.Element]:
    return [p for p in svg.iter(f"{SVG}path") if p.get("class") == kind]


def xs(path: ET.Element) -> list[float]:
    return [float(x) for x in re.findall(r"[ML](-?[\d.]+),", path.get("d", ""))]


def ys(path: ET.Element) -> list[float]:
    return [float(y) for y in re.findall(r",(-?[\d.]+)", path.get("d", ""))]


def test_a_bare_pot_has_clay_and_no_glaze():
    svg = drawn()

    found = {p.get("class") for p in svg.iter(f"{SVG}path")}
    assert found == {"inside", "clay", "clay wall", "outline", "lip", "middle"}


def test_the_cut_lies_left_of_the_middle_and_the_glaze_right_of_it():
    svg = drawn(CoatDrawn(RED, "outside", 0.5))

    middle = float(svg.get("width", "")) / 2
    (wall,) = paths(svg, "clay wall")
    (glaze,) = paths(svg, "glaze")
    assert max(xs(wall)) == pytest.approx(middle, abs=0.1)
    assert min(xs(glaze)) == pytest.approx(middle, abs=0.1)
    assert glaze.get("fill") == RED


def test_a_coat_twice_as_thick_is_drawn_twice_as_thick():
    def reach(mm: float) -> float:
        svg = drawn(CoatDrawn(RED, "outside", mm), px_cm=20.0)
        (coat,) = paths(svg, "coat")
        (wall,) = paths(svg, "clay wall")
        return min(xs(wall)) - min(xs(coat))

    assert reach(1.0) == pytest.approx(2 * reach(0.5), abs=0.2)


def test_coats_lie_on_one_another_where_they_meet():
    def reaches(*swatches: str) -> list[float]:
        svg = drawn(*(CoatDrawn(swatch, "outside", 0.5) for swatch in swatches), px_cm=20.0)
        middle = float(svg.get("width", "")) / 2
        return [middle - min(xs(coat)) for coat in paths(svg, "coat")]

    (alone,) = reaches(RED)
    under, over = reaches(GREY, RED)
    assert under == pytest.approx(alone, abs=0.2)
    assert over - under == pytest.approx(0.05 * 4.0 * 20.0, abs=0.2)  # 0.5 mm, 4 times thicker


def test_a_lip_reaches_as_deep_as_it_was_dipped():
    svg = drawn(CoatDrawn(RED, "outside", 0.5, "lip", 3.0), px_cm=20.0)

    (glaze,) = paths(svg, "glaze")
    (outline,) = paths(svg, "outline")
    assert max(ys(glaze)) - min(ys(outline)) == pytest.approx(3.0 * 20, abs=4)


def test_below_the_lip_and_the_lip_together_cover_what_the_whole_covers():
    whole = drawn(CoatDrawn(RED, "outside", 0.5), px_cm=20.0)
    parts = drawn(
        CoatDrawn(RED, "outside", 0.5, "below the lip", 3.0),
        CoatDrawn(GREY, "outside", 0.5, "lip", 3.0),
        px_cm=20.0,
    )

    (all_of_it,) = paths(whole, "glaze")
    below, lip = paths(parts, "glaze")
    assert (max(ys(below)), min(ys(lip))) == (max(ys(all_of_it)), min(ys(all_of_it)))
    assert min(ys(below)) - max(ys(lip)) < 4


def test_the_foot_stays_bare_as_far_as_it_was_measured():
    svg = drawn(CoatDrawn(RED, "outside", 0.5), px_cm=20.0, foot_gap_mm=10.0)

    (glaze,) = paths(svg, "glaze")
    (outline,) = paths(svg, "outline")
    assert max(ys(outline)) - max(ys(glaze)) == pytest.approx(20, abs=4)


def test_a_glazed_foot_has_glaze_down_to_the_board():
    svg = drawn(CoatDrawn(RED, "outside", 0.5, "foot", 1.0), px_cm=20.0)

    (glaze,) = paths(svg, "glaze")
    (outline,) = paths(svg, "outline")
    assert max(ys(glaze)) == max(ys(outline))


def test_an_inside_coat_tints_the_hollow_and_not_the_outside():
    svg = drawn(CoatDrawn(RED, "inside", 0.5))

    assert (len(paths(svg, "bloom")), len(paths(svg, "glaze"))) == (1, 0)


def test_a_coat_inside_and_outside_is_one_skin_over_the_rim():
    svg = drawn(CoatDrawn(RED, "both", 0.5))

    assert len(paths(svg, "coat")) == 1


def test_a_coat_below_a_lip_that_is_deeper_than_the_thing_is_not_drawn():
    tile = general_form("tile")

    svg = pot_drawing(
        tile.profile_cm, tile.wall_mm, [CoatDrawn(RED, "both", 0.5, "below the lip")], title="tile"
    )

    assert svg.count(RED) == 0


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.word)
def test_no_drawing_carries_a_style_or_a_script_or_leaves_its_paper(form):
    svg = pot_drawing(
        form.profile_cm,
        form.wall_mm,
        [CoatDrawn(GREY, "both", 0.5), CoatDrawn(RED, "both", 1.1, "lip", 1.0)],
        title=form.word,
    )

    root = ET.fromstring(svg)  # noqa: S314 -- our own text
    width, height = float(root.get("width", "")), float(root.get("height", ""))
    points = [(x, y) for p in root.iter(f"{SVG}path") for x, y in zip(xs(p), ys(p), strict=True)]
    assert [p for p in points if not (0 <= p[0] <= width and 0 <= p[1] <= height)] == []
    assert re.findall(r"style=|<style|<script|\bid=|\bon\w+=", svg) == []


def test_the_title_is_said_and_escaped():
    svg = pot_drawing(JUG.profile_cm, JUG.wall_mm, title="<jug> & lid", desc="thick lip")

    root = ET.fromstring(svg)  # noqa: S314 -- our own text
    assert root.findtext(f"{SVG}title") == "<jug> & lid"
    assert root.findtext(f"{SVG}desc") == "thick lip"
    assert root.get("role") == "img"


def test_a_general_outline_says_so_in_its_class():
    assert drawn(general=True).get("class") == "pot-drawing general"


@pytest.mark.parametrize(
    ("coat", "field"),
    [
        (CoatDrawn("red"), "swatch"),
        (CoatDrawn('#8e3b32" onload="x'), "swatch"),
        (CoatDrawn(RED, "both", -0.1), "thickness_mm"),
        (CoatDrawn(RED, "both", 80.0), "thickness_mm"),
        (CoatDrawn(RED, "both", float("nan")), "thickness_mm"),
    ],
)
def test_a_coat_that_cannot_be_drawn_is_refused(coat, field):
    with pytest.raises(ShapeError) as refused:
        drawn(coat)

    assert refused.value.field == field


def test_a_scale_of_nothing_is_refused():
    with pytest.raises(ShapeError) as refused:
        drawn(px_cm=0.0)

    assert refused.value.field == "px_cm"


def test_pots_of_one_board_fit_on_it():
    profiles = [form.profile_cm for form in FORMS[:4]]

    px_cm = scale_for(profiles, 360.0)

    widths_px = [2 * max(r for r, _ in p) * px_cm for p in profiles]
    assert sum(widths_px) <= 360.0


def test_a_lonely_pot_is_no_giant_and_an_empty_board_has_a_scale():
    assert scale_for([JUG.profile_cm], 2000.0) == 4.5
    assert scale_for([], 360.0) == 4.5


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("oil bottle", "bottle"),
        ("pouring jug, 1 l", "jug"),
        ("Colander bowl", "bowl"),
        ("teabowl", "bowl"),
        ("six mugs", "mug"),
        ("candle holder", "holder"),
        ("pitcher", "jug"),
        ("something else", "bowl"),
        ("", "bowl"),
    ],
)
def test_the_last_known_word_of_a_name_gives_the_outline(name, word):
    assert general_form(name).word == word
