"""A pot in the hand: what it weighs, what is on it, what was done, and what comes next."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import bucket_of, coat_of, cylinder, mine, plank, pot_of, text_of, weighed

from wareboard.records.glazes.models import Glaze
from wareboard.records.kiln.models import Firing, Kiln, Load, Placing
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import day
from wareboard.records.pictures.models import Original
from wareboard.records.shelf.actions import judge
from wareboard.records.ware.models import (
    Coat,
    Decoration,
    Hope,
    Mark,
    Pot,
    PotPhoto,
    Weighing,
)


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/"


def test_a_bare_pot_says_so(signed_in, url):
    text = text_of(signed_in.get(url))

    assert "Not weighed yet." in text
    assert "No glaze yet." in text


def test_what_it_weighs_and_since_when(signed_in, member, pot, url):
    at = timezone.now() - timedelta(days=3)
    keep(Weighing, member, pot=pot, weight_g=1240, state="bone dry", at=at)

    page = signed_in.get(url)

    assert page.context["weight"]["g"] == "1240 g"
    assert page.context["weight"]["state"] == "bone dry, warm from the tray"
    assert "measured" in text_of(page)


def test_the_weight_after_a_dip_counts_where_it_is_newer(signed_in, member, pot, url):
    at = timezone.now() - timedelta(days=3)
    keep(Weighing, member, pot=pot, weight_g=1000, state="bone dry", at=at)
    coat = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=2)

    weight = signed_in.get(url).context["weight"]

    assert (weight["g"], weight["state"]) == (f"{coat.after_g:.0f} g", "just dipped")


def test_what_was_weighed_before_the_last_dip_is_not_its_weight_now(signed_in, member, pot, url):
    bucket = bucket_of(member)
    coat = coat_of(member, pot, bucket, 0.5, hours_ago=30)
    coat_of(member, pot, bucket, 0.5, hours_ago=2, side="inside", before_g=None)

    text = text_of(signed_in.get(url))

    assert "Not weighed since its last dip. Before it " + f"{coat.after_g:.0f} g, on" in text


def test_weighed_since_its_last_dip_it_weighs_that(signed_in, member, pot, url):
    coat_of(member, pot, bucket_of(member), 0.5, hours_ago=3, before_g=None)
    weighed(member, pot, 1030, "glazed", hours_ago=1)

    text = text_of(signed_in.get(url))

    assert "1030 g measured at" in text
    assert "Not weighed since" not in text


def test_coats_stand_in_order_in_words_and_millimetres(signed_in, member, pot, url):
    bucket = bucket_of(member)
    coat_of(member, pot, bucket, 0.5, hours_ago=5)
    coat_of(member, pot, bucket, 0.4, hours_ago=2, extent="below the lip")

    rows = signed_in.get(url).context["coats"]

    assert [(r["what"], r["where"], r["much"], r["trust"]) for r in rows] == [
        ("Limpet", "outside, all of it", "0.50 mm", "worked-out"),
        ("Limpet", "outside, below the lip", "0.55 mm", "worked-out"),
    ]
    assert all(row["span"].startswith("(") for row in rows)


def test_a_coat_nobody_weighed_is_no_number(signed_in, member, pot, url):
    keep(Coat, member, pot=pot, bucket=bucket_of(member), side="inside")
    keep(Coat, member, pot=pot, glaze=keep(Glaze, member, name="Rowan"), side="outside")

    rows = signed_in.get(url).context["coats"]

    assert [(r["what"], r["much"], r["trust"]) for r in rows] == [
        ("Limpet", "not weighed", ""),
        ("Rowan", "not weighed", ""),
    ]


def test_on_a_general_outline_only_grams_are_told(signed_in, member):
    pot = pot_of(member, None, name="odd bowl")
    coat_of(member, pot, bucket_of(member), 0.5)

    page = signed_in.get(f"/ware/pots/{pot.pk}/")

    # 0.5 mm x pi dm2 x 10 x 0.5 x 2.6 = 20.4 g of dry glaze.
    assert page.context["coats"][0]["much"] == "20 g of glaze"
    assert "general" in text_of(page)


def test_a_coat_weighed_for_another_says_how_many(signed_in, member, pot):
    bucket = bucket_of(member)
    weighed = coat_of(member, pot, bucket, 0.5)
    others = [pot_of(member, pot.form) for _ in range(6)]
    for other in others:
        keep(Coat, member, pot=other, bucket=bucket, side="outside", like=weighed)

    row = signed_in.get(f"/ware/pots/{others[0].pk}/").context["coats"][0]

    assert (row["trust"], row["n"], row["much"]) == ("usual", "1 of 7", "0.50 mm")


def test_what_was_done_stands_newest_first(signed_in, member, pot, url):
    for hours, (model, facts) in enumerate(
        [
            (Hope, {"kind": "feared", "words": "thick lip"}),
            (Mark, {"kind": "rubbed", "where": "shoulder"}),
            (Decoration, {"kind": "banded", "what": "iron"}),
        ]
    ):
        keep(model, member, pot=pot, at=timezone.now() - timedelta(hours=hours), **facts)

    rows = signed_in.get(url).context["rows"]

    assert [(r["what"], r["more"]) for r in rows] == [
        ("Feared", "thick lip"),
        ("Rubbed down", "shoulder"),
        ("Banded", "iron"),
    ]


def test_the_load_it_waits_in_is_one_tap_away(signed_in, member, pot, url):
    kiln = keep(Kiln, member, name="the little downdraught")
    load = keep(Load, member, kiln=kiln)
    keep(Placing, member, load=load, pot=pot)

    body = signed_in.get(url).content.decode()

    assert f"/kiln/loads/{load.pk}/before-lighting/" in body
    assert "may it be lit?" in body


def test_its_board_and_its_story_are_one_tap_away(signed_in, member, pot, url):
    plank(member, [pot], name="by the window")

    page = signed_in.get(url)

    assert page.context["board"] == "by the window"
    assert f"/shelf/pots/{pot.pk}/" in page.content.decode()


@pytest.mark.parametrize("times", [1, 30])
def test_twelve_queries_however_much_was_done(
    signed_in, member, pot, url, django_assert_max_num_queries, times
):
    bucket = bucket_of(member)
    for n in range(times):
        coat = coat_of(member, pot, bucket, 0.5, hours_ago=n + 1)
        keep(Coat, member, pot=pot, bucket=bucket, side="outside", like=coat)
        keep(Mark, member, pot=pot, kind="rubbed")
        keep(Weighing, member, pot=pot, weight_g=1000 + n, state="glazed")

    with django_assert_max_num_queries(12):
        signed_in.get(url)


def test_a_new_pot_can_be_taken_back_to_the_ware_room(signed_in, member):
    made = keep(Pot, member)
    undo = signed_in.get(f"/ware/pots/{made.pk}/").context["undo"]

    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == "/ware/"
    assert not mine(Pot).exists()


def test_what_was_done_last_is_what_undo_takes_back(signed_in, member, pot, url):
    keep(Mark, member, pot=pot, kind="rubbed")
    keep(Decoration, member, pot=pot, kind="cut")
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"])

    assert (mine(Mark).count(), mine(Decoration).count()) == (1, 0)


def test_others_and_unknown_pots_get_404(stranger, url):
    assert stranger.get(url).status_code == 404
    assert stranger.get("/ware/pots/no-such-pot/").status_code == 404


def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.post(url).status_code == 405


def fired_pot(member, form, **facts):
    """A pot whose load was lit yesterday."""
    pot, at = pot_of(member, form, **facts), timezone.now() - timedelta(days=1)
    load = keep(Load, member, kiln=keep(Kiln, member, name="gas"), at=at)
    keep(Placing, member, load=load, pot=pot, at=at)
    keep(Firing, member, load=load, number=1, at=at)
    return pot


def test_a_fired_pot_leads_to_its_story_and_how_it_came_out(signed_in, member):
    pot = fired_pot(member, cylinder(member))
    judge(member, pot, surface="outside", thumb="down", faults=["craze"], words="from the rim")

    page = signed_in.get(f"/ware/pots/{pot.pk}/")

    body = page.content.decode()
    assert page.context["fired"]["say"] == f"Fired on {day(timezone.now() - timedelta(days=1))}."
    assert "Outside: bad" in text_of(page)
    assert body.index("Its story") < body.index("<details>") < body.index(">Dip<")


def test_a_fired_pot_nobody_judged_says_so(signed_in, member):
    pot = fired_pot(member, None)

    text = text_of(signed_in.get(f"/ware/pots/{pot.pk}/"))

    assert "Nobody said yet how it came out." in text


def test_a_pot_weighed_as_fired_is_fired(signed_in, member, pot, url):
    keep(Weighing, member, pot=pot, weight_g=900, state="fired")

    assert signed_in.get(url).context["fired"]["say"] == "Fired."


def test_a_pot_to_be_fired_again_is_worked_on_as_a_raw_one(signed_in, member):
    pot = fired_pot(member, None)
    again = keep(Load, member, kiln=Kiln.objects.get(studio=member.studio))
    keep(Placing, member, load=again, pot=pot)

    assert signed_in.get(f"/ware/pots/{pot.pk}/").context["fired"] is None


def test_the_page_of_a_fired_pot_needs_few_queries(
    signed_in, member, django_assert_max_num_queries
):
    form = cylinder(member)
    pot, bucket = fired_pot(member, form), bucket_of(member)
    coat = coat_of(member, pot, bucket, 0.5)
    coat_of(member, pot_of(member, form), bucket, 0.5, like=coat)
    judge(member, pot, surface="outside", thumb="down", faults=["craze"])

    with django_assert_max_num_queries(12):
        signed_in.get(f"/ware/pots/{pot.pk}/")


def test_a_pot_without_a_drawing_of_its_own_shows_its_photo_first(signed_in, member):
    pot = pot_of(member, None)
    original = keep(Original, member, sha256="a" * 64, suffix="jpg", size_bytes=9)
    keep(PotPhoto, member, pot=pot, original=original)

    body = signed_in.get(f"/ware/pots/{pot.pk}/").content.decode()

    assert body.count("<svg") == 0
    assert "The newest photo of" in body
