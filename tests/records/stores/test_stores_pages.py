"""Pages of the stores: new material, new bag, sheet, count, what stands in."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Count, Lot, Material, Sheet
from wareboard.records.stores.queries import lots_by_material, powders_in_use


@pytest.fixture
def feldspar(member):
    return keep(Material, member, entry_id="feldspar", name="potash feldspar")


@pytest.fixture
def bag(member, feldspar):
    return keep(Lot, member, entry_id="bag-b", material=feldspar, label="B", supplier="the works")


def text_of(reply):
    return reply.content.decode()


def test_the_stores_show_what_is_open_and_what_is_left(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        reply = demo_client.get("/stores/")

    row = next(row for row in reply.context["rows"] if row["material"].pk == "potash-feldspar")
    assert (row["told"], row["left"]) == ("bag B, opened 3 Oct 2026", "17.3 kg")
    assert {row["material"].studio_id for row in reply.context["rows"]} == {"culverhythe"}


def test_empty_stores_say_what_to_do(signed_in):
    assert "Begin with what you weigh out most." in text_of(signed_in.get("/stores/"))


def test_long_stores_go_on_on_another_page(signed_in, member, django_assert_max_num_queries):
    for number in range(60):
        keep(Material, member, entry_id=f"m-{number:02d}", name=f"clay {number:02d}")

    first = signed_in.get("/stores/")
    with django_assert_max_num_queries(12):
        second = signed_in.get("/stores/", {"after": first.context["more"]})

    assert [len(first.context["rows"]), len(second.context["rows"])] == [50, 10]
    assert second.context["more"] == ""


def test_a_new_material_is_kept_with_what_stands_in_for_it(signed_in, member):
    told = {"entry_id": "m-1", "name": " whiting ", "kind": "glaze material"}

    reply = signed_in.post("/stores/new-material/", {**told, "library_id": "whiting"})

    kept = Material.objects.get(pk="m-1")
    assert (reply.status_code, reply["Location"]) == (302, "/stores/materials/m-1/")
    assert (kept.name, kept.library_id, kept.by) == ("whiting", "calcite_ideal", member)


def test_a_material_sent_twice_is_kept_once(signed_in):
    told = {"entry_id": "m-1", "name": "whiting", "kind": "glaze material"}

    replies = [signed_in.post("/stores/new-material/", told) for _ in range(2)]

    assert [reply["Location"] for reply in replies] == ["/stores/materials/m-1/"] * 2
    assert Material.objects.filter(studio="test-studio").count() == 1


def test_two_materials_of_one_name_would_be_mixed_up(signed_in, feldspar):
    told = {"name": "Potash Feldspar", "kind": "glaze material"}

    reply = signed_in.post("/stores/new-material/", told)

    assert reply.status_code == 422
    assert reply.context["form"].errors["name"] == [
        "Potash Feldspar stands in the stores already: open its page, or add a word to the name."
    ]
    assert Material.objects.filter(studio="test-studio").count() == 1


@pytest.mark.parametrize(
    ("typed", "say"),
    [
        ("unobtainium", "nothing in the built-in table is called “unobtainium”"),
        ("talc", "“talc” may be 2 of them. Tap one."),
    ],
)
def test_a_stand_in_that_cannot_be_found_is_asked_about(signed_in, typed, say):
    told = {"name": "spar", "kind": "glaze material", "library_id": typed}

    reply = signed_in.post("/stores/new-material/", told)

    assert reply.status_code == 422
    assert say in reply.context["form"].errors["library_id"][0]
    assert f'value="{typed}"' in text_of(reply)
    assert not Material.objects.filter(studio="test-studio").exists()


def test_a_number_that_cannot_be_kept_is_explained(signed_in):
    told = {"name": "buff", "kind": "clay body", "shrinkage_percent": "55"}

    reply = signed_in.post("/stores/new-material/", told)

    assert reply.status_code == 422
    assert "55 cannot be kept; accepted is 0 to 40." in text_of(reply)
    assert not Material.objects.filter(studio="test-studio").exists()


def test_another_powder_may_stand_in_later(signed_in, feldspar):
    reply = signed_in.post(
        "/stores/materials/feldspar/stand-in/", {"library_id": "feldspar_potash_ideal"}
    )

    feldspar.refresh_from_db()
    assert (reply.status_code, feldspar.library_id) == (302, "feldspar_potash_ideal")


def test_something_must_stand_in(signed_in, feldspar):
    reply = signed_in.post("/stores/materials/feldspar/stand-in/", {"library_id": ""})

    assert reply.status_code == 422


def test_the_form_of_a_new_bag_is_filled_in_from_the_last_one(signed_in, bag):
    form = signed_in.get("/stores/materials/feldspar/new-lot/").context["form"]

    assert (form["label"].value(), form["supplier"].value()) == ("C", "the works")
    assert form["container"].value() == "bag"


@pytest.mark.parametrize(("last", "label"), [("3", "4"), ("Z", None), ("the creek", None)])
def test_the_next_label_follows_the_last_or_is_the_day(signed_in, member, feldspar, last, label):
    keep(Lot, member, material=feldspar, label=last)
    today = timezone.localtime(timezone.now())

    form = signed_in.get("/stores/materials/feldspar/new-lot/").context["form"]

    assert form["label"].value() == (label or f"{today:%-d %b %Y}")


def test_a_new_bag_is_two_taps(signed_in, bag):
    told = {"entry_id": "bag-c", "label": "C", "container": "bag"}

    reply = signed_in.post("/stores/materials/feldspar/new-lot/", {**told, "jar_kept": "on"})

    kept = Lot.objects.get(pk="bag-c")
    assert (reply.status_code, reply["Location"]) == (302, "/stores/lots/bag-c/")
    assert (kept.label, kept.jar_kept, kept.sheet, kept.together) == ("C", True, None, "")
    assert timezone.now() - kept.at < timedelta(minutes=1)


def test_a_bag_sent_twice_is_kept_once_with_its_sheet(signed_in, feldspar):
    told = {"entry_id": "bag-c", "label": "C", "container": "bag", "sheet": "SiO2 66.5 K2O 10.6"}

    for _ in range(2):
        signed_in.post("/stores/materials/feldspar/new-lot/", told)

    assert [lot.pk for lot in Lot.objects.filter(material=feldspar)] == ["bag-c"]
    assert Sheet.objects.filter(material=feldspar).count() == 1


def test_a_bag_and_its_sheet_are_taken_back_together(signed_in, feldspar):
    told = {"entry_id": "bag-c", "label": "C", "container": "bag", "sheet": "SiO2 66.5 K2O 10.6"}
    signed_in.post("/stores/materials/feldspar/new-lot/", told)

    undo = signed_in.get("/stores/lots/bag-c/").context["undo"]
    reply = signed_in.post(undo["url"], {"next": "/stores/"})

    assert reply.status_code == 302
    assert not Lot.objects.standing().filter(material=feldspar).exists()
    assert not Sheet.objects.standing().filter(material=feldspar).exists()


def test_a_new_bag_leads_back_to_where_it_was_asked_for(signed_in, feldspar):
    told = {"label": "C", "container": "bag", "next": "/glazes/glazes/limpet/new-batch/"}

    reply = signed_in.post("/stores/materials/feldspar/new-lot/", told)

    assert reply["Location"] == "/glazes/glazes/limpet/new-batch/"


def test_it_never_leads_out_of_the_studio(signed_in, feldspar):
    told = {"entry_id": "bag-c", "label": "C", "container": "bag", "next": "https://evil.example/"}

    reply = signed_in.post("/stores/materials/feldspar/new-lot/", told)

    assert reply["Location"] == "/stores/lots/bag-c/"


def test_a_bag_opened_last_month_says_so(signed_in, feldspar):
    told = {"entry_id": "bag-c", "label": "C", "container": "bag", "at": "2026-06-03"}

    signed_in.post("/stores/materials/feldspar/new-lot/", told)

    assert f"{timezone.localtime(Lot.objects.get(pk='bag-c').at):%d.%m.%Y}" == "03.06.2026"


@pytest.mark.parametrize(
    ("field", "typed", "say"),
    [
        ("label", "", "What tells it from the last one? Nothing is written here yet."),
        (
            "sheet",
            "Si02 66.5",
            'Its own sheet, if it came with one: "Si02" is no oxide known here; do you mean SiO2?',
        ),
        (
            "at",
            "sometime",
            "Opened on: “sometime” is no day; accepted is a day such as 2026-10-03.",
        ),
    ],
)
def test_what_cannot_be_is_explained_and_no_bag_kept(signed_in, feldspar, field, typed, say):
    told = {"label": "C", "container": "bag", field: typed}

    reply = signed_in.post("/stores/materials/feldspar/new-lot/", told)

    assert reply.status_code == 422
    assert reply.context["form"].errors[field] == [say]
    assert not Lot.objects.filter(studio="test-studio").exists()


SHEET = "SiO2 66.5, Al2O3 18.3, K2O 10.6, Na2O 3.0, CaO 0.4, Fe2O3 0.1, LOI 0.4"


def test_a_sheet_of_a_bag_becomes_its_own(signed_in, bag):
    told = {"entry_id": "s-1", "sheet": SHEET, "standing": "supplier's sheet"}

    reply = signed_in.post("/stores/lots/bag-b/sheet/", {**told, "density_g_cm3": "2,56"})

    bag.refresh_from_db()
    assert (reply.status_code, reply["Location"]) == (302, "/stores/lots/bag-b/")
    assert (bag.sheet_id, bag.sheet.loss_percent, bag.sheet.density_g_cm3) == ("s-1", 0.4, 2.56)
    assert {o.oxide: o.percent for o in bag.sheet.oxides.all()} == {
        "SiO2": 66.5, "Al2O3": 18.3, "K2O": 10.6, "Na2O": 3.0, "CaO": 0.4, "Fe2O3": 0.1,
    }  # fmt: skip


def test_a_sheet_that_came_later_can_be_taken_back_from_its_bag(signed_in, bag):
    signed_in.post("/stores/lots/bag-b/sheet/", {"sheet": SHEET, "standing": "supplier's sheet"})

    undo = signed_in.get("/stores/lots/bag-b/").context["undo"]
    signed_in.post(undo["url"])

    bag.refresh_from_db()
    assert (bag.sheet, bag.undone_at) == (None, None)


def test_a_sheet_of_a_material_belongs_to_no_bag(signed_in, bag):
    told = {"entry_id": "s-1", "sheet": SHEET, "standing": "typical"}

    reply = signed_in.post("/stores/materials/feldspar/sheet/", told)

    bag.refresh_from_db()
    assert (reply["Location"], bag.sheet) == ("/stores/materials/feldspar/", None)
    assert Sheet.objects.get(pk="s-1").material_id == "feldspar"


@pytest.mark.parametrize(
    ("typed", "say"),
    [
        ("SiO2 80, Al2O3 40", "What does the sheet say? This adds up to 120.0 %"),
        ("", "What does the sheet say? Nothing is written here yet."),
    ],
)
def test_a_sheet_that_cannot_be_is_explained_and_stays_typed(signed_in, bag, typed, say):
    reply = signed_in.post(
        "/stores/lots/bag-b/sheet/", {"sheet": typed, "standing": "supplier's sheet"}
    )

    assert reply.status_code == 422
    assert reply.context["form"].errors["sheet"][0].startswith(say)
    assert reply.context["form"]["sheet"].value() == typed
    assert not Sheet.objects.filter(studio="test-studio").exists()


def test_what_is_left_is_counted(signed_in, bag):
    reply = signed_in.post("/stores/lots/bag-b/count/", {"entry_id": "c-1", "left_g": "17,3 kg"})

    assert (reply.status_code, reply["Location"]) == (302, "/stores/lots/bag-b/")
    assert Count.objects.get(pk="c-1").left_g == 17_300


def test_a_count_sent_twice_is_kept_once_and_can_be_taken_back(signed_in, bag):
    for _ in range(2):
        signed_in.post("/stores/lots/bag-b/count/", {"entry_id": "c-1", "left_g": "900"})
    assert Count.objects.filter(lot=bag).count() == 1

    undo = signed_in.get("/stores/lots/bag-b/").context["undo"]
    signed_in.post(undo["url"])

    assert not Count.objects.standing().filter(lot=bag).exists()


def test_a_count_that_is_no_weight_is_explained(signed_in, bag):
    reply = signed_in.post("/stores/lots/bag-b/count/", {"left_g": "half"})

    assert reply.status_code == 422
    assert reply.context["form"].errors["left_g"] == [
        'How much is left? "half" is not a number; accepted is grams from 0 to 10000000.'
    ]
    assert not Count.objects.filter(lot=bag).exists()


PAGES = (
    "/stores/materials/{material}/new-lot/",
    "/stores/materials/{material}/sheet/",
    "/stores/materials/{material}/stand-in/",
    "/stores/lots/{lot}/sheet/",
    "/stores/lots/{lot}/count/",
)


@pytest.mark.parametrize("page", PAGES)
def test_each_page_opens_and_takes_no_other_method(demo_client, page):
    address = page.format(material="potash-feldspar", lot="potash-feldspar-b")

    assert demo_client.get(address).status_code == 200
    assert demo_client.delete(address).status_code == 405


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("method", ["get", "post"])
def test_somebody_of_another_studio_finds_nothing(stranger, page, method):
    address = page.format(material="potash-feldspar", lot="potash-feldspar-b")

    assert getattr(stranger, method)(address).status_code == 404


@pytest.mark.parametrize("page", PAGES)
def test_an_unknown_id_is_not_found(demo_client, page):
    assert demo_client.get(page.format(material="nobody", lot="nobody")).status_code == 404


@pytest.mark.parametrize("page", ["/stores/", "/stores/new-material/"])
def test_the_whole_room_takes_no_other_method(demo_client, page):
    assert demo_client.delete(page).status_code == 405


def test_of_the_bags_that_in_use_stands_first_and_what_is_used_up_last(signed_in, member):
    spar = keep(Material, member, entry_id="spar", name="spar")
    opened = timezone.now() - timedelta(days=30)
    for label in ("A", "B", "C"):
        keep(Lot, member, entry_id=f"bag-{label.lower()}", material=spar, label=label, at=opened)
    signed_in.post("/stores/lots/bag-c/count/", {"left_g": "0"})

    rows = signed_in.get("/stores/materials/spar/").context["lots"]
    offered = lots_by_material(member, ["spar"])["spar"]

    assert [row["lot"].label for row in rows] == ["B", "A", "C"]
    assert rows[2]["left"] == "used up"
    assert [lot.label for lot in offered] == ["B", "A", "C"]
    assert [lot.label for lot in powders_in_use(member)] == ["B"]
    assert [row["told"][:5] for row in signed_in.get("/stores/").context["rows"]] == ["bag B"]
