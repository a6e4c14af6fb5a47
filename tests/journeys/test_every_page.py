"""Every page that links lead to: whole at both sizes, in both lights, for every reader."""

from collections import deque
from urllib.parse import urlsplit

import pytest
from addresses import example, patterns
from axe_playwright_python.sync_playwright import Axe
from browsers import PHONE, TABLE, context_for, watched
from django.urls import Resolver404, resolve

pytestmark = pytest.mark.browser

WCAG = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}
NOT_PAGES = ("/static/", "/pictures/", "/sign-out/", "/sign-in/")
MOST_PAGES = 80
# Pages that answer a question or that a button leads to: no link takes the walk there.
ASKED = (
    "/shelf/what-changed/?glaze=limpet&fault=pinhole",
    "/shelf/what-changed/?glaze=limpet&fault=pinhole&until=2026-10-24",
    "/shelf/what-changed/?glaze=hedgelay&fault=run",
    "/shelf/what-changed/?glaze=rowan&fault=craze",
    "/shelf/pots/pot-10/",
    "/shelf/pots/pot-17/",
    "/shelf/?q=limpet",
    "/shelf/?q=nothing+of+the+kind",
    "/ware/?q=casserole",
    "/ware/together/?pot=pot-19&pot=pot-20&pot=pot-21",
    "/kiln/firings/firing-5/cones/",
    "/kiln/firings/firing-5/gas/",
)
UNFOLD = "() => document.querySelectorAll('details').forEach(fold => { fold.open = true; })"
OVERHANG = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def route_of(path: str) -> str | None:
    """Give the pattern behind an address; None where it is no page of ours."""
    if path.startswith(NOT_PAGES):
        return None
    try:
        return resolve(path).route
    except Resolver404:
        return None


@pytest.fixture(scope="session")
def pages(opened, browser, signed_in_state) -> dict[str, str]:
    """Follow links from the front door; one example address of every pattern."""
    context = context_for(browser, signed_in_state, size=TABLE)
    page = context.new_page()
    found: dict[str, str] = {}
    waiting = deque(["/"])
    while waiting and len(found) < MOST_PAGES:
        path = waiting.popleft()
        route = route_of(urlsplit(path).path)
        if route is None or route in found:
            continue
        reply = page.goto(opened.address + path)
        if reply is None or "html" not in reply.headers.get("content-type", ""):
            continue
        assert reply.status == 200, path
        found[route] = path
        links = page.locator("a[href]").evaluate_all("all => all.map(a => a.getAttribute('href'))")
        waiting.extend(link for link in links if link.startswith("/"))
    context.close()
    return found


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, TABLE], ids=["phone", "table"])
def test_every_page_is_whole(opened, browser, signed_in_state, pages, size, scheme):
    context = context_for(browser, signed_in_state, size=size, scheme=scheme)
    page = context.new_page()
    watch = watched(page, opened.address)
    axe = Axe()
    trouble = []

    for path in (*pages.values(), *ASKED):
        page.goto(opened.address + path)
        page.wait_for_load_state("networkidle")
        overhang = page.evaluate(OVERHANG)
        page.evaluate(UNFOLD)
        overhang = max(overhang, page.evaluate(OVERHANG))
        if overhang > 0:
            trouble.append(f"{path}: {overhang} px too wide")
        found = axe.run(page, options=WCAG).response["violations"]
        trouble += [f"{path}: {one['id']}: {one['nodes'][0]['html'][:160]}" for one in found]
        assert page.locator("h1").count() == 1, path

    context.close()
    assert trouble == []
    assert watch.outside == []
    assert watch.complaints == []


def test_every_page_can_be_reached_by_links(opened, browser, signed_in_state, pages):
    """What nothing links to is listed, so that it is meant; what is only posted to is no page."""
    context = context_for(browser, signed_in_state, size=TABLE)
    page = context.new_page()
    unreached = []
    for route, _pattern in patterns():
        if route in pages or route in ALONE or route.endswith((".json", ".svg")):
            continue
        reply = page.request.get(opened.address + example(route), max_redirects=0)
        if reply.status != POSTED_ONLY:
            unreached.append(route)
    context.close()

    assert sorted(set(unreached)) == sorted(NOT_LINKED)


POSTED_ONLY = 405
# The doors, and pictures, which pages show rather than link to.
ALONE = {
    "sign-in/",
    "sign-in/<str:key>/",
    "sign-in/password/",
    "health/",
    "pictures/<slug:original_id>/original/",
    r"pictures/^(?P<original_id>[-\w]+)/(?P<size>large|small)/$",
}
NOT_LINKED = {
    # The page before lighting leads there where small pots of the load cannot be told.
    "ware/together/",
    # The log asks for it beside itself, and links to the same facts.
    "kiln/firings/<slug:firing_id>/slow-start/",
    # Buttons of the log lead there and keep what is typed in it.
    "kiln/firings/<slug:firing_id>/cones/",
    "kiln/firings/<slug:firing_id>/gas/",
    # Asked only where there is more than one kiln; with one, a tap makes the load.
    "kiln/loads/new/",
    # Linked from a form with a name alone; every form of the demo is drawn.
    "ware/forms/<slug:form_id>/draw/",
    # One for each kind of change, from the bucket's own taps.
    "glazes/buckets/<slug:bucket_id>/change/",
    # Linked from a glaze that rests on a base; of each kind of page the walk sees one.
    "glazes/glazes/<slug:glaze_id>/draw/",
}
