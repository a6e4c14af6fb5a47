"""A sheet put right: a second one stands for the first wherever a bag names it."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.exchange.typed_sheet import read_sheet
from wareboard.records.glazes.models import Batch, BatchLine, Glaze, Recipe
from wareboard.records.glazes.solids import solids_of
from wareboard.records.people.entry import keep
from wareboard.records.stores.actions import enter_sheet
from wareboard.records.stores.bridge import Sheets
from wareboard.records.stores.models import Lot, Material, Sheet, SheetOxide

RIGHT = "/stores/sheets/s-1/"
MATERIAL = "/stores/materials/feldspar/"
BAG = "/stores/lots/bag-b/"
TOLD = {
    "entry_id": "c-1",
    "sheet": "SiO2 66.5\nK2O 10.6\nLOI 0.4",
    "standing": "supplier's sheet",
    "source": "with the bag",
    "density_g_cm3": "2.5",
}
LAST_WEEK = timezone.now() - timedelta(days=7)


@pytest.fixture
def spar(member):
    return keep(Material, member, entry_id="feldspar", name="feldspar", at=LAST_WEEK)


@pytest.fixture
def bag(member, spar):
    """A bag with its own sheet of a week ago, with a slip: potash 1.06 for 10.6."""
    bag = keep(Lot, member, entry_id="bag-b", material=spar, label="B", at=LAST_WEEK)
    enter_sheet(
        member,
        spar,
        entry_id="s-1",
        at=LAST_WEEK,
        lot=bag,
        sheet=read_sheet("SiO2 66.5 K2O 1.06 LOI 0.4", field="sheet"),
        standing="supplier's sheet",
        source="with the bag",
        density_g_cm3=2.5,
        remembered="I think",
    )
    Sheet.objects.filter(pk="s-1").update(kept_at=LAST_WEEK)
    return Lot.objects.select_related("material").get(pk="bag-b")


def own_of(bag):
    return Sheets([bag.material]).own_of(bag)


def oxides_of(sheet):
    return {one.oxide: one.percent for one in sheet.oxides.all()}


def test_the_pages_of_the_material_and_of_its_bag_lead_to_it(signed_in, bag):
    for page in (MATERIAL, BAG):
        assert f'href="{RIGHT}?next={page}"' in signed_in.get(page).content.decode()


def test_it_begins_with_what_was_written(signed_in, bag):
    form = signed_in.get(RIGHT).context["form"]

    assert {name: form[name].value() for name in form.fields if name != "entry_id"} == {
        "sheet": "SiO2 66.5\nK2O 1.06\nLOI 0.4",
        "standing": "supplier's sheet",
        "source": "with the bag",
        "density_g_cm3": "2.5",
        "remembered": "I think",
    }


def test_a_second_sheet_names_the_first_and_keeps_its_time(signed_in, bag):
    reply = signed_in.post(RIGHT, {**TOLD, "next": BAG})

    right = Sheet.objects.current().get(material="feldspar")
    assert (reply.status_code, reply["Location"]) == (302, BAG)
    assert (right.corrects_id, right.at, right.loss_percent) == ("s-1", LAST_WEEK, 0.4)
    assert oxides_of(right) == {"SiO2": 66.5, "K2O": 10.6}
    assert oxides_of(Sheet.objects.get(pk="s-1")) == {"SiO2": 66.5, "K2O": 1.06}


def test_it_is_the_bags_own_though_the_bag_names_the_first(signed_in, bag):
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(BAG).context
    bag.refresh_from_db()
    assert (bag.sheet_id, own_of(bag).pk) == ("s-1", "c-1")
    assert page["own"]
    assert page["known"]["say"].startswith("By its own sheet")
    assert [row["percent"] for row in page["known"]["rows"]] == ["66.5", "10.6", "0.40"]


def test_a_bag_without_a_sheet_borrows_what_is_right(signed_in, member, spar, bag):
    other = keep(Lot, member, material=spar, label="C")

    signed_in.post(RIGHT, TOLD)

    assert Sheets([spar]).sheet_for(spar, other).pk == "c-1"


def test_an_older_sheet_that_is_put_right_becomes_no_newer(signed_in, member, spar, bag):
    newer = keep(Sheet, member, material=spar, standing="typical")

    signed_in.post(RIGHT, TOLD)

    assert Sheets([spar]).sheet_for(spar) == newer
    assert [one["corrected"] for one in signed_in.get(MATERIAL).context["sheets"]] == [False, True]


def test_the_density_of_a_batch_rests_on_what_is_right(signed_in, member, spar, bag):
    glaze = keep(Glaze, member, name="Limpet")
    recipe = keep(Recipe, member, glaze=glaze, version=1)
    line = BatchLine(material=spar, lot=bag, weighed_g=1000)
    batch = keep(Batch, member, recipe=recipe, number=1, parts=(line,), owner="batch")

    signed_in.post(RIGHT, {**TOLD, "density_g_cm3": "2.6"})

    assert solids_of([batch])[batch.pk].result.solid_density_g_cm3 == pytest.approx(2.6)


def test_the_doubt_of_a_share_that_stays_stays_with_it(signed_in, bag):
    SheetOxide.objects.filter(sheet="s-1").update(doubt_percent=0.3)

    signed_in.post(RIGHT, TOLD)

    doubts = SheetOxide.objects.filter(sheet="c-1").values_list("oxide", "doubt_percent")
    assert dict(doubts) == {"SiO2": 0.3, "K2O": None}


def test_the_same_page_sent_twice_ends_alike_and_is_kept_once(signed_in, bag):
    replies = [signed_in.post(RIGHT, TOLD) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, MATERIAL)] * 2
    assert Sheet.objects.filter(material="feldspar").count() == 2


def test_an_old_page_puts_right_what_stands_now(signed_in, bag):
    signed_in.post(RIGHT, TOLD)

    begun = signed_in.get(RIGHT).context["form"]["sheet"].value()
    signed_in.post(RIGHT, {**TOLD, "entry_id": "c-2", "sheet": "K2O 10.7"})

    assert begun == "SiO2 66.5\nK2O 10.6\nLOI 0.4"
    assert (own_of(bag).pk, own_of(bag).corrects_id) == ("c-2", "c-1")


def test_what_it_begins_with_sent_back_keeps_nothing(signed_in, bag):
    form = signed_in.get(RIGHT).context["form"]

    signed_in.post(RIGHT, {name: form[name].value() for name in form.fields})

    assert Sheet.objects.filter(material="feldspar").count() == 1


def test_a_sheet_of_a_density_alone_needs_no_oxide(signed_in, member, spar):
    keep(Sheet, member, entry_id="s-1", material=spar, standing="typical", density_g_cm3=2.6)

    reply = signed_in.post(RIGHT, {"sheet": "", "standing": "typical", "density_g_cm3": "2.56"})

    assert reply.status_code == 302
    assert Sheets([spar]).sheet_for(spar).density_g_cm3 == 2.56


def test_taken_back_the_first_is_the_bags_own_again(signed_in, bag):
    signed_in.post(RIGHT, TOLD)

    undo = signed_in.get(BAG).context["undo"]
    signed_in.post(undo["url"])

    assert undo["say"] == "Put right."
    assert own_of(bag).pk == "s-1"


def test_an_analysis_that_cannot_be_is_explained_and_not_kept(signed_in, bag):
    reply = signed_in.post(RIGHT, {**TOLD, "sheet": ""})

    assert reply.status_code == 422
    assert reply.context["form"].errors["sheet"] == [
        "What does the sheet say? Nothing is written here yet."
    ]
    assert own_of(bag).pk == "s-1"


def test_it_goes_back_to_no_page_elsewhere(signed_in, bag):
    reply = signed_in.post(RIGHT, {**TOLD, "next": "https://elsewhere.example/"})

    assert reply["Location"] == MATERIAL


def test_a_sheet_of_another_studio_is_not_found(stranger, bag):
    assert stranger.get(RIGHT).status_code == 404
    assert stranger.post(RIGHT, TOLD).status_code == 404


def test_a_sheet_that_was_never_kept_is_not_found(signed_in, bag):
    assert signed_in.get("/stores/sheets/nobody/").status_code == 404


def test_it_takes_no_other_method(signed_in, bag):
    assert signed_in.put(RIGHT).status_code == 405
