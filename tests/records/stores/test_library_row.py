"""Which powder stands in: a word may mean one of the built-in table, or several to tap."""

import pytest

from wareboard.records.people.entry import keep
from wareboard.records.stores.library_row import rows_called
from wareboard.records.stores.models import Material

NEW = "/stores/new-material/"
SPAR = {"entry_id": "m-1", "name": "my spar", "kind": "glaze material"}


@pytest.mark.parametrize(
    ("typed", "row"),
    [
        ("whiting", "calcite_ideal"),
        ("Whiting (calcium carbonate), ideal", "calcite_ideal"),
        ("silica", "quartz_ideal"),
        ("quartz", "quartz_ideal"),
        ("flint", None),
        ("dolomite", "dolomite_ideal"),
        ("china clay", "kaolin_primary_typical"),
        ("kaolin_kga1", "kaolin_kga1"),
        ("unobtainium", None),
        ("?", None),
    ],
)
def test_a_word_finds_the_row_whose_name_begins_with_it_before_one_that_holds_it(typed, row):
    fits = rows_called(typed)

    assert (fits[0] if len(fits) == 1 else None) == row


@pytest.mark.parametrize(
    ("typed", "n"), [("feldspar", 10), ("potash feldspar", 5), ("red iron oxide", 2), ("talc", 2)]
)
def test_where_several_are_left_each_is_a_word_to_tap(signed_in, typed, n):
    reply = signed_in.post(NEW, {**SPAR, "library_id": typed})

    field = reply.context["form"]["library_id"]
    page = reply.content.decode()
    assert reply.status_code == 422
    assert field.errors == [
        f"Which powder stands in until it has a sheet? “{typed}” may be {n} of them. Tap one."
    ]
    assert [key for key, _name in field.field.offered] == rows_called(typed)
    assert page.count('<input type="radio" name="library_id"') == n
    assert not Material.objects.filter(pk="m-1").exists()


def test_one_tap_decides_whatever_stands_in_the_field(signed_in):
    tapped = ["feldspar", "feldspar_soda_ideal"]

    reply = signed_in.post(NEW, {**SPAR, "library_id": tapped})

    assert reply.status_code == 302
    assert Material.objects.get(pk="m-1").library_id == "feldspar_soda_ideal"


def test_what_was_tapped_is_called_by_its_name_where_another_answer_is_wrong(signed_in):
    told = {**SPAR, "name": "", "library_id": ["feldspar", "feldspar_soda_ideal"]}

    reply = signed_in.post(NEW, told)

    assert reply.status_code == 422
    assert 'value="soda feldspar (albite), ideal"' in reply.content.decode()


def test_of_very_many_twelve_are_offered_and_more_letters_asked_for(signed_in, member):
    keep(Material, member, entry_id="feldspar", name="potash feldspar")

    reply = signed_in.post("/stores/materials/feldspar/stand-in/", {"library_id": "oxide"})

    field, n = reply.context["form"]["library_id"], len(rows_called("oxide"))
    assert reply.status_code == 422
    assert len(field.field.offered) == 12
    assert field.errors[0].endswith(f"{n} of them. Tap one, or write more of its name.")
