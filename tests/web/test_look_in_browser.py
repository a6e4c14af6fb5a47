"""The look and its scripts in a real browser, under the policy the pages are served with."""

import json
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from django import forms
from django.template.loader import render_to_string
from playwright.sync_api import Browser, Page, expect

import wareboard
from wareboard.charts.firing_curve import firing_curve
from wareboard.charts.general_forms import FORMS
from wareboard.charts.pot_drawing import CoatDrawn, pot_drawing
from wareboard.web.headers import POLICY

pytestmark = pytest.mark.browser

STATIC = Path(wareboard.__file__).parent / "web" / "static"
PHONE = {"width": 390, "height": 844}
NARROW = {"width": 320, "height": 640}
SPEC = firing_curve(
    [(0.0, 12.0), (6.5, 105.0), (12.8, 1042.0)],
    good=[(0.0, 15.0), (14.0, 1262.0)],
    good_name="13 September",
)
ROOMS = ("Today", "Stores", "Glazes", "Ware", "Kiln", "Shelf")


class Bench(forms.Form):
    slurry_g = forms.DecimalField(
        label="Weigh the full bottle", widget=forms.TextInput(attrs={"inputmode": "decimal"})
    )
    flame = forms.ChoiceField(
        choices=[(w, w) for w in ("clear", "soft", "licking", "full", "smoky")],
        widget=forms.RadioSelect,
    )
    entry_id = forms.CharField(widget=forms.HiddenInput, required=False)


def context(**more: object) -> dict[str, Any]:
    rooms = [{"name": name, "url": "#", "current": name == "Kiln"} for name in ROOMS]
    return {"rooms": rooms, "studio": "Culverhythe Pottery", "csrf_token": "x", **more}


def bench_page() -> str:
    parts = {
        name: render_to_string("parts/_field.html", {"field": Bench()[name]})
        for name in (
            "slurry_g",
            "flame",
            "entry_id",
        )
    }
    pots = "".join(
        f'<li><a href="#"><span class="pot">{drawing(form)}</span>'
        f'<span class="sign go">go</span></a></li>'
        for form in FORMS
    )
    form = (
        '<form id="f" method="post" action="/kept" hx-post="/kept" hx-target="#answer">'
        f'{"".join(parts.values())}<button class="main">Tell me</button></form>'
        f'<section id="answer" class="answer"></section><ul class="plank">{pots}</ul>'
    )
    return page("hand", form, "")


def drawing(form: Any) -> str:
    coats = [CoatDrawn("#9fb1a8", "both", 0.5), CoatDrawn("#8e3b32", "outside", 0.8)]
    return pot_drawing(form.profile_cm, form.wall_mm, coats, title=form.word)


def chart_page() -> str:
    chart = {"say": "Behind.", "label": "the firing", "still_url": "/none", "spec_url": "/spec"}
    part = render_to_string("parts/_chart.html", {"chart": chart})
    return page("", part, render_to_string("parts/_chart_scripts.html"))


def photo_page() -> str:
    return page(
        "hand", '<p class="still seen"><a href="#"><img src="/upright.svg" alt=""></a></p>', ""
    )


def page(kind: str, content: str, scripts: str) -> str:
    html = render_to_string("base.html", context(undo={"say": "748 g kept.", "url": "/undo"}))
    html = html.replace('id="main" class=""', f'id="main" class="{kind}"')
    html = html.replace("</main>", f"{content}</main>")
    return html.replace("</head>", f"{scripts}</head>")


class Bare(BaseHTTPRequestHandler):
    """Serves two pages, the static files and one place to post to."""

    posted: list[str]
    pages: dict[str, str]
    wait: threading.Event

    def do_GET(self) -> None:
        if self.path in self.pages:
            self.answer(self.pages[self.path].encode(), "text/html; charset=utf-8")
        elif self.path == "/spec":
            self.answer(json.dumps(SPEC).encode(), "application/json")
        elif (file := STATIC / self.path.removeprefix("/static/")).is_file():
            kind = {".css": "text/css", ".js": "text/javascript", ".woff2": "font/woff2"}
            self.answer(file.read_bytes(), kind[file.suffix])
        else:
            self.answer(b"", "text/plain", 404)

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers["Content-Length"])).decode()
        self.posted.append(body)
        self.wait.wait(5)
        wrong = "slurry_g=heavy" in body
        self.answer(
            b"<p>145? You mean 1.45?</p>" if wrong else b"<p>Kept.</p>",
            "text/html",
            422 if wrong else 200,
        )

    def answer(self, body: bytes, kind: str, status: int = 200) -> None:
        """Send it as the pages are sent."""
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Security-Policy", POLICY)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def bare() -> Iterator[type[Bare]]:
    kind = type(
        "Served",
        (Bare,),
        {
            "posted": [],
            "pages": {"/bench": bench_page(), "/chart": chart_page(), "/photo": photo_page()},
            "wait": threading.Event(),
        },
    )
    kind.wait.set()
    server = ThreadingHTTPServer(("127.0.0.1", 0), kind)
    kind.address = f"http://127.0.0.1:{server.server_port}"
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield kind
    server.shutdown()
    server.server_close()


