"""The dip in the hand: a warning before it, the scale, and what it left."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import (
    DRY_FRACTION,
    bucket_of,
    coat_of,
    cylinder,
    good_pots,
    mine,
    plank,
    pot_of,
    slop_g_for,
    text_of,
)

from wareboard.records.glazes.models import BucketEvent
from wareboard.records.people.entry import keep
from wareboard.records.shelf.actions import judge
from wareboard.records.ware.models import Coat, Pot, Weighing

HX = {"HX-Request": "true"}


@pytest.fixture
def form(member):
    return cylinder(member)


@pytest.fixture
def pot(member, form):
    return pot_of(member, form)


@pytest.fixture
def bucket(member):
    return bucket_of(member)


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


def chosen(bucket, side="outside", extent="whole", **more):
    return {"bucket": bucket.pk, "side": side, "extent": extent, **more}


def warned(client, url, bucket, **which):
    return client.get(url, chosen(bucket, **which)).context["warning"]


def test_first_it_asks_which_bucket_and_which_side(signed_in, bucket, url):
    text = text_of(signed_in.get(url))

    assert "Which bucket?" in text
    assert "Limpet bucket" in text
    assert "Pot before the dip" not in text


def test_the_side_that_is_next_is_tapped_already(signed_in, url):
    assert signed_in.get(url, {"side": "outside"}).context["which"]["side"].value() == "outside"
    assert signed_in.get(url, {"side": "sideways"}).context["which"]["side"].value() == "inside"


def test_a_single_bucket_is_tapped_already(signed_in, bucket, url):
    assert signed_in.get(url).context["which"]["bucket"].value() == bucket.pk


def test_the_bucket_last_dipped_in_stands_first_and_an_empty_one_nowhere(
    signed_in, member, pot, bucket, url
):
    other, empty = bucket_of(member, "Rowan"), bucket_of(member, "Samphire")
    coat_of(member, pot, bucket, 0.5, hours_ago=9)
    coat_of(member, pot, other, 0.5, hours_ago=5)
    keep(BucketEvent, member, bucket=empty, kind="emptied")

    assert list(signed_in.get(url).context["which"].buckets) == [other.pk, bucket.pk]


def test_without_any_bucket_it_says_what_to_do(signed_in, url):
    assert "No bucket is filled yet." in text_of(signed_in.get(url))


def test_choosing_brings_back_only_the_fragment(signed_in, bucket, url):
    reply = signed_in.get(url, chosen(bucket), headers=HX)

    assert "<html" not in reply.content.decode()
    assert "Pot before the dip" in text_of(reply)


def test_an_unknown_bucket_is_asked_again(signed_in, bucket, url):
    reply = signed_in.get(url, {"bucket": "no-such", "side": "outside", "extent": "whole"})

    assert reply.status_code == 422
    assert "Which bucket? Tap one." in text_of(reply)


def test_a_bucket_of_another_studio_is_not_offered(signed_in, demo_member, url):
    foreign = bucket_of(demo_member, "Foreign")

    assert signed_in.get(url, chosen(foreign)).status_code == 422


# Before the dip.


def test_the_first_layer_is_what_good_pots_had(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)

    warning = warned(signed_in, url, bucket)

    assert warning.say == "Limpet usually comes out at about 0.60 mm"
    assert (warning.trust, warning.n, warning.cautions) == ("usual", 3, ())


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
    assert warning.working.startswith("Hedgelay outside 0.50 + Hedgelay outside ")
    assert warning.working.endswith(" + this one 0.60.")
    assert warning.cautions == ("Hedgelay runs above 0.7 mm, so this may run.",)


def test_layers_of_one_side_add_up(signed_in, member, form, pot, bucket, url):
    good_pots(member, form, bucket, 0.6)
    coat_of(member, pot, bucket, 0.4, hours_ago=30)
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, url, bucket)

    assert warning.say == "Third layer at the lip: about 1.50 mm"
    assert warning.working == "Limpet outside 0.40 + Limpet outside 0.50 + this one 0.60."


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
    assert (warning.working, warning.trust) == ("There now: Limpet outside 0.50.", "")


def test_without_good_pots_a_known_limit_is_still_said(signed_in, member, pot, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    coat_of(member, pot, runny, 0.5, hours_ago=20)

    warning = warned(signed_in, url, runny)

    assert warning.cautions == ("Hedgelay runs above 0.70 mm, all layers together.",)


def test_good_coats_on_general_outlines_tell_no_thickness(signed_in, member, bucket, url):
    good_pots(member, None, bucket, 0.5, 0.5, 0.5)

    assert warned(signed_in, url, bucket).trust == ""


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

    assert warning.say == "Limpet usually comes out at about 0.50 mm"


def test_a_layer_on_a_general_outline_is_called_a_guess(signed_in, member, form, bucket):
    pot = pot_of(member, None, name="odd bowl")
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pot, bucket, 0.5, hours_ago=20)

    warning = warned(signed_in, f"/ware/pots/{pot.pk}/dip/", bucket)

    assert "The form is not drawn, so these millimetres are a guess." in warning.cautions


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


# The dip itself.


def test_a_dip_is_kept_without_javascript_and_answered_on_its_own_page(signed_in, pot, bucket, url):
    sent = chosen(bucket, entry_id="dip-1", before_g="1000", after_g="1060", seconds="3")

    reply = signed_in.post(url, sent)

    coat = mine(Coat).get()
    assert reply["Location"] == f"/ware/coats/{coat.pk}/"
    assert (coat.pot, coat.bucket, coat.side, coat.extent, coat.how) == (
        pot,
        bucket,
        "outside",
        "whole",
        "dipped",
    )
    assert (coat.before_g, coat.after_g, coat.seconds, coat.beneath) == (1000, 1060, 3, "")


def test_a_dip_needs_no_scale(signed_in, bucket, url):
    reply = signed_in.post(url, chosen(bucket, how="sprayed"))

    page = signed_in.get(reply["Location"])
    assert page.context["answer"].say == "Kept. How thick it is cannot be told."
    assert "It was not weighed before and after." in text_of(page)
    assert "with a mask fit for fine dust" in text_of(page)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"before_g": "1000", "after_g": "990"}, "After the dip it weighs 990 g, no more than"),
        ({"before_g": "1000", "after_g": "1000"}, "no more than the 1000 g before"),
        ({"after_g": "1060"}, "What did it weigh before the dip?"),
        ({"before_g": "heavy", "after_g": "1060"}, "heavy"),
        ({"seconds": "4000"}, "seconds from 0 to 600"),
        ({"lip_cm": "0"}, "centimetres from 0.1 to 100"),
        ({"how": "thrown"}, "thrown"),
    ],
)
def test_an_impossible_dip_is_explained_and_not_stored(signed_in, bucket, url, typed, says):
    reply = signed_in.post(url, chosen(bucket, **typed))

    assert reply.status_code == 422
    assert says in text_of(reply)
    assert not mine(Coat).exists()


def test_a_dip_out_of_no_bucket_is_asked_again(signed_in, bucket, url):
    reply = signed_in.post(url, {"side": "outside", "extent": "whole", "before_g": "9"})

    assert reply.status_code == 422
    assert "Which bucket? Tap one." in text_of(reply)
    assert not mine(Coat).exists()


def test_others_and_unknown_pots_get_404(stranger, url):
    assert [stranger.get(url).status_code, stranger.post(url).status_code] == [404, 404]
    assert stranger.get("/ware/pots/no-such-pot/dip/").status_code == 404


def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.delete(url).status_code == 405


def test_the_same_dip_sent_twice_is_kept_once_and_taken_back(signed_in, pot, bucket, url):
    sent = chosen(bucket, entry_id="dip-2", before_g="1000", after_g="1060")
    replies = [signed_in.post(url, sent) for _ in range(2)]
    kept = mine(Coat).count()
    undo = signed_in.get(replies[0]["Location"]).context["undo"]
    back = signed_in.post(undo["url"], {"next": undo["next"]})

    assert (kept, mine(Coat).count()) == (1, 0)
    assert back["Location"] == f"/ware/pots/{pot.pk}/"


@pytest.mark.parametrize("coats", [1, 12])
def test_each_page_of_a_dip_needs_twelve_queries_at_most(
    signed_in, member, form, pot, bucket, url, django_assert_max_num_queries, coats
):
    good_pots(member, form, bucket, *[0.5] * coats)
    plank(member, [pot, pot_of(member, form)])
    for n in range(coats):
        coat = coat_of(member, pot, bucket, 0.4, hours_ago=n + 1)
        keep(Weighing, member, pot=pot, weight_g=1000, state="glazed")

    with django_assert_max_num_queries(12):
        signed_in.get(url)
    with django_assert_max_num_queries(12):
        signed_in.get(url, chosen(bucket))
    with django_assert_max_num_queries(12):
        signed_in.get(f"/ware/coats/{coat.pk}/")


# After the dip.


def answered(client, url, bucket, mm, before_g=1000.0):
    after_g = before_g + slop_g_for(mm)
    sent = chosen(bucket, before_g=f"{before_g:.2f}", after_g=f"{after_g:.2f}")
    reply = client.post(url, sent)
    return client.get(reply["Location"])


@pytest.mark.parametrize(
    ("mm", "word"), [(0.2, "Thin."), (0.6, "As usual."), (0.75, "As usual."), (1.2, "Thick.")]
)
def test_a_coat_has_its_word_from_good_pots(signed_in, member, form, bucket, url, mm, word):
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)

    page = answered(signed_in, url, bucket, mm)

    assert page.context["answer"].say == word
    assert page.context["answer"].against == "Good Limpet coats: 0.50 to 0.70 mm, 3 of them."


def test_under_three_good_pots_there_is_no_word(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.5, 0.6)

    answer = answered(signed_in, url, bucket, 0.6).context["answer"]

    assert answer.say == "About 0.60 mm."
    assert "it takes three good pots with Limpet" in answer.against


def test_grams_water_and_share_are_told_with_their_doubt(signed_in, bucket, url):
    page = answered(signed_in, url, bucket, 0.6)

    answer = page.context["answer"]
    slop_g = slop_g_for(0.6)
    glaze_g, water_g = slop_g * DRY_FRACTION, slop_g * (1 - DRY_FRACTION)
    assert answer.millimetres == "0.60 mm"
    assert answer.grams.startswith(f"{glaze_g:.0f} g of glaze (")
    assert answer.grams.endswith(
        f") and {water_g:.0f} g of water, {100 * water_g / 1000:.1f} % of the pot."
    )
    low, high = (float(end) for end in answer.doubt.strip("()").split("–"))
    assert low < 0.6 < high
    assert answer.trust == "worked-out"


def test_much_water_is_warned_of(signed_in, bucket, url):
    sent = chosen(bucket, before_g="500", after_g=f"{500 + 45 / (1 - DRY_FRACTION):.1f}")
    reply = signed_in.post(url, sent)

    cautions = signed_in.get(reply["Location"]).context["answer"].cautions

    assert any(caution.startswith("9 % of the pot's weight in water") for caution in cautions)


def test_a_bucket_nobody_weighed_says_what_to_do(signed_in, member, url):
    unweighed = bucket_of(member, "Samphire", weighed=False)

    answer = answered(signed_in, url, unweighed, 0.6).context["answer"]

    assert answer.say == "Kept. How thick it is cannot be told."
    assert answer.against.startswith("Its bucket was never weighed: fill the bottle")


def test_on_a_general_outline_only_grams_are_told(signed_in, member, bucket):
    pot = pot_of(member, None, name="odd bowl")

    answer = answered(signed_in, f"/ware/pots/{pot.pk}/dip/", bucket, 0.6).context["answer"]

    assert answer.say == f"{slop_g_for(0.6) * DRY_FRACTION:.0f} g on it."
    assert answer.millimetres == ""
    assert answer.against == "To know how thick that is, draw the pot's form once."


def test_layers_that_may_run_are_said_after_the_dip_too(signed_in, member, pot, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    coat_of(member, pot, runny, 0.5, hours_ago=20)

    answer = answered(signed_in, url, runny, 0.5).context["answer"]

    assert answer.layers == "2 layers at the lip now: 1.00 mm"
    assert answer.cautions == ["Hedgelay runs above 0.7 mm, so this may run."]


@pytest.mark.parametrize(
    ("runs_above_mm", "says"),
    [
        (1.1, ["Close to the 1.1 mm above which Hedgelay runs."]),
        (3.0, []),
        (None, []),
    ],
)
def test_layers_near_and_far_from_their_limit(signed_in, member, pot, url, runs_above_mm, says):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=runs_above_mm)
    coat_of(member, pot, runny, 0.5, hours_ago=20)

    answer = answered(signed_in, url, runny, 0.5).context["answer"]

    assert answer.cautions == says


def test_a_limit_elsewhere_on_the_pot_is_not_this_coats_matter(signed_in, member, pot, bucket):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    coat_of(member, pot, runny, 0.5, hours_ago=20, extent="below the lip")
    coat_of(member, pot, runny, 0.5, hours_ago=10, extent="below the lip")
    inside = coat_of(member, pot, bucket, 0.5, hours_ago=5, side="inside", extent="below the lip")

    answer = signed_in.get(f"/ware/coats/{inside.pk}/").context["answer"]

    assert (answer.layers, answer.cautions) == ("", [])


def test_the_next_coat_is_one_tap_away(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5, side="inside")

    body = signed_in.get(f"/ware/coats/{coat.pk}/").content.decode()

    assert f"/ware/pots/{pot.pk}/dip/?side=outside" in body


def test_a_coat_remembered_by_its_glaze_alone_has_its_page(signed_in, member, pot, bucket):
    coat = keep(Coat, member, pot=pot, glaze=bucket.glaze, side="outside", remembered="I think")

    assert signed_in.get(f"/ware/coats/{coat.pk}/").status_code == 200


def test_a_coat_of_others_and_an_unknown_one_are_404(member, pot, bucket, stranger):
    coat = coat_of(member, pot, bucket, 0.5)
    addresses = [f"/ware/coats/{coat.pk}/", f"/ware/coats/{coat.pk}/right/", "/ware/coats/none/"]

    assert [stranger.get(address).status_code for address in addresses] == [404, 404, 404]
    assert stranger.post(f"/ware/coats/{coat.pk}/others/").status_code == 404


# The others on the board, and putting right.


def board_of_seven(member, form):
    pots = [pot_of(member, form) for _ in range(7)]
    return plank(member, pots), pots


def test_the_others_on_the_board_get_the_same_coat(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1, seconds=3)

    for _ in range(2):
        signed_in.post(f"/ware/coats/{coat.pk}/others/", {"entry_id": "alike"})

    likes = mine(Coat).filter(like=coat)
    assert {like.pot for like in likes} == set(pots[1:])
    assert {(c.bucket, c.side, c.extent, c.seconds, c.after_g) for c in likes} == {
        (bucket, "outside", "whole", 3, None)
    }
    answer = signed_in.get(f"/ware/coats/{likes[0].pk}/").context["answer"]
    assert (answer.trust, answer.trust_n, answer.millimetres) == ("usual", "1 of 7", "0.60 mm")


def test_the_offer_is_gone_once_taken_and_undo_takes_it_back(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    url = f"/ware/coats/{coat.pk}/"
    before = signed_in.get(url).context["others"]
    signed_in.post(f"{url}others/", {"entry_id": "alike"})
    page = signed_in.get(url)
    signed_in.post(page.context["undo"]["url"])

    assert (before, page.context["others"], page.context["likes"]) == (6, 0, 6)
    assert list(mine(Coat)) == [coat]


def test_a_pot_of_another_form_is_not_taken_for_weighed(signed_in, member, form, bucket):
    odd = pot_of(member, cylinder(member, "tall one"))
    pots = [pot_of(member, form), pot_of(member, form), odd]
    plank(member, pots)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    said = signed_in.get(f"/ware/coats/{coat.pk}/").context["unlike"]

    signed_in.post(f"/ware/coats/{coat.pk}/others/")

    got = {one.pot: one.like for one in mine(Coat).exclude(pk=coat.pk)}
    assert said == 1
    assert got == {pots[1]: coat, odd: None}


def test_pots_without_a_form_are_alike_where_one_tap_made_them(signed_in, member, bucket):
    signed_in.post("/ware/new/several/", {"entry_id": "seven", "how_many": "3"})
    pots = list(mine(Pot).order_by("pk"))
    stranger_pot = pot_of(member, None)
    plank(member, [*pots, stranger_pot])
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    signed_in.post(f"/ware/coats/{coat.pk}/others/")

    assert {one.pot for one in mine(Coat).filter(like=coat)} == set(pots[1:])


def test_only_a_post_dips_the_others(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)

    assert signed_in.get(f"/ware/coats/{coat.pk}/others/").status_code == 405


def test_an_id_that_is_taken_is_said_and_nothing_is_dipped(
    signed_in, demo_member, member, form, bucket
):
    foreign = pot_of(demo_member, None)
    keep(
        Coat,
        demo_member,
        entry_id="taken-01",
        pot=foreign,
        bucket=bucket_of(demo_member, "Foreign"),
        side="inside",
    )
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    reply = signed_in.post(f"/ware/coats/{coat.pk}/others/", {"entry_id": "taken"}, follow=True)

    assert "an id that is taken. Reload the page." in text_of(reply)
    assert list(mine(Coat)) == [coat]


def test_a_coat_is_put_right_with_those_weighed_by_it(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    signed_in.post(f"/ware/coats/{coat.pk}/others/")
    after_g = 1000 + slop_g_for(0.4)

    reply = signed_in.post(
        f"/ware/coats/{coat.pk}/right/",
        chosen(bucket, entry_id="right", before_g="1000", after_g=f"{after_g:.2f}"),
    )

    right = Coat.objects.current().get(pot=pots[0])
    others = Coat.objects.current().filter(pot__in=pots[1:])
    assert reply["Location"] == f"/ware/coats/{right.pk}/"
    assert (right.corrects, right.at) == (coat, coat.at)
    assert {one.like for one in others} == {right}
    assert signed_in.get(reply["Location"]).context["answer"].say == "About 0.40 mm."


def test_a_remembered_glaze_is_put_right_by_a_bucket(signed_in, member, pot, bucket):
    coat = keep(Coat, member, pot=pot, glaze=bucket.glaze, side="outside", remembered="I think")

    signed_in.post(f"/ware/coats/{coat.pk}/right/", chosen(bucket))

    right = Coat.objects.current().get(pot=pot)
    assert (right.bucket, right.glaze, right.corrects) == (bucket, None, coat)


def test_the_page_of_putting_right_holds_what_was_kept(signed_in, member, pot, bucket):
    keep(BucketEvent, member, bucket=bucket, kind="emptied")
    coat = coat_of(member, pot, bucket, 0.5, before_g=1000.0)

    form = signed_in.get(f"/ware/coats/{coat.pk}/right/").context["form"]

    assert (form["before_g"].value(), form["bucket"].value()) == ("1000", bucket.pk)


def test_an_impossible_correction_is_explained_and_not_stored(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)

    reply = signed_in.post(
        f"/ware/coats/{coat.pk}/right/", chosen(bucket, before_g="1000", after_g="900")
    )

    assert reply.status_code == 422
    assert list(mine(Coat)) == [coat]
