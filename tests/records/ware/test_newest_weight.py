"""The newest weight that is known is the one that is told, and what was worked out is called so."""

import re

import pytest
from ware_samples import bucket_of, coat_of, slop_g_for, text_of, weighed

from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Air
from wareboard.records.ware.weighing_answer import when_said


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/weigh/"


def test_a_pot_that_was_dipped_after_its_weighing_says_so(signed_in, member, pot, url):
    weighed(member, pot, 1000, "leather-hard", 5)
    dip = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=1)

    answer = signed_in.get(url).context["answer"]

    grams = f"{1000 + slop_g_for(0.5):.0f} g"
    assert answer.say == f"{grams}, just dipped, {when_said(dip.at)}."
    assert answer.working == "How wet it is cannot be told before it is weighed again."
    assert grams in text_of(signed_in.get(f"/ware/pots/{pot.pk}/"))


def test_of_a_dip_that_nobody_weighed_the_weight_before_it_is_told_as_such(
    signed_in, member, pot, url
):
    now = weighed(member, pot, 1000, "leather-hard", 5)
    coat_of(member, pot, bucket_of(member), 0.5, hours_ago=1, before_g=None)

    page = signed_in.get(url)

    before = f"Before it 1000 g, {when_said(now.at)}, leather-hard"
    assert page.context["answer"].say == "Not weighed since its last dip."
    assert f"{before}. How wet it is cannot be told" in text_of(page)
    assert "As it was" not in text_of(page)
    assert before in text_of(signed_in.get(f"/ware/pots/{pot.pk}/"))


def test_what_a_shelf_dry_pot_weighs_without_the_air_is_worked_out_with_its_doubt(
    signed_in, member, pot, url
):
    keep(Air, member, word="ordinary")
    weighed(member, pot, 1000, "dry on the shelf", 0)

    answer = signed_in.get(url).context["answer"]

    assert (answer.say, answer.trust) == ("1000 g dry.", "measured")
    assert answer.working == "Later weighings are held against this one."
    assert re.fullmatch(
        r"Without what that day's air left in it, 9\d\d g \(9\d\d–\d+\)", answer.less
    )
    assert f"{answer.less} worked out" in text_of(signed_in.get(url))
