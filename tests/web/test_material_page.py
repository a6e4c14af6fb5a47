"""A material and its bags: what they are made of, and everything that rests on them."""

import re

import pytest

from wareboard.records.glazes.models import Batch, BatchLine, Glaze, Recipe, RecipeLine
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Lot, Material
from wareboard.refdata.materials import all_materials
from wareboard.web.pages.sheet_answer import from_library

FELDSPAR = "/stores/materials/potash-feldspar/"
BAG_B = "/stores/lots/potash-feldspar-b/"


@pytest.fixture
def ash(member):
    return keep(Material, member, entry_id="ash", name="hedge ash", kind="found")


def test_a_material_shows_bags_sheets_and_recipes(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        reply = demo_client.get(FELDSPAR)

    page = reply.context
    assert [row["told"] for row in page["lots"]] == [
        "bag B, opened 3 Oct 2026",
        "bag A, opened 14 Mar 2026",
    ]
    assert {row["glaze"].name for row in page["recipes"]} == {"Limpet", "Rill"}
    assert {row["parts"] for row in page["recipes"]} == {"32 parts"}
    assert len(page["sheets"]) == 2


def test_what_it_is_made_of_stands_with_its_doubt_and_its_trust(demo_client):
    known = demo_client.get(FELDSPAR).context["known"]

    # The newest sheet of the demo's feldspar, bag B, gives 7.6 per cent of potash.
    potash = next(row for row in known["rows"] if row["oxide"] == "K2O")
    assert (potash["percent"], known["trust"]) == ("7.6", "measured")
    assert potash["doubt"].startswith("(")


def test_a_value_from_memory_is_marked(demo_client):
    known = demo_client.get("/stores/materials/rutile/").context["known"]

    assert known["trust"] == "guess"
    assert "Its figures are from memory." in known["say"]
    assert known["density"].endswith("(from memory)")


def test_an_ideal_mineral_is_general_and_no_memory(demo_client):
    known = demo_client.get("/stores/materials/tin-oxide/").context["known"]

    assert known["trust"] == "general"
    assert "memory" not in known["say"]


@pytest.mark.parametrize("row", all_materials().values(), ids=lambda row: row.id)
def test_where_a_row_is_from_is_said_in_words(row):
    source = from_library(row)["source"]

    assert source
    assert not re.match(r"(verified|computed|illustrative|from memory)|.*stoichiometry", source)


def test_what_leaves_in_the_fire_is_called_so(demo_client):
    known = demo_client.get(FELDSPAR).context["known"]

    assert [row["oxide"] for row in known["rows"]][-2:] == ["Na2O", "lost in the fire (LOI)"]


def test_an_addition_is_said_to_be_one(demo_client):
    recipes = demo_client.get("/stores/materials/tin-oxide/").context["recipes"]

    assert [row["parts"] for row in recipes] == ["+ 1.2 on the hundred"]


def test_a_material_of_which_nothing_is_known_says_what_to_do(signed_in, ash):
    text = signed_in.get("/stores/materials/ash/").content.decode()

    assert "Not known yet. Enter a sheet, or say what stands in for it." in text
    assert "Hedge ash: burns skin and eyes when wet" in text


def test_the_caution_is_one_line_and_defers(demo_client):
    caution = demo_client.get(FELDSPAR).context["caution"]

    assert caution.startswith("Potash feldspar: the dust may hold fine quartz")
    assert caution.endswith("The safety sheet and your local code come first.")


def test_a_new_material_can_be_taken_back_for_ten_minutes(signed_in, ash):
    undo = signed_in.get("/stores/materials/ash/").context["undo"]

    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == "/stores/"
    assert signed_in.get("/stores/materials/ash/").status_code == 404


def test_many_bags_go_on_on_another_page(signed_in, member, ash, django_assert_max_num_queries):
    for number in range(55):
        keep(Lot, member, material=ash, label=str(number))

    first = signed_in.get("/stores/materials/ash/")
    with django_assert_max_num_queries(12):
        second = signed_in.get("/stores/materials/ash/", {"after": first.context["more"]})

    assert [len(page.context["lots"]) for page in (first, second)] == [50, 5]


def test_a_bag_shows_its_own_sheet_and_every_batch(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        reply = demo_client.get(BAG_B)

    page = reply.context
    assert page["opened"] == "Opened 3 October 2026."
    assert page["left"] == "17.3 kg left on 16 November."
    assert page["known"]["say"] == "By its own sheet (supplier's sheet, 3 October 2026)."
    assert [(row["name"], row["grams"]) for row in page["batches"]][-2:] == [
        ("Rill batch 6", "4000 g"),
        ("Limpet batch 4", "3360 g"),
    ]


def test_a_bag_without_a_sheet_says_that_it_borrows(demo_client):
    page = demo_client.get("/stores/lots/hedge-ash-1/").context

    assert page["known"]["say"].startswith("It has no sheet of its own: this one is borrowed")
    assert page["known"]["trust"] == "general"
    assert page["opened"] == "Opened 18 April 2026, remembered: about spring."


def test_a_total_far_from_a_hundred_is_named(signed_in, member, ash):
    keep(Lot, member, entry_id="bag", material=ash, label="1")
    signed_in.post("/stores/lots/bag/sheet/", {"sheet": "SiO2 60", "standing": "own burn-off"})

    known = signed_in.get("/stores/lots/bag/").context["known"]

    assert known["total"] == (
        "It adds up to 60.0 %: 40.0 % is missing. "
        "Is it what is lost in the fire (LOI), or was a number left out or mistyped?"
    )


@pytest.mark.parametrize(
    ("sheet", "together", "gap", "warned"),
    [
        ("silica 66, alumina 18, potash 15, .4 iron", "99.4", "0.6 missing", ""),
        ("SiO2 60, Al2O3 40", "100.0", "", ""),
        ("SiO2 60, Al2O3 40.5, LOI 1", "101.5", "1.5 over", ""),
        (
            "SiO2 60, Al2O3 40, LOI 6",
            "106.0",
            "6.0 over",
            "It adds up to 106.0 %: 6.0 % too much. Look whether a number is missing or mistyped.",
        ),
    ],
)
def test_what_a_sheet_adds_up_to_is_always_said(
    signed_in, member, ash, sheet, together, gap, warned
):
    signed_in.post("/stores/materials/ash/sheet/", {"sheet": sheet, "standing": "supplier's sheet"})

    known = signed_in.get("/stores/materials/ash/").context["known"]

    assert (known["together"], known["gap"], known["total"]) == (together, gap, warned)


def test_fluorine_stands_for_oxygen_where_an_analysis_adds_up(signed_in, member):
    keep(Material, member, entry_id="spar", name="fluorspar", library_id="fluorspar_ideal")

    known = signed_in.get("/stores/materials/spar/").context["known"]

    # Its rows are 71.8 CaO and 48.7 F: 20.5 is oxygen that fluorine took the place of.
    assert (known["together"], known["together_of"]) == (
        "100.0",
        "Together, less the oxygen fluorine stands for",
    )


def test_a_batch_that_was_taken_back_is_not_named(signed_in, member, ash):
    bag = keep(Lot, member, entry_id="bag", material=ash, label="1")
    glaze = keep(Glaze, member, name="Ash")
    recipe = keep(
        Recipe,
        member,
        glaze=glaze,
        version=1,
        parts=(RecipeLine(material=ash, parts=100),),
        owner="recipe",
    )
    line = BatchLine(material=ash, lot=bag, weighed_g=500)
    batch = keep(Batch, member, recipe=recipe, number=1, parts=(line,), owner="batch")

    before = signed_in.get("/stores/lots/bag/").context["batches"]
    batch.undone_at = batch.kept_at
    batch.save()
    after = signed_in.get("/stores/lots/bag/").context["batches"]

    assert [len(before), len(after)] == [1, 0]


@pytest.mark.parametrize("page", [FELDSPAR, BAG_B])
def test_somebody_of_another_studio_finds_nothing(stranger, page):
    assert stranger.get(page).status_code == 404


@pytest.mark.parametrize("page", ["/stores/materials/nobody/", "/stores/lots/nobody/"])
def test_an_unknown_id_is_not_found(demo_client, page):
    assert demo_client.get(page).status_code == 404


@pytest.mark.parametrize("page", [FELDSPAR, BAG_B])
def test_no_other_method_is_taken(demo_client, page):
    assert demo_client.post(page).status_code == 405
