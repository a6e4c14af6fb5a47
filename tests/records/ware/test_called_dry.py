"""The page of the scale, where a pot is called dry that is not."""

import pytest
from django.utils import timezone
from ware_samples import cylinder, mine, pot_of, text_of, weighed

from wareboard.core.drying import Sign
from wareboard.records.ware.drying import judge_pots
from wareboard.records.ware.models import Weighing


@pytest.fixture
def pot(member):
    return pot_of(member, cylinder(member))


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/weigh/"


def test_a_pot_far_heavier_than_the_dry_ones_of_its_form_is_asked_about_once(
    signed_in, member, pot, url
):
    for grams in (540, 551, 547):
        weighed(member, pot_of(member, pot.form), grams, "bone dry", 200)
    sent = {"weight_g": "660", "state": "bone dry"}

    asked = signed_in.post(url, sent)
    kept_before = mine(Weighing).filter(pot=pot).count()
    sure = signed_in.post(url, {**sent, "sure": "on"})

    assert asked.status_code == 422
    assert "660 g is 114 g more than pots of its form weigh dry: is it dry all through?" in text_of(
        asked
    )
    assert "I looked again: it is so." in text_of(asked)
    assert kept_before == 0
    assert (sure.status_code, mine(Weighing).filter(pot=pot).count()) == (302, 1)


def test_the_same_is_asked_where_a_weighing_is_put_right(signed_in, member, pot):
    for grams in (540, 551, 547):
        weighed(member, pot_of(member, pot.form), grams, "bone dry", 200)
    wrong = weighed(member, pot, 540, "leather-hard", 1)
    right, sent = f"/ware/weighings/{wrong.pk}/", {"weight_g": "660", "state": "bone dry"}

    asked = signed_in.post(right, sent)
    sure = signed_in.post(right, {**sent, "sure": "on"})

    assert asked.status_code == 422
    assert "is it dry all through?" in text_of(asked)
    assert "I looked again: it is so." in text_of(asked)
    assert (sure.status_code, mine(Weighing).get(corrects=wrong).weight_g) == (302, 660)


def test_pots_called_dry_that_were_damp_do_not_count_for_their_form(member, pot):
    for _ in range(4):
        other = pot_of(member, pot.form)
        weighed(member, other, 1000, "leather-hard", 50)
        weighed(member, other, 980, "bone dry", 20)
    weighed(member, pot, 985, "glazed", 1)

    (lit,), _air, _coats = judge_pots(member, [pot], timezone.now())

    assert lit.answer.result.sign is Sign.CANNOT_TELL
    assert lit.dry is None


def test_a_weight_that_was_called_dry_too_early_says_so(signed_in, member, pot, url):
    weighed(member, pot, 668, "leather-hard", 1)

    signed_in.post(url, {"weight_g": "660", "state": "bone dry"})
    page = text_of(signed_in.get(url))

    assert "660 g. How wet it is cannot be told yet." in page
    assert "it was not dry, so that weight does not count." in page