@pytest.fixture
def phone(browser: Browser, bare: type[Bare]) -> Iterator[Page]:
    bare.posted.clear()
    tab = browser.new_page(viewport=PHONE, base_url=bare.address)
    tab.refused = []
    tab.on(
        "console", lambda m: tab.refused.append(m.text) if m.type in {"error", "warning"} else None
    )
    yield tab
    tab.close()


def wide(tab: Page) -> int:
    return tab.evaluate("document.documentElement.scrollWidth")


@pytest.mark.parametrize("size", [PHONE, NARROW], ids=["phone", "narrow"])
def test_nothing_has_to_be_pushed_sideways_in_the_hand(phone: Page, size: dict[str, int]):
    phone.set_viewport_size(size)

    phone.goto("/bench")

    assert wide(phone) == size["width"]


def test_the_room_one_stands_in_is_seen_at_the_foot(phone: Page):
    phone.goto("/bench")

    expect(phone.locator(".rooms [aria-current]")).to_be_in_viewport(ratio=1)


def test_fields_and_buttons_are_made_for_a_wet_thumb(phone: Page):
    phone.goto("/bench")

    sizes = {
        kind: [box["height"] for one in phone.locator(kind).all() if (box := one.bounding_box())]
        for kind in (".field input", "button", ".taps label", ".rooms a", ".foot button")
    }
    assert {kind: min(high) >= 56.7 for kind, high in sizes.items()} == dict.fromkeys(sizes, True)
    assert min(sizes[".field input"]) >= 60


def test_an_upright_photo_leaves_the_screen_room_for_what_is_said_of_the_pot(phone: Page):
    upright = '<svg xmlns="http://www.w3.org/2000/svg" width="900" height="1600"/>'
    phone.route("**/upright.svg", lambda r: r.fulfill(content_type="image/svg+xml", body=upright))

    phone.goto("/photo")

    box = phone.locator(".still img").bounding_box()
    assert box
    assert 200 < box["height"] <= PHONE["height"] * 0.45


def test_all_pots_stand_on_their_board(phone: Page):
    phone.goto("/bench")

    off = phone.evaluate(
        """[...document.querySelectorAll('.pot')].map(pot => {
             const svg = pot.querySelector('svg').getBoundingClientRect();
             return Math.abs(svg.bottom - (pot.getBoundingClientRect().bottom - 9));
           }).filter(gap => gap > 0.6)"""
    )
    assert off == []


def test_two_quick_taps_make_one_entry_with_an_id(phone: Page, bare: type[Bare]):
    phone.goto("/bench")
    phone.get_by_label("Weigh the full bottle").fill("748")
    phone.get_by_role("radio", name="soft").check()
    bare.wait.clear()

    phone.get_by_role("button", name="Tell me").dblclick()
    bare.wait.set()

    expect(phone.locator("#answer")).to_have_text("Kept.")
    assert len(bare.posted) == 1
    assert len(dict(part.split("=") for part in bare.posted[0].split("&"))["entry_id"]) == 36


def test_the_next_entry_has_another_id(phone: Page, bare: type[Bare]):
    phone.goto("/bench")
    for weight in ("748", "751"):
        phone.get_by_label("Weigh the full bottle").fill(weight)
        phone.get_by_role("radio", name="soft").check()
        with phone.expect_response("**/kept"):
            phone.get_by_role("button", name="Tell me").click()
        expect(phone.locator("#f")).not_to_have_attribute("aria-busy", "true")

    ids = {body.split("entry_id=")[1].split("&")[0] for body in bare.posted}

    assert (len(bare.posted), len(ids)) == (2, 2)


def test_what_is_refused_is_shown_where_the_answer_stands(phone: Page):
    phone.goto("/bench")
    phone.get_by_label("Weigh the full bottle").fill("heavy")
    phone.get_by_role("radio", name="soft").check()

    phone.get_by_role("button", name="Tell me").click()

    expect(phone.locator("#answer")).to_have_text("145? You mean 1.45?")


def test_the_bench_page_breaks_no_rule_of_the_policy(phone: Page):
    phone.goto("/bench")
    phone.get_by_role("radio", name="soft").check()

    assert [text for text in phone.refused if "Content Security Policy" in text] == []


def test_a_chart_moves_under_the_policy_and_takes_the_still_s_place(phone: Page):
    phone.goto("/chart")

    expect(phone.locator(".moving canvas")).to_be_visible()
    expect(phone.locator(".still")).to_have_count(0)
    assert [text for text in phone.refused if "Content Security Policy" in text] == []
    assert wide(phone) == PHONE["width"]


def test_at_the_table_the_rooms_stand_along_the_head(phone: Page):
    phone.set_viewport_size({"width": 1280, "height": 900})

    phone.goto("/bench")

    rooms = phone.locator(".rooms").bounding_box()
    assert rooms is not None
    assert rooms["y"] < 10


def test_on_paper_only_what_can_be_read_is_left(phone: Page):
    phone.goto("/bench")

    phone.emulate_media(media="print")

    for part in (".rooms", ".foot", "button.main"):
        expect(phone.locator(part)).to_be_hidden()
    assert phone.evaluate("getComputedStyle(document.documentElement).fontSize") == "18.6667px"
