"""A refusal is seen: it is said on top, and brought into sight."""

import pytest
from browsers import PHONE, context_for
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

IN_SIGHT = """node => {
  const box = node.getBoundingClientRect();
  const foot = document.querySelector("nav.rooms").getBoundingClientRect();
  return box.top >= 0 && box.bottom <= foot.top;
}"""


@pytest.fixture
def on_a_phone(opened, browser, signed_in_state):
    """Open a page on a phone."""
    context = context_for(browser, signed_in_state, size=PHONE)

    def at(path):
        page = context.new_page()
        page.goto(f"{opened.address}{path}")
        return page

    yield at
    context.close()


@pytest.mark.parametrize("javascript", [True, False], ids=["with scripts", "without"])
def test_a_sheet_that_cannot_be_read_is_refused_in_sight(
    opened, browser, signed_in_state, javascript
):
    context = context_for(browser, signed_in_state, size=PHONE, javascript=javascript)
    page = context.new_page()
    page.goto(f"{opened.address}/stores/materials/ball-clay/sheet/")
    page.locator("main textarea").first.fill("nothing that is a sheet")

    page.locator("main button[type=submit]").last.click()

    refusal = page.locator(".error, .errorlist li").first
    expect(refusal).to_be_visible()
    expect(page.locator(".not-kept")).to_be_visible()
    if javascript:
        page.wait_for_function(f"({IN_SIGHT})(document.querySelector('.error, .errorlist li'))")
    context.close()


def test_a_page_without_refusal_does_not_speak_of_one(on_a_phone):
    page = on_a_phone("/stores/materials/ball-clay/sheet/")

    expect(page.locator(".not-kept")).to_be_hidden()


def test_a_question_that_keeps_nothing_does_not_speak_of_keeping(on_a_phone):
    page = on_a_phone("/glazes/buckets/limpet-bucket-2/grams/")
    page.get_by_label("How many per cent").fill("lots")

    page.get_by_role("button", name="Tell me").click()

    expect(page.locator(".error").first).to_be_visible()
    expect(page.locator(".not-kept")).to_be_hidden()


def test_an_answer_that_was_asked_for_is_in_sight(on_a_phone):
    page = on_a_phone("/glazes/buckets/limpet-bucket-2/grams/")
    page.get_by_label("How many per cent").fill("1")
    page.get_by_label("How much glaze?").fill("6")

    page.get_by_role("button", name="Tell me").click()

    page.locator(".answer .say").wait_for()
    page.wait_for_function(f"({IN_SIGHT})(document.querySelector('.answer .say'))")


def test_what_fits_all_pieces_is_said_at_the_top_where_one_looks(on_a_phone):
    page = on_a_phone("/shelf/what-changed/")
    page.get_by_label("Which glaze?").select_option("limpet")
    page.get_by_label("What is wrong with it?").select_option("pinhole")

    page.get_by_role("button", name="Compare").click()

    page.get_by_role("heading", name="Most likely").wait_for()
    page.wait_for_function(f"({IN_SIGHT})(document.querySelector('h1'))")
