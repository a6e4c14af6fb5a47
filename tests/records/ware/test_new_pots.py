"""New pots: one tap, one photo, or several that are alike."""

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from ware_samples import cylinder, mine, photo, plank, text_of

from wareboard.records.pictures.models import Original
from wareboard.records.ware.models import Pot, PotPhoto, Standing

NEW, SEVERAL = "/ware/new/", "/ware/new/several/"


def test_one_tap_makes_a_pot_of_a_form(signed_in, member):
    form = cylinder(member)

    reply = signed_in.post(NEW, {"entry_id": "tap-1", "form": form.pk})

    pot = mine(Pot).get()
    assert (reply.status_code, reply["Location"]) == (302, f"/ware/pots/{pot.pk}/")
    assert (pot.pk, pot.form, pot.test_piece) == ("tap-1", form, False)


def test_a_pot_needs_no_form(signed_in):
    signed_in.post(NEW, {"form": ""})

    assert mine(Pot).get().form is None


def test_a_test_piece_is_one_tap(signed_in):
    signed_in.post(NEW, {"test_piece": "on"})

    assert mine(Pot).get().test_piece is True


def test_the_forms_made_last_stand_first(signed_in, member, django_assert_max_num_queries):
    old, new = cylinder(member, "old jug"), cylinder(member, "new bowl")
    signed_in.post(NEW, {"form": old.pk})
    signed_in.post(NEW, {"form": new.pk})

    with django_assert_max_num_queries(12):
        text = text_of(signed_in.get(NEW))

    assert text.index("new bowl") < text.index("old jug") < text.index("no form")


def test_the_same_tap_sent_twice_makes_one_pot(signed_in):
    replies = [signed_in.post(NEW, {"entry_id": "tap-2"}) for _ in range(2)]

    assert mine(Pot).count() == 1
    assert {reply["Location"] for reply in replies} == {"/ware/pots/tap-2/"}


def test_a_form_of_another_studio_is_refused(stranger, member):
    form = cylinder(member)

    reply = stranger.post(NEW, {"form": form.pk})

    assert reply.status_code == 422
    assert not Pot.objects.filter(form=form).exists()


def test_only_a_post_makes_pots(signed_in):
    assert signed_in.delete(NEW).status_code == 405
    assert signed_in.delete(SEVERAL).status_code == 405


def test_several_are_asked_for_on_a_page_of_their_own(signed_in, member):
    cylinder(member)

    page, asked = signed_in.get(NEW), signed_in.get(SEVERAL)

    assert f'href="{SEVERAL}"' in page.content.decode()
    assert "How many?" not in text_of(page)
    assert list(asked.context["form"].fields)[-3:] == ["how_many", "form", "board"]
    assert not mine(Pot).exists()


@pytest.fixture
def mug(member):
    return cylinder(member, "mug")


def test_a_form_is_tapped_on_the_page_that_takes_the_photo(signed_in, mug):
    page = signed_in.get(NEW).content.decode()

    (form,) = re.findall(r"<form method=.*?</form>", page, re.DOTALL)
    assert 'enctype="multipart/form-data"' in form
    assert re.findall(r'<input type="file" name="(\w+)"', form) == ["photo"]
    assert re.findall(r'<button type="submit" name="(\w+)" value="([^"]*)"', form) == [
        ("form", mug.pk),
        ("form", ""),
        ("test_piece", "on"),
    ]


@pytest.mark.parametrize(
    "tapped", [{"form": "mug"}, {"form": ""}, {"test_piece": "on"}], ids=["mug", "none", "test"]
)
def test_the_photo_is_kept_whichever_button_is_tapped(signed_in, mug, tapped):
    tapped = {**tapped, **({"form": mug.pk} if tapped.get("form") else {})}

    reply = signed_in.post(NEW, {"entry_id": "tap-3", "photo": photo(), **tapped})

    pot, taken, file = mine(Pot).get(), mine(PotPhoto).get(), mine(Original).get()
    assert reply["Location"] == f"/ware/pots/{pot.pk}/"
    assert (pot.form_id or "", pot.test_piece) == (tapped.get("form", ""), "test_piece" in tapped)
    assert (taken.pot, taken.original) == (pot, file)
    assert {one.together for one in (pot, taken, file)} == {"tap-3"}


def test_form_and_photo_sent_twice_make_one_pot(signed_in, mug):
    for _ in range(2):
        signed_in.post(NEW, {"entry_id": "tap-4", "photo": photo(), "form": mug.pk})

    assert (mine(Pot).count(), mine(PotPhoto).count(), mine(Original).count()) == (1, 1, 1)


def test_undo_takes_pot_and_photo_back(signed_in, mug):
    reply = signed_in.post(NEW, {"entry_id": "tap-5", "photo": photo(), "form": mug.pk})
    page = signed_in.get(reply["Location"])

    undone = signed_in.post(page.context["undo"]["url"], {"next": page.context["undo"]["next"]})

    assert undone["Location"] == "/ware/"
    assert [mine(m).count() for m in (Pot, PotPhoto, Original)] == [0, 0, 0]


def test_a_file_that_is_no_photo_is_explained_and_makes_no_pot(signed_in):
    reply = signed_in.post(NEW, {"photo": SimpleUploadedFile("pot.jpg", b"no photo at all")})

    assert reply.status_code == 422
    assert "This file is no photo that can be kept." in text_of(reply)
    assert not mine(Pot).exists()


def test_seven_at_once_stand_on_their_board(signed_in, member):
    form, board = cylinder(member), plank(member)

    reply = signed_in.post(
        SEVERAL, {"entry_id": "tap-7", "how_many": "7", "form": form.pk, "board": board.pk}
    )

    assert reply["Location"] == f"/ware/boards/{board.pk}/"
    assert Pot.objects.filter(form=form).count() == 7
    assert Standing.objects.filter(board=board).count() == 7


def test_several_sent_twice_are_made_once(signed_in):
    for _ in range(2):
        signed_in.post(SEVERAL, {"entry_id": "tap-8", "how_many": "3"})

    assert mine(Pot).count() == 3


def test_undo_takes_all_of_several_back(signed_in, member):
    board = plank(member)
    signed_in.post(SEVERAL, {"entry_id": "tap-9", "how_many": "3", "board": board.pk})
    page = signed_in.get(f"/ware/boards/{board.pk}/")

    signed_in.post(page.context["undo"]["url"])

    assert (mine(Pot).count(), mine(Standing).count()) == (0, 0)


@pytest.mark.parametrize("typed", ["", "1", "61", "many", "2.5"])
def test_an_impossible_number_is_explained_and_nothing_is_made(signed_in, typed):
    reply = signed_in.post(SEVERAL, {"how_many": typed})

    assert reply.status_code == 422
    assert "How many? A whole number from 2 to 60 would do." in text_of(reply)
    assert not mine(Pot).exists()


def test_an_id_that_cannot_be_used_is_explained(signed_in):
    reply = signed_in.post(NEW, {"entry_id": "../x"})

    assert reply.status_code == 422
    assert not mine(Pot).exists()
