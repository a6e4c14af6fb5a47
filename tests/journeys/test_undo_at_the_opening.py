"""Undo at an opened kiln takes back one tap, and leaves what is ticked on other pots."""

import pytest
from browsers import PHONE, context_for, watched
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_undo_leaves_what_is_ticked_and_not_kept_on_another_pot(opened_anew, browser):
    studio, state = opened_anew
    page = context_for(browser, state, size=PHONE).new_page()
    watch = watched(page, studio.address)
    page.goto(f"{studio.address}/kiln/firings/firing-5/opening/")
    first, second = (page.locator("ul.opened > li").nth(n) for n in (0, 1))
    before = [button.get_attribute("aria-pressed") for button in second.get_by_role("button").all()]
    first.get_by_role("button", name="bad").click()
    ticked = first.get_by_label("pinholes", exact=True)
    ticked.check()
    first.locator("[name=words]").fill("like orange peel")

    for word in ("so-so", "bad"):
        second.get_by_role("button", name=word).click()
        expect(second.get_by_role("button", name=word)).to_have_attribute("aria-pressed", "true")
        page.get_by_role("button", name="Undo").click()
        expect(page.locator("#messages")).to_have_text("Taken back: the verdict.")
        expect(second.locator("form.wrong-with")).to_have_count(0)

    after = [button.get_attribute("aria-pressed") for button in second.get_by_role("button").all()]
    assert after == before
    expect(ticked).to_be_checked()
    expect(first.locator("[name=words]")).to_have_value("like orange peel")
    expect(first.get_by_role("button", name="bad")).to_have_attribute("aria-pressed", "true")
    assert (watch.outside, watch.complaints) == ([], [])
