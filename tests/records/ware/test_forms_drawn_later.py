"""A form with a name alone is drawn later, and several alike lead to form and board and back."""

import pytest
from ware_samples import bucket_of, coat_of, cylinder, mine, pot_of, text_of

from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Board, Form, FormPoint, Pot

SEVERAL = "/ware/new/several/"
OUTLINE = "3 0\n4 5\n4.5 9"


@pytest.fixture
def mug(member):
    """A form with a name alone."""
    return keep(Form, member, entry_id="stein", name="mug")


@pytest.fixture
def url(mug):
    return f"/ware/forms/{mug.pk}/draw/"


def points():
    return list(FormPoint.objects.filter(form="stein").values_list("r_cm", "z_cm"))


def test_its_page_leads_to_drawing_it(signed_in, mug, url):
    page = signed_in.get(f"/ware/forms/{mug.pk}/").content.decode()

    assert f'href="{url}"' in page
    assert signed_in.get(url).status_code == 200


def test_it_is_drawn_back_and_asked_about_before_it_is_kept(signed_in, url):
    page = signed_in.post(url, {"outline": OUTLINE})

    assert page.status_code == 422
    assert "Is it this, 9.0 cm high and 9.0 cm wide?" in text_of(page)
    assert '<svg class="pot-drawing"' in page.content.decode()
    assert points() == []


def test_said_to_be_right_it_is_kept_once_for_all_its_pots(signed_in, member, mug, url):
    coat = coat_of(member, pot_of(member, mug), bucket_of(member), 0.5)
    before = signed_in.get(f"/ware/coats/{coat.pk}/")
    sent = {"outline": OUTLINE, "wall_mm": "5", "sure": "on"}

    replies = [signed_in.post(url, sent) for _ in range(2)]

    assert [reply["Location"] for reply in replies] == ["/ware/forms/stein/"] * 2
    assert points() == [(3, 0), (4, 5), (4.5, 9)]
    assert f'href="{url}"' in before.content.decode()
    assert signed_in.get(f"/ware/coats/{coat.pk}/").context["answer"].millimetres.endswith(" mm")


def test_a_drawn_form_is_not_drawn_over(signed_in, member):
    drawn = cylinder(member)

    reply = signed_in.post(f"/ware/forms/{drawn.pk}/draw/", {"outline": OUTLINE, "sure": "on"})

    assert reply.status_code == 422
    assert "This form is drawn already." in text_of(reply)
    assert "This form is drawn already." in text_of(signed_in.get(f"/ware/forms/{drawn.pk}/draw/"))
    assert drawn.points.count() == 2


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"outline": ""}, "outline"),
        ({"outline": "5 0"}, "An outline needs from 2 to 60 lines; 1 are written here."),
        ({"outline": "1 0\n1 5", "wall_mm": "90"}, "A wall of 90 mm leaves no room"),
    ],
)
def test_an_impossible_one_is_explained_and_not_stored(signed_in, url, sent, says):
    reply = signed_in.post(url, {"sure": "on", **sent})

    assert reply.status_code == 422
    assert says in text_of(reply)
    assert points() == []


def test_others_unknown_ones_and_the_wrong_method_are_refused(signed_in, stranger, url):
    assert stranger.get(url).status_code == 404
    assert signed_in.get("/ware/forms/no-such-form/draw/").status_code == 404
    assert signed_in.delete(url).status_code == 405


def test_several_alike_lead_to_a_new_form_and_a_new_board_and_back(signed_in):
    page = signed_in.get(SEVERAL).content.decode()
    form_url, board_url = "/ware/forms/new/?for=several", "/ware/boards/new/?for=several"

    to_form = signed_in.post(f"{form_url}&board=", {"entry_id": "bowl", "name": "bowl"})
    to_board = signed_in.post(f"{board_url}&form=bowl", {"entry_id": "long", "name": "long one"})

    assert f'href="{form_url}&amp;board="' in page
    assert f'href="{board_url}&amp;form="' in page
    assert to_form["Location"] == f"{SEVERAL}?form=bowl&board="
    assert to_board["Location"] == f"{SEVERAL}?form=bowl&board=long"


def test_what_was_made_is_chosen_when_one_comes_back(signed_in, member, mug):
    keep(Board, member, entry_id="long", name="long one")

    page = signed_in.get(SEVERAL, {"form": "stein", "board": "long"})

    body = page.content.decode()
    assert '<option value="stein" selected>' in body
    assert '<option value="long" selected>' in body
    assert "form=stein" in body
    assert "board=long" in body
    assert not mine(Pot).exists()
