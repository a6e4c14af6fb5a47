"""Still pictures: made once, kept by what they show, whole or not at all."""

import subprocess
import sys
from pathlib import Path

import pytest

from wareboard.charts import stills
from wareboard.charts.firing_curve import firing_curve
from wareboard.charts.stills import StillError, kept_still, make_still, still_name, to_svg

SPEC = firing_curve([(0.0, 12.0), (6.5, 105.0)], width_px=300)


def test_a_still_is_made_once_and_kept_by_its_content(tmp_path: Path):
    folder = tmp_path / "stills"

    first = make_still(SPEC, folder)
    made = first.stat().st_mtime_ns
    second = make_still(SPEC, folder)

    assert (second, second.stat().st_mtime_ns) == (first, made)
    assert [p.name for p in folder.iterdir()] == [still_name(SPEC)]


def test_nothing_is_kept_of_what_was_never_made(tmp_path: Path):
    assert kept_still(SPEC, tmp_path) is None


def test_another_picture_has_another_name_and_the_order_of_keys_is_none():
    turned = dict(reversed(SPEC.items()))

    assert still_name(turned) == still_name(SPEC)
    assert still_name({**SPEC, "width": 301}) != still_name(SPEC)


def test_a_still_needs_no_style_attribute_and_shows_the_word_at_the_line():
    svg = to_svg(SPEC)

    assert svg.count("style=") + svg.count("<script") == 0
    assert svg.count(">105 °C</text>") == 2


def test_a_picture_that_cannot_be_made_says_so_and_leaves_no_file(tmp_path: Path):
    with pytest.raises(StillError, match="could not be made"):
        make_still({"mark": 3}, tmp_path)

    assert list(tmp_path.iterdir()) == []


def test_a_picture_that_takes_too_long_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(stills, "SECONDS", 0.001)

    with pytest.raises(StillError, match="more than a minute"):
        make_still(SPEC, tmp_path)

    assert list(tmp_path.iterdir()) == []


def test_a_grammar_the_converter_does_not_know_is_refused():
    with pytest.raises(StillError, match="Vega-Lite 99"):
        to_svg({**SPEC, "$schema": "https://vega.github.io/schema/vega-lite/v99.1.0.json"})


def test_nothing_is_fetched_for_a_still():
    spec = {
        "data": {"url": "http://127.0.0.1:9/rows.json"},
        "mark": "point",
        "encoding": {"x": {"field": "a", "type": "quantitative"}},
    }

    with pytest.raises(ValueError, match=r"127\.0\.0\.1"):
        to_svg(spec)


def test_charts_need_neither_django_nor_the_converter_to_be_imported():
    say = (
        "import sys; import wareboard.charts.stills, wareboard.charts.firing_curve,"
        " wareboard.charts.pot_drawing;"
        " print([m for m in ('django', 'altair', 'vl_convert') if m in sys.modules])"
    )

    done = subprocess.run([sys.executable, "-c", say], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
