"""After the dip: thin, as usual or thick, millimetres, and water."""

import pytest
from ware_samples import (
    DRY_FRACTION,
    answered,
    bucket_of,
    chosen,
    coat_of,
    good_pots,
    pot_of,
    slop_g_for,
)

from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Coat


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


@pytest.mark.parametrize(
    ("mm", "word"), [(0.2, "Thin."), (0.6, "As usual."), (0.75, "As usual."), (1.2, "Thick.")]
)
def test_a_coat_has_its_word_from_good_pots(signed_in, member, form, bucket, url, mm, word):
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)

    page = answered(signed_in, url, bucket, mm)

    assert page.context["answer"].say == word
    assert page.context["answer"].against == (
        "Good Limpet coats: 0.50 to 0.70 mm. Counted: 3 weighed coats that came out good."
    )


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


def test_a_coat_that_is_none_is_said_and_the_pot_still_shows(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 25)

    answer = signed_in.get(f"/ware/coats/{coat.pk}/").context["answer"]

    assert answer.say == "Kept. How thick it is cannot be told."
    assert answer.against == "25 mm, which is no coat: a weight or the outline is wrong."
    assert signed_in.get(f"/ware/pots/{pot.pk}/").status_code == 200


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
