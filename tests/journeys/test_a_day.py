"""A glazing-and-firing day, walked in a real browser on the demo studio.

Weigh a bucket, make a pot from a photo, dip it twice, be warned of the third
layer, load it, be stopped because it is too wet, light the rest, log six
lines from paper, open, judge, read the story, and ask what changed.
"""

import re
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from browsers import PHONE, TABLE, context_for, watched
from playwright.sync_api import Page, expect
from ware_samples import photo

pytestmark = pytest.mark.browser


class Day:
    """A potter with a phone, or at the table."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.address = address
        self.pot = ""

    def go(self, path: str) -> None:
        self.page.goto(self.address + path)

    def tap(self, name: str, *, exact: bool = True) -> None:
        self.page.get_by_role("button", name=name, exact=exact).first.click()

    def follow(self, name: str) -> None:
        self.page.get_by_role("link", name=name, exact=True).first.click()

    def choose(self, word: str) -> None:
        """Tap a word button; its real control lies unseen over it."""
        box = self.page.get_by_label(word, exact=True).first
        box.check()

    def unfold(self, name: str) -> None:
        self.page.get_by_text(name, exact=True).first.click()

    def says(self, text: str | re.Pattern[str]) -> None:
        expect(self.page.locator("main")).to_contain_text(text)

    def type(self, label: str, text: str) -> None:
        self.page.get_by_label(label, exact=True).first.fill(text)

    def weigh_the_bucket(self) -> None:
        self.go("/glazes/buckets/limpet-bucket-2/")
        self.says("A little thin")
        self.type("Weigh the full bottle", "760")
        self.tap("Tell me")
        self.says("Right. No water.")

    def take_back_the_reading(self) -> None:
        self.tap("Undo")
        self.says("A little thin")

    def make_a_pot_from_a_photo(self) -> None:
        self.go("/ware/new/")
        self.page.locator("input[type=file]").first.set_input_files(
            {"name": "IMG_0001.jpg", "mimeType": "image/jpeg", "buffer": photo((600, 800)).read()}
        )
        self.tap("no form")
        self.page.wait_for_url(re.compile(r"/ware/pots/[^/]+/$"))
        self.pot = self.page.url.rstrip("/").rsplit("/", 1)[1]
        expect(self.page.locator(".photos img").first).to_be_visible()

    def name_it(self, name: str) -> None:
        self.go(f"/ware/pots/{self.pot}/name/")
        self.page.locator("select[name=form]").select_option(label="casserole, lidded")
        self.page.locator("input[name=name]").fill(name)
        self.tap("Keep")
        self.says(name)

    def weigh_it(self, grams: str, state: str) -> None:
        self.go(f"/ware/pots/{self.pot}/weigh/")
        self.page.locator("input[name=weight_g]").fill(grams)
        self.choose(state)
        self.tap("Keep")

    def choose_a_dip(self, bucket: str, side: str, extent: str) -> None:
        self.go(f"/ware/pots/{self.pot}/dip/")
        if not self.page.get_by_label(bucket, exact=True).first.is_visible():
            self.unfold("Another bucket")
        self.choose(bucket)
        self.choose(side)
        self.choose(extent)
        self.tap("Go on to the dip")

    def dip(self, before: str, after: str) -> None:
        self.page.locator("input[name=before_g]").fill(before)
        self.page.locator("input[name=after_g]").fill(after)
        self.tap("It is on")
        self.says(re.compile(r"\d\.\d\d mm"))

    def load_it(self, name: str) -> None:
        self.go("/kiln/loads/load-6/")
        self.page.locator(f'input[name=pots][value="{self.pot}"]').check()
        self.page.locator(".onto.stays").get_by_role("button", name="middle").click()
        self.says("4 pots so far.")
        self.says(name)

    def say_the_air(self) -> None:
        self.go("/kiln/loads/load-6/before-lighting/")
        self.unfold("A hygrometer?")
        self.page.locator("input[name=rh_percent]").fill("87")
        self.tap("fog")

    def is_stopped(self, name: str) -> None:
        row = self.page.locator("ul.lines > li", has_text=name)
        expect(row).to_contain_text("stop")
        expect(row).to_contain_text(re.compile(r"\d+ g over"))

    def take_it_out(self, name: str) -> None:
        self.go("/kiln/loads/load-6/")
        self.unfold("What stands where, take out")
        row = self.page.locator("li", has_text=name).filter(has=self.page.get_by_role("button"))
        row.get_by_role("button", name="take out").click()
        self.says("3 pots so far.")

    def light(self) -> str:
        self.go("/kiln/loads/load-6/before-lighting/")
        self.page.get_by_role("button", name=re.compile("^Light it")).click()
        self.page.wait_for_url(re.compile(r"/kiln/firings/[^/]+/$"))
        return self.page.url.removeprefix(self.address)

    def lit_long_ago(self, firing: str, lit: datetime) -> None:
        self.go(f"{firing}moment/lit/")
        self.page.locator("input[name=when]").fill(f"{lit:%Y-%m-%dT%H:%M}")
        self.tap("Put it right")
        self.page.wait_for_url(re.compile(f"{firing}$"))

    def log(self, at: datetime, temp: str, flame: str) -> None:
        self.page.locator("input[name=temp_c]").fill(temp)
        self.choose(flame)
        self.unfold("A note, or an earlier time")
        self.page.locator("input[name=seen]").fill(f"{at:%H:%M}")
        self.tap("Keep this line")
        expect(self.page.locator("table td.n").first).to_contain_text(temp)

    def shut_and_open(self, firing: str) -> None:
        self.tap("shut off")
        self.says("shut off")
        self.go(f"{firing}opening/")
        self.tap("I have opened it")
        self.says("is it open?")  # its last line was kept this minute and is hot
        self.choose("It is open.")
        self.tap("Keep")
        self.says("Opened")

    def judge_the_first(self) -> str:
        row = self.page.locator("ul.opened > li").first
        pot = (row.get_attribute("id") or "").removeprefix("pot-")
        row.get_by_role("button", name="bad").click()
        self.choose("outside")
        self.choose("pinholes")
        self.page.locator(f"#pot-{pot}").get_by_role("button", name="Keep").click()
        expect(self.page.locator(f"#pot-{pot} form.wrong-with")).to_have_count(0)
        expect(self.page.locator(f"#pot-{pot}")).to_contain_text("pinholes")
        return pot

    def ask_what_changed(self) -> None:
        self.go("/shelf/what-changed/")
        self.page.locator("select[name=glaze]").select_option(label="Limpet")
        self.page.locator("select[name=fault]").select_option(label="pinholes")
        self.tap("Compare")
        self.says("Most likely potash feldspar, lot B.")


@pytest.mark.parametrize(
    ("size", "javascript"),
    [(PHONE, True), (TABLE, True), (PHONE, False)],
    ids=["phone", "table", "phone without scripts"],
)
def test_a_day_from_the_bucket_to_the_answer(opened_anew, browser, size, javascript):
    studio, state = opened_anew
    context = context_for(browser, state, size=size, javascript=javascript)
    page = context.new_page()
    watch = watched(page, studio.address)
    day = Day(page, studio.address)
    name = "wet casserole"

    day.weigh_the_bucket()
    day.take_back_the_reading()
    day.make_a_pot_from_a_photo()
    day.name_it(name)
    day.weigh_it("1800", "bone dry, warm from the tray")
    day.choose_a_dip("Rill, new bucket", "inside", "all of it")
    day.dip("1800", "1880")
    day.choose_a_dip("Rowan", "outside", "all of it")
    day.dip("1878", "1970")
    day.choose_a_dip("Hedgelay", "outside", "the lip")
    day.says(re.compile("third", re.IGNORECASE))
    day.weigh_it("2010", "glazed, drying")
    day.load_it(name)
    day.say_the_air()
    day.says("too wet to light tonight")
    day.is_stopped(name)
    day.take_it_out(name)
    firing = day.light()
    lit = datetime.now(ZoneInfo("Europe/London")) - timedelta(hours=11)
    day.lit_long_ago(firing, lit)
    for hours, temp, flame in (
        (0.2, "24", "clear"),
        (2.5, "95", "clear"),
        (4.0, "300", "clear"),
        (6.5, "620", "soft"),
        (9.0, "895", "licking"),
        (10.5, "1042", "licking"),
    ):
        day.log(lit + timedelta(hours=hours), temp, flame)
    day.shut_and_open(firing)
    judged = day.judge_the_first()
    day.go(f"/shelf/pots/{judged}/")
    day.says("pinholes")
    day.ask_what_changed()

    context.close()
    assert watch.outside == []
    assert watch.complaints == []
