"""One look for all charts, by day and at night.

The colours are the tokens of the style sheet; a test holds the two together.
A specification is made without any look, and dressed here at the end.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import altair as alt

Light = Literal["light", "dark"]
Spec = dict[str, Any]

FONT = "Hyperlegible, Atkinson Hyperlegible, system-ui, sans-serif"


@dataclass(frozen=True)
class Tokens:
    """The colours a chart may use.

    Attributes
    ----------
    ground, raised, ink, quiet, line, accent, go, wait, stop, clay, plank : str
        As the style sheet names them, ``#rrggbb``.
    """

    ground: str
    raised: str
    ink: str
    quiet: str
    line: str
    accent: str
    go: str
    wait: str
    stop: str
    clay: str
    plank: str


TOKENS: dict[Light, Tokens] = {
    "light": Tokens(
        ground="#faf7f1",
        raised="#ffffff",
        ink="#1d1915",
        quiet="#5c534a",
        line="#ddd4c7",
        accent="#8a3a1c",
        go="#195a30",
        wait="#704800",
        stop="#a11d1d",
        clay="#d8c6ac",
        plank="#b99d78",
    ),
    "dark": Tokens(
        ground="#171412",
        raised="#221e1a",
        ink="#f3ece2",
        quiet="#b9ada0",
        line="#3b342e",
        accent="#f0a071",
        go="#7fd39b",
        wait="#f0c060",
        stop="#ff8e80",
        clay="#6b5a47",
        plank="#7d654a",
    ),
}


def dressed(chart: "alt.TopLevelMixin", light: Light) -> Spec:
    """Give a chart's specification in the house's look.

    Parameters
    ----------
    chart : altair chart
        A chart that sets no colours of its own but the tokens.
    light : {'light', 'dark'}
        By day, or in the kiln shed at night.

    Returns
    -------
    dict
        A Vega-Lite specification.
    """
    spec: Spec = chart.to_dict()
    spec["config"] = config(light)
    return spec


def config(light: Light) -> Spec:
    """Give the look as Vega-Lite knows it.

    Parameters
    ----------
    light : {'light', 'dark'}
        By day, or in the kiln shed at night.

    Returns
    -------
    dict
        The ``config`` of a specification.
    """
    t = TOKENS[light]
    return {
        "background": t.ground,
        "font": FONT,
        "padding": 4,
        "view": {"stroke": None},
        "axis": {
            "domain": False,
            "grid": True,
            "gridColor": t.line,
            "gridWidth": 1,
            "ticks": False,
            "labelColor": t.quiet,
            "labelFontSize": 15,
            "labelPadding": 8,
            "titleColor": t.quiet,
            "titleFontSize": 15,
            "titleFontWeight": "normal",
            "titlePadding": 10,
        },
        "axisX": {"grid": False, "domain": True, "domainColor": t.ink, "domainWidth": 2},
        "text": {"color": t.ink, "fontSize": 16},
        "line": {"strokeWidth": 3, "strokeCap": "round", "strokeJoin": "round"},
        "legend": {"disable": True},
    }
