"""The look keeps its promises: contrast, layers, sizes, and nothing the policy would refuse."""

import hashlib
import re
import tomllib
from html.parser import HTMLParser
from pathlib import Path

import pytest
from django import forms
from django.template.loader import render_to_string

import wareboard

WEB = Path(wareboard.__file__).parent / "web"
STATIC = WEB / "static" / "wareboard"
SHEET = (STATIC / "wareboard.css").read_text(encoding="utf-8")
VENDOR = STATIC / "vendor"
TAKEN = tomllib.loads((VENDOR / "VENDORED.toml").read_text(encoding="utf-8"))["taken"]
TEMPLATES = sorted(Path(wareboard.__file__).parent.rglob("templates/**/*.html"))

DAY, NIGHT = 0, 1
TEXT = ("ink", "quiet", "accent", "go", "wait", "stop")
GROUNDS = ("ground", "raised")
PAIRS = [(text, ground) for text in TEXT for ground in GROUNDS] + [("on-accent", "accent")]


def tokens(light: int) -> dict[str, str]:
    pairs = re.findall(r"--([\w-]+): light-dark\((#\w{6}), (#\w{6})\)", SHEET)
    return {name: colours[light] for name, *colours in pairs}


def luminance(colour: str) -> float:
    """Relative luminance as the Web Content Accessibility Guidelines 2.2 define it."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as the Web Content Accessibility Guidelines 2.2 define it."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_runs_from_one_for_the_same_to_twenty_one_for_black_on_white():
    same, most = contrast("#8a3a1c", "#8a3a1c"), contrast("#000000", "#ffffff")

    # The ends of the range that the guidelines' own definition states.
    assert (same, most) == (pytest.approx(1.0), pytest.approx(21.0))


@pytest.mark.parametrize("light", [DAY, NIGHT], ids=["day", "night"])
@pytest.mark.parametrize(("text", "ground"), PAIRS, ids=lambda name: name)
def test_text_stands_out_seven_to_one(text: str, ground: str, light: int):
    colours = tokens(light)

    assert contrast(colours[text], colours[ground]) >= 7.0


@pytest.mark.parametrize("light", [DAY, NIGHT], ids=["day", "night"])
@pytest.mark.parametrize("ground", GROUNDS)
def test_edges_of_what_can_be_tapped_stand_out_three_to_one(ground: str, light: int):
    colours = tokens(light)

    assert contrast(colours["edge"], colours[ground]) >= 3.0


def test_every_rule_lies_in_a_layer_or_is_for_paper_or_stillness():
    plain = re.sub(r"/\*.*?\*/", "", SHEET, flags=re.DOTALL)
    outmost = [re.split(r"[{;:]", line)[0].strip() for line in plain.splitlines() if line[:1] > "!"]

    assert [head for head in outmost if head not in {"}", "@font-face"}] == [
        "@layer tokens, base, layout, parts, pages",
        "@layer tokens",
        "@layer base",
        "@layer layout",
        "@layer parts",
        "@layer pages",
        "@media (prefers-reduced-motion",
        "@media print",
    ]


def test_every_word_for_a_colour_or_size_that_is_used_is_also_said():
    used = set(re.findall(r"var\((--[\w-]+)\)", SHEET))
    said = set(re.findall(r"(--[\w-]+):", SHEET))

    assert used - said == set()


def test_the_fonts_named_are_shipped_with_their_licence():
    named = set(re.findall(r'url\("(fonts/[^"]+)"\)', SHEET))
    shipped = {f"fonts/{p.name}" for p in (STATIC / "fonts").glob("*.woff2")}

    assert named == shipped
    assert "SIL Open Font License, Version 1.1" in (STATIC / "fonts/OFL.txt").read_text("utf-8")


def test_the_sheet_asks_nothing_of_the_outside():
    assert re.findall(r"@import|https?:|data:", SHEET) == []


@pytest.mark.parametrize("part", TAKEN, ids=lambda part: part["name"])
def test_what_was_taken_is_byte_for_byte_what_was_published(part: dict[str, str]):
    file = VENDOR / part["file"]

    assert hashlib.sha256(file.read_bytes()).hexdigest() == part["sha256"]
    assert (VENDOR / part["licence_file"]).stat().st_size > 0


def test_nothing_stands_among_what_was_taken_unnamed():
    scripts = {p.relative_to(VENDOR).as_posix() for p in VENDOR.rglob("*.js")}

    assert scripts == {part["file"] for part in TAKEN}


class Inline(HTMLParser):
    """Collects what the content security policy would refuse."""

    def __init__(self) -> None:
        super().__init__()
        self.refused: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = {name for name, _ in attrs}
        if tag == "style" or (tag == "script" and "src" not in names):
            self.refused.append(tag)
        self.refused += [name for name in names if name == "style" or name.startswith("on")]


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_no_template_holds_a_script_or_a_style_of_its_own(template: Path):
    reader = Inline()

    reader.feed(template.read_text(encoding="utf-8"))

    assert reader.refused == []


class Bench(forms.Form):
    slurry_g = forms.DecimalField(label="Weigh the full bottle", help_text="Wipe it.")
    flame = forms.ChoiceField(
        choices=[(w, w) for w in ("clear", "soft", "licking", "full", "smoky")],
        widget=forms.RadioSelect,
    )
    stirred = forms.BooleanField(required=False)
    picture = forms.FileField(required=False)
    entry_id = forms.CharField(widget=forms.HiddenInput, required=False)


def field(name: str, data: dict[str, str] | None = None, **more: object) -> str:
    form = Bench(data)
    return render_to_string("parts/_field.html", {"field": form[name], **more})


def test_a_field_says_its_question_its_hint_and_its_unit():
    html = field("slurry_g", unit="g")

    assert re.findall(r"<label for=\"id_slurry_g\">Weigh the full bottle</label>", html)
    assert re.findall(r'<span class="unit">g</span>', html)
    assert re.findall(r'aria-describedby="id_slurry_g_helptext"', html)
    assert re.findall(r'<p class="hint" id="id_slurry_g_helptext">Wipe it.</p>', html)


def test_an_error_stands_beside_its_field_and_is_named_by_it():
    html = field("slurry_g", {"slurry_g": "heavy"})

    assert re.findall(r'<div class="ask wrong">', html)
    assert re.findall(r'<p class="error" id="id_slurry_g_error">Enter a number.</p>', html)
    assert re.findall(r'aria-describedby="[^"]*id_slurry_g_error"', html)


def test_choices_become_five_word_buttons_that_need_no_script():
    html = field("flame", {"flame": "soft"})

    assert len(re.findall(r'<input type="radio"', html)) == 5
    assert re.findall(r'value="(\w+)"[^>]*checked', html) == ["soft"]
    assert re.findall(r'<fieldset class="taps five"', html)


def test_a_tick_box_becomes_one_word_button():
    html = field("stirred")

    assert re.findall(
        r'<div class="taps one"><label[^>]*><input type="checkbox"[^>]*><span>Stirred', html
    )


def test_a_file_becomes_a_photo_field_and_a_hidden_field_stays_hidden():
    assert re.findall(r'<div class="photo"><input type="file"', field("picture"))
    assert field("entry_id").strip() == '<input type="hidden" name="entry_id" id="id_entry_id">'


@pytest.mark.parametrize(
    ("context", "said"),
    [
        ({"sign": "go"}, "go"),
        ({"sign": "wait", "word": "thin"}, "thin"),
        ({"sign": "stop"}, "stop"),
        ({"sign": "unknown"}, "cannot tell"),
    ],
)
def test_a_sign_has_its_shape_and_its_word(context: dict[str, str], said: str):
    html = render_to_string("parts/_sign.html", context)

    assert html.strip() == f'<span class="sign {context["sign"]}">{said}</span>'


@pytest.mark.parametrize(
    ("context", "said"),
    [
        ({"trust": "measured"}, "measured"),
        ({"trust": "worked-out"}, "worked out"),
        ({"trust": "usual", "n": 6}, "usual (6)"),
        ({"trust": "usual"}, "usual"),
        ({"trust": "general"}, "general"),
        ({"trust": "guess"}, "guess"),
    ],
)
def test_trust_is_one_of_five_words(context: dict[str, str | int], said: str):
    html = render_to_string("parts/_trust.html", context)

    assert html.strip() == f'<span class="trust {context["trust"]}">{said}</span>'


def test_nothing_to_explain_shows_no_fold():
    assert render_to_string("parts/_why.html", {}).strip() == ""


def test_a_page_shows_its_rooms_and_marks_the_one_it_stands_in():
    rooms = [
        {"name": "Today", "url": "/", "current": False},
        {"name": "Kiln", "url": "/kiln/", "current": True},
    ]

    html = render_to_string("base.html", {"rooms": rooms, "studio": "Culverhythe Pottery"})

    assert re.findall(r'<a href="([^"]+)"[^>]*>(?:Today|Kiln)</a>', html) == ["/", "/kiln/"]
    assert re.findall(r'<a href="/kiln/" aria-current="page">Kiln</a>', html)
    assert re.findall(r"<title>Wareboard · Culverhythe Pottery</title>", html)


def test_what_can_be_taken_back_stands_in_the_foot():
    html = render_to_string(
        "base.html", {"undo": {"say": "748 g kept.", "url": "/undo/7/"}, "studio": ""}
    )

    foot = html[html.index("<footer") : html.index("</footer>")]
    assert re.findall(r'action="([^"]+)"', foot) == ["/undo/7/"]
    assert re.findall(r'role="status">([^<]+)<', foot) == ["748 g kept."]
