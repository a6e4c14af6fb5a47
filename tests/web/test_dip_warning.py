"""Before the dip: layers that add up, limits, and two wet faces."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import (
    DRY_FRACTION,
    answered,
    bucket_of,
    chosen,
    coat_of,
    good_pots,
    pot_of,
    slop_g_for,
    text_of,
)

from wareboard.records.people.entry import keep
from wareboard.records.shelf.actions import judge
from wareboard.records.ware.models import Coat, Weighing


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


def warned(client, url, bucket, **which):
    return client.get(url, chosen(bucket, **which)).context["warning"]


def test_the_first_layer_is_what_good_pots_had(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)

    warning = warned(signed_in, url, bucket)

    assert warning.say == "Good Limpet coats: 0.50 to 0.70 mm"
    assert warning.working == "Counted: 3 weighed coats that came out good."
    assert (warning.doubt, warning.trust, warning.n, warning.cautions) == ("", "usual", 3, ())


def test_before_and_after_a_dip_good_coats_are_the_same(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.3, 0.5, 0.5, 0.55)

    before = warned(signed_in, url, bucket)
    after = answered(signed_in, url, bucket, 0.5).context["answer"]

    assert after.against == f"{before.say}. {before.working}"


@pytest.mark.parametrize(
    ("good_mm", "says"),
    [
        ([0.5], "The one good Limpet coat: 0.50 mm ("),
        ([0.4, 0.5], "Good Limpet coats: 0.40 to 0.50 mm"),
        ([0.5, 0.5, 0.5], "Good Limpet coats: 0.50 mm"),
    ],
)
def test_few_good_coats_are_called_what_they_are(
    signed_in, member, form, bucket, url, good_mm, says
):
    good_pots(member, form, bucket, *good_mm)

    assert warned(signed_in, url, bucket).say.startswith(says)


def test_a_third_layer_at_the_lip_adds_up_and_warns(signed_in, member, form, pot, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    good_pots(member, form, runny, 0.5, 0.6, 0.7)
    coat_of(member, pot, runny, 0.5, hours_ago=30, side="outside")
    coat_of(member, pot, runny, 0.5, hours_ago=20, side="outside", extent="lip", lip_cm=10)

    warning = warned(signed_in, url, runny, extent="lip")

    # The lip of 10 cm is both faces, so the second coat is thinner there; the sum is what counts.
    second_mm = pytest.approx(0.5 * 3.14159 / (3.14159 + 2 * 3.14159 * 4.5 * 9.5 / 100), abs=0.05)
    total = float(warning.say.split("about ")[1].removesuffix(" mm"))
    assert total - 0.5 - 0.6 == second_mm
    assert warning.say.startswith("Third layer at the lip: about ")
    assert warning.working.startswith("Hedgelay outside 0.50 mm + Hedgelay outside ")
    assert warning.working.endswith(" + this one 0.60 mm.")
    assert warning.cautions == ("Hedgelay runs above 0.7 mm, so this may run.",)


def test_layers_of_one_side_add_up(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.6)
    coat_of(member, pot, bucket, 0.4, hours_ago=30)
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, url, bucket)

    assert warning.say == "Third layer at the lip: about 1.50 mm"
    assert warning.working == "Limpet outside 0.40 mm + Limpet outside 0.50 mm + this one 0.60 mm."


def test_of_two_glazes_the_one_that_runs_first_warns(signed_in, member, form, pot, bucket, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pot, runny, 0.45, hours_ago=20)

    warning = warned(signed_in, url, bucket)

    assert warning.cautions == ("Hedgelay runs above 0.7 mm, so this may run.",)


def test_near_the_limit_is_said_as_near(signed_in, member, form, pot, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=1.1)
    good_pots(member, form, runny, 0.5)
    coat_of(member, pot, runny, 0.5, hours_ago=20)

    warning = warned(signed_in, url, runny)

    assert warning.cautions == ("Close to the 1.1 mm above which Hedgelay runs.",)


def test_the_bare_foot_is_said_where_it_may_run(signed_in, member, form):
    pot = pot_of(member, form, foot_gap_mm=3)
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.3)
    good_pots(member, form, runny, 0.5)

    warning = warned(signed_in, f"/ware/pots/{pot.pk}/dip/", runny)

    assert warning.cautions == (
        "Hedgelay runs above 0.3 mm, so this may run. The bare foot is 3 mm.",
    )


def test_a_sum_beyond_all_good_pots_is_called_thick(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5, 0.5, 0.5)
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, url, bucket)

    assert warning.cautions == (
        "Thick: good Limpet coats had up to 0.50 mm. A thick lip may crawl.",
    )


def test_without_good_pots_it_says_that_it_cannot_tell(signed_in, member, pot, bucket, url):
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, url, bucket)

    assert warning.say == (
        "How thick this one comes out cannot be told: no good pot with Limpet was weighed yet."
    )
    assert (warning.working, warning.trust) == ("There now: Limpet outside 0.50 mm.", "")


def test_without_good_pots_a_known_limit_is_still_said(signed_in, member, pot, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    coat_of(member, pot, runny, 0.5, hours_ago=20)

    warning = warned(signed_in, url, runny)

    assert warning.cautions == ("Hedgelay runs above 0.70 mm, all layers together.",)


def test_good_coats_on_general_outlines_tell_no_thickness(signed_in, member, bucket, url):
    good_pots(member, None, bucket, 0.5, 0.5, 0.5)

    warning = warned(signed_in, url, bucket)

    assert warning.trust == ""
    assert warning.say == (
        "How thick this one comes out cannot be told: the good pots with Limpet that were weighed "
        "are of a form nobody has drawn."
    )


def test_good_pots_that_were_taken_to_be_like_another_are_not_called_unweighed_without_reason(
    signed_in, member, form, bucket, url
):
    weighed = coat_of(member, pot_of(member, form), bucket, 0.5)
    like_it = pot_of(member, form)
    coat_of(member, like_it, bucket, 0.5, before_g=None, like=weighed)
    judge(member, like_it, surface="whole", thumb="up")

    assert warned(signed_in, url, bucket).say == (
        "How thick this one comes out cannot be told: the good pots with Limpet were only taken "
        "to be like one that was weighed."
    )


def test_a_layer_nobody_weighed_is_said(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pot, bucket, 0.5, hours_ago=20, before_g=None)

    warning = warned(signed_in, url, bucket)

    assert warning.say == "Second layer at the lip: about 0.50 mm"
    assert "One layer there was never weighed, so it is more than that." in warning.cautions


def test_an_outside_coat_does_not_count_for_the_inside(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pot, bucket, 0.5, hours_ago=20, extent="below the lip")

    warning = warned(signed_in, url, bucket, side="inside", extent="below the lip")

    assert warning.say.startswith("The one good Limpet coat: 0.50 mm")


def test_on_a_general_outline_layers_are_told_in_grams(signed_in, member, form, bucket):
    pot = pot_of(member, None, name="odd bowl")
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, f"/ware/pots/{pot.pk}/dip/", bucket)

    assert warning.say == (
        "Second layer at the lip. How thick that gets is not known: the form is not drawn."
    )
    assert warning.working == (f"There now: Limpet outside {slop_g_for(0.5) * DRY_FRACTION:.0f} g.")
    assert "mm" not in warning.say + warning.working + warning.doubt


def wet(member, pot, bucket, percent, hours_ago, side="inside"):
    """A coat that put so much water into a pot of a kilogram."""
    slop_g = percent * 10 / (1 - DRY_FRACTION)
    facts = {"before_g": 1000, "after_g": 1000 + slop_g}
    at = timezone.now() - timedelta(hours=hours_ago)
    return keep(Coat, member, pot=pot, bucket=bucket, side=side, at=at, **facts)


def test_two_wet_faces_are_warned_of(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    usual = 100 * slop_g_for(0.5) * (1 - DRY_FRACTION) / 1000
    wet(member, pot, bucket, 7, 1)

    water = signed_in.get(url, chosen(bucket)).context["water"]

    assert water.startswith(
        f"Both faces wet at once: 7 % of the pot in water from before, about {usual:.0f} % more"
    )


def test_the_same_face_twice_is_no_second_face(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    wet(member, pot, bucket, 9, 1, side="outside")

    assert signed_in.get(url, chosen(bucket)).context["water"] == ""


def test_little_water_is_not_worth_a_word(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    wet(member, pot, bucket, 2, 1)

    assert signed_in.get(url, chosen(bucket)).context["water"] == ""


def test_a_face_of_this_morning_is_dry_again(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    wet(member, pot, bucket, 9, 6)

    assert signed_in.get(url, chosen(bucket)).context["water"] == ""


def test_what_the_scale_saw_drying_counts(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.5)
    coat = wet(member, pot, bucket, 9, 2)
    keep(Weighing, member, pot=pot, weight_g=coat.after_g - 85, state="glazed")

    assert signed_in.get(url, chosen(bucket)).context["water"] == ""


def test_both_faces_in_one_dip_are_warned_of(signed_in, member, form, bucket, url):
    pot = pot_of(member, form)
    wet(member, pot, bucket, 9, 200, side="both")
    judge(member, pot, surface="whole", thumb="up")

    water = signed_in.get(url, chosen(bucket, side="both")).context["water"]

    assert water.startswith("Both faces at once: about 9 % of the pot in water.")


def test_a_lip_wets_no_wall(signed_in, member, form, pot, bucket, url):
    wet(member, pot, bucket, 9, 1)

    assert signed_in.get(url, chosen(bucket, extent="lip")).context["water"] == ""


def test_a_weight_of_just_now_stands_in_the_field(signed_in, member, pot, bucket, url):
    keep(Weighing, member, pot=pot, weight_g=1180, state="leather-hard")

    page = signed_in.get(url, chosen(bucket))

    assert page.context["form"]["before_g"].value() == "1180"
    assert "On the scale it was 1180 g" in text_of(page)


def test_an_older_weight_is_only_said(signed_in, member, pot, bucket, url):
    at = timezone.now() - timedelta(hours=2)
    keep(Weighing, member, pot=pot, weight_g=1180, state="leather-hard", at=at)

    page = signed_in.get(url, chosen(bucket))

    assert page.context["form"]["before_g"].value() is None
    assert "On the scale it was 1180 g" in text_of(page)
