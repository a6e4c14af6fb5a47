"""Forms of pots: an outline is typed and drawn back at once."""

import math

import pytest
from ware_samples import OUTSIDE_DM2, cylinder, mine, pot_of, text_of

from wareboard.records.people.shown import rounded
from wareboard.records.ware.models import Form, FormPoint

NEW = "/ware/forms/new/"


def test_an_outline_is_kept_foot_to_rim_and_drawn_back(signed_in):
    reply = signed_in.post(
        NEW,
        {
            "entry_id": "f-1",
            "name": "tea bowl",
            "outline": "2.6 0\n5,2; 3\n6.1\t7.5",
            "wall_mm": "4",
        },
    )

    page = signed_in.get(reply["Location"])
    points = FormPoint.objects.filter(form="f-1").order_by("position")
    assert list(points.values_list("r_cm", "z_cm")) == [(2.6, 0), (5.2, 3), (6.1, 7.5)]
    assert mine(Form).get().wall_mm == 4
    assert "7.5 cm high, 12.2 cm wide." in text_of(page)
    assert '<svg class="pot-drawing"' in page.content.decode()


def test_the_area_of_a_cylinder_is_school_geometry(signed_in, member):
    form = cylinder(member)

    page = signed_in.get(f"/ware/forms/{form.pk}/")

    inside_dm2 = (2 * math.pi * 4.5 * 9.5 + math.pi * 4.5**2) / 100
    assert page.context["outside"] == rounded(OUTSIDE_DM2, 0.1)
    assert float(page.context["inside"]) == pytest.approx(inside_dm2, abs=0.15)


def test_a_form_may_have_a_name_alone(signed_in):
    reply = signed_in.post(NEW, {"name": "jug"})

    text = text_of(signed_in.get(reply["Location"]))
    assert "a general one stands in" in text
    assert "general" in text


@pytest.mark.parametrize(
    ("outline", "says"),
    [
        ("5 0", "An outline needs from 2 to 60 lines; 1 are written here."),
        ("5 0\n6", "Line 2 is “6”: a radius and a height would do"),
        ("5 0\nwide 3", "Line 2, radius"),
        ("5 0\n6 500", "Line 2, height"),
        ("5 4\n6 2", "Line 2 goes down again"),
        ("5 0\n6 0", "The outline has no height"),
        ("0 0\n0 5", "The outline has no width"),
    ],
)
def test_an_impossible_outline_is_explained_and_not_stored(signed_in, outline, says):
    reply = signed_in.post(NEW, {"name": "bowl", "outline": outline})

    assert reply.status_code == 422
    assert says in text_of(reply)
    assert not mine(Form).exists()
    assert reply.context["form"]["outline"].value() == outline


def test_a_wall_thicker_than_its_pot_is_explained_and_not_stored(signed_in):
    reply = signed_in.post(NEW, {"name": "rod", "outline": "1 0\n1 5", "wall_mm": "90"})

    assert reply.status_code == 422
    assert not mine(Form).exists()


def test_a_form_sent_twice_is_kept_once_and_taken_back(signed_in):
    for _ in range(2):
        signed_in.post(NEW, {"entry_id": "f-2", "name": "bowl", "outline": "3 0\n8 6"})
    kept = mine(Form).count()
    undo = signed_in.get("/ware/forms/f-2/").context["undo"]
    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert (kept, mine(Form).count(), reply["Location"]) == (1, 0, "/ware/forms/")


def test_the_list_draws_every_form_and_counts_its_pots(
    signed_in, member, django_assert_max_num_queries
):
    form = cylinder(member)
    for _ in range(3):
        pot_of(member, form)

    with django_assert_max_num_queries(6):
        page = signed_in.get("/ware/forms/")

    assert "3 pots" in text_of(page)
    assert page.content.decode().count("<svg") == 1


def test_an_empty_list_says_how_to_measure(signed_in):
    assert "Measure one pot with a ruler" in text_of(signed_in.get("/ware/forms/"))


def test_a_new_pot_of_this_form_is_one_tap(signed_in, member):
    form = cylinder(member)

    body = signed_in.get(f"/ware/forms/{form.pk}/").content.decode()

    assert 'action="/ware/new/"' in body
    assert f'name="form" value="{form.pk}"' in body


def test_others_and_unknown_forms_get_404(stranger, member):
    form = cylinder(member)

    assert stranger.get(f"/ware/forms/{form.pk}/").status_code == 404
    assert stranger.get("/ware/forms/no-such-form/").status_code == 404


@pytest.mark.parametrize("url", ["/ware/forms/", NEW])
def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.delete(url).status_code == 405
