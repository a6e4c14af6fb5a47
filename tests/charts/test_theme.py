"""Charts wear the colours of the style sheet."""

import re
from dataclasses import asdict
from pathlib import Path

import altair as alt
import pytest

import wareboard
from wareboard.charts.theme import TOKENS, Light, config, dressed

SHEET = Path(wareboard.__file__).parent / "web/static/wareboard/wareboard.css"


@pytest.mark.parametrize(("light", "place"), [("light", 1), ("dark", 2)])
def test_tokens_are_those_of_the_style_sheet(light: Light, place: int):
    pairs = re.findall(
        r"--([\w-]+): light-dark\((#\w{6}), (#\w{6})\)", SHEET.read_text(encoding="utf-8")
    )
    sheet = {pair[0]: pair[place] for pair in pairs}

    tokens = asdict(TOKENS[light])

    assert tokens == {name: sheet[name] for name in tokens}


def test_a_dressed_chart_wears_the_house_look_and_no_other():
    chart = alt.Chart({"values": [{"a": 1}]}).mark_point().encode(x="a:Q")

    spec = dressed(chart, "dark")

    assert spec["config"] == config("dark")
