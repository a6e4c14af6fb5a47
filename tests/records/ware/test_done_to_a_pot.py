"""Decorate, mark, hope, photograph, name, put on a board: each its own page."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from ware_samples import cylinder, mine, photo, plank, text_of

from wareboard.records.people.entry import keep
from wareboard.records.pictures.models import Original
from wareboard.records.stores.models import Lot, Material
from wareboard.records.ware.models import Decoration, Hope, Mark, PotPhoto, Standing

# A sound of no length: RIFF, WAVE, one channel of 8000 samples a second.
WAV = bytes.fromhex(
    "52494646 24000000 57415645 666d7420 10000000 01000100 401f0000 803e0000 02001000 "
    "64617461 00000000"
)
PAGES = ["decorate", "mark", "hope", "photo", "name", "board"]


@pytest.fixture
def at(pot):
    return lambda page: f"/ware/pots/{pot.pk}/{page}/"


@pytest.mark.parametrize("page", PAGES)
def test_each_page_opens_within_few_queries(signed_in, at, page, django_assert_max_num_queries):
    with django_assert_max_num_queries(8):
        assert signed_in.get(at(page)).status_code == 200


@pytest.mark.parametrize("page", PAGES)
def test_each_page_is_404_for_others_and_for_unknown_pots(stranger, at, page):
    assert stranger.get(at(page)).status_code == 404
    assert stranger.get(f"/ware/pots/no-such-pot/{page}/").status_code == 404


@pytest.mark.parametrize("page", PAGES)
def test_each_page_refuses_the_wrong_method(signed_in, at, page):
    assert signed_in.delete(at(page)).status_code == 405


@pytest.mark.parametrize(
    ("page", "model", "entered"),
    [
        ("decorate", Decoration, {"kind": "resist", "what": "wax"}),
        ("mark", Mark, {"kind": "kissed", "meant": "no"}),
        ("hope", Hope, {"kind": "feared", "words": "the lip is thick"}),
    ],
)
def test_each_is_kept_once_and_taken_back(signed_in, pot, at, page, model, entered):
    replies = [signed_in.post(at(page), {"entry_id": "tap", **entered}) for _ in range(2)]
    kept = mine(model).count()
    undo = signed_in.get(replies[0]["Location"]).context["undo"]
    signed_in.post(undo["url"], {"next": undo["next"]})

    assert replies[0]["Location"] == f"/ware/pots/{pot.pk}/"
    assert (kept, mine(model).count()) == (1, 0)


def test_decorating_asks_one_question_first(signed_in, at):
    text = text_of(signed_in.get(at("decorate")))

    assert "What did you do?" in text
    assert "With what?" not in text


def test_decoration_keeps_its_lot_and_words(signed_in, member, at):
    iron = keep(Material, member, name="red iron oxide", kind="colourant")
    lot = keep(Lot, member, material=iron, label="B")

    signed_in.post(
        at("decorate"),
        {
            "kind": "brushed",
            "what": "iron wash",
            "lot": lot.pk,
            "fineness": "like flour",
            "where": "rim",
        },
    )

    made = mine(Decoration).get()
    assert (made.kind, made.lot, made.what, made.fineness, made.where, made.found) == (
        "brushed",
        lot,
        "iron wash",
        "like flour",
        "rim",
        False,
    )


def test_a_lot_is_named_by_material_and_label(signed_in, member, at):
    iron = keep(Material, member, name="red iron oxide", kind="colourant")
    keep(Lot, member, material=iron, label="B")

    assert "red iron oxide, B" in text_of(signed_in.get(at("decorate") + "?kind=brushed"))


@pytest.mark.parametrize(
    ("page", "kind", "says"),
    [
        ("decorate", "resist", "no hot plate, flame or kiln near until they are dry"),
        ("decorate", "sprinkled", "never where food or lips touch"),
        ("decorate", "inlaid", "plated, painted or an alloy nobody knows"),
        ("mark", "rubbed", "Rub damp, never blow, wear a mask"),
    ],
)
def test_a_caution_stands_where_it_counts(signed_in, at, page, kind, says):
    assert says in text_of(signed_in.get(f"{at(page)}?kind={kind}"))


@pytest.mark.parametrize(("page", "kind"), [("decorate", "trailed"), ("mark", "kissed")])
def test_no_caution_stands_where_nothing_is_to_be_feared(signed_in, at, page, kind):
    assert 'class="caution' not in signed_in.get(f"{at(page)}?kind={kind}").content.decode()


def test_found_metal_keeps_its_caution_on_the_pot(signed_in, pot, at):
    signed_in.post(at("decorate"), {"kind": "sprinkled", "what": "filings", "found": "on"})

    text = text_of(signed_in.get(f"/ware/pots/{pot.pk}/"))

    assert "never where food or lips touch" in text


@pytest.mark.parametrize("page", ["decorate", "mark"])
def test_an_unknown_word_is_asked_again_and_not_stored(signed_in, at, page):
    reply = signed_in.post(at(page), {"kind": "gilded"})

    assert reply.status_code == 422
    assert not mine(Decoration).exists()
    assert not mine(Mark).exists()


@pytest.mark.parametrize(("typed", "kept"), [("yes", True), ("no", False), ("", None)])
def test_a_mark_is_meant_or_not_or_not_said(signed_in, at, typed, kept):
    signed_in.post(at("mark"), {"kind": "bare", "meant": typed, "where": "foot"})

    assert (mine(Mark).get().meant, mine(Mark).get().where) == (kept, "foot")


def test_a_hope_can_be_spoken(signed_in, pot, at):
    signed_in.post(at("hope"), {"kind": "hoped", "spoken": SimpleUploadedFile("note.wav", WAV)})

    assert mine(Hope).get().spoken == mine(Original).get()
    assert mine(Original).get().kind == "sound"
    assert "Listen to it" in text_of(signed_in.get(f"/ware/pots/{pot.pk}/"))


def test_a_hope_that_says_nothing_is_explained_and_not_stored(signed_in, at):
    reply = signed_in.post(at("hope"), {"kind": "hoped"})

    assert reply.status_code == 422
    assert "both are empty" in text_of(reply)
    assert not mine(Hope).exists()


def test_a_photo_is_no_spoken_note(signed_in, at):
    reply = signed_in.post(at("hope"), {"kind": "hoped", "spoken": photo()})

    assert reply.status_code == 422
    assert "no sound recording" in text_of(reply)
    assert not mine(Hope).exists()


def test_a_photo_is_kept_and_shown(signed_in, pot, at):
    signed_in.post(at("photo"), {"entry_id": "tap", "photo": photo()})
    signed_in.post(at("photo"), {"entry_id": "tap", "photo": photo()})

    taken = mine(PotPhoto).get()
    assert taken.pot == pot
    assert signed_in.get(f"/ware/pots/{pot.pk}/").context["photos"] == [taken.original_id]


def test_a_broken_photo_is_explained_and_not_stored(signed_in, at):
    reply = signed_in.post(at("photo"), {"photo": SimpleUploadedFile("a.jpg", b"\xff\xd8\xff")})

    assert reply.status_code == 422
    assert not mine(PotPhoto).exists()
    assert not mine(Original).exists()


def test_a_pot_is_named_and_given_its_form(signed_in, member, pot, at):
    other = cylinder(member, "vase")
    clay = keep(Material, member, name="buff", kind="clay body")

    reply = signed_in.post(
        at("name"),
        {
            "name": "the tall one",
            "form": other.pk,
            "clay": clay.pk,
            "whose": "Sam",
            "foot_gap_mm": "3",
            "test_piece": "on",
        },
    )

    pot.refresh_from_db()
    assert reply["Location"] == f"/ware/pots/{pot.pk}/"
    assert (pot.name, pot.form, pot.clay, pot.whose, pot.foot_gap_mm, pot.test_piece) == (
        "the tall one",
        other,
        clay,
        "Sam",
        3,
        True,
    )


def test_an_impossible_foot_gap_is_explained_and_the_pot_stays(signed_in, pot, at):
    reply = signed_in.post(at("name"), {"name": "new name", "foot_gap_mm": "2000"})

    pot.refresh_from_db()
    assert reply.status_code == 422
    assert "millimetres from 0 to 1000" in text_of(reply)
    assert (pot.name, reply.context["form"]["name"].value()) == ("", "new name")


def test_a_form_of_another_studio_cannot_be_given(signed_in, demo_member, pot, at):
    foreign = cylinder(demo_member, "foreign")

    reply = signed_in.post(at("name"), {"form": foreign.pk})

    pot.refresh_from_db()
    assert reply.status_code == 422
    assert pot.form.name == "cylinder"


def test_a_pot_is_put_on_a_board_and_taken_off_again(signed_in, member, pot, at):
    board = plank(member)

    signed_in.post(at("board"), {"board": board.pk})
    on = signed_in.get(at("board")).context["now"]
    signed_in.post(at("board"), {"board": ""})
    off = signed_in.get(at("board")).context["now"]

    assert (on, off) == (board, None)


def test_a_board_of_another_studio_is_refused(signed_in, demo_member, at):
    foreign = plank(demo_member)

    reply = signed_in.post(at("board"), {"board": foreign.pk})

    assert reply.status_code == 422
    assert not mine(Standing).exists()
