"""Weighings that must not talk a wet pot into the kiln."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.core.drying import Sign
from wareboard.records.glazes.models import Bucket, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.ware.drying import judge_pots
from wareboard.records.ware.models import Air, Coat, Form, Pot, Weighing

HOUR = timedelta(hours=1)
NOW = timezone.now()


@pytest.fixture
def pot(member):
    keep(Air, member, word="fog", rh_percent=87, at=NOW - 2 * HOUR)
    return keep(Pot, member, name="casserole", at=NOW - 300 * HOUR)


def weigh(member, pot, grams: float, state: str, hours_ago: float) -> None:
    keep(Weighing, member, pot=pot, weight_g=grams, state=state, at=NOW - hours_ago * HOUR)


def sign(member, pot, hours_ago: float = 0) -> Sign:
    (lit,), _air, _coats = judge_pots(member, [pot], NOW - hours_ago * HOUR)
    return lit.answer.result.sign


def test_a_pot_ninety_six_grams_over_is_a_stop(member, pot):
    weigh(member, pot, 1800, "bone dry", 90)
    weigh(member, pot, 1896, "leather-hard", 1)

    assert sign(member, pot) is Sign.STOP


@pytest.mark.parametrize("state", ["bone dry", "dry on the shelf"])
def test_calling_it_dry_later_does_not_make_it_so(member, pot, state):
    weigh(member, pot, 1800, "bone dry", 90)
    weigh(member, pot, 1896, state, 1)

    assert sign(member, pot) is Sign.STOP


def test_a_coat_put_on_after_the_moment_is_not_taken_off_before_it(member, pot):
    bucket = keep(Bucket, member, glaze=keep(Glaze, member, name="Rill"), name="Rill")
    keep(Reading, member, bucket=bucket, full_g=745, empty_g=212, volume_ml=365, at=NOW - 99 * HOUR)
    weigh(member, pot, 1800, "bone dry", 90)
    weigh(member, pot, 1896, "leather-hard", 50)
    keep(
        Coat,
        member,
        pot=pot,
        bucket=bucket,
        side="outside",
        before_g=1700,
        after_g=1900,
        at=NOW - 10 * HOUR,
    )

    assert sign(member, pot, hours_ago=49) is Sign.STOP


@pytest.mark.parametrize(("hours", "told"), [(2, Sign.GO), (23, Sign.CANNOT_TELL)])
def test_a_proof_takes_about_two_hours_and_not_a_day(member, pot, hours, told):
    weigh(member, pot, 1800, "before the proof", hours)
    weigh(member, pot, 1799, "after the proof", 0)

    assert sign(member, pot) is told


def test_a_pot_called_white_dry_does_not_prove_itself_dry(member, pot):
    weigh(member, pot, 900, "dry on the shelf", 0.2)
    weigh(member, pot, 900, "dry on the shelf", 0.1)

    (lit,), _air, _coats = judge_pots(member, [pot], NOW)

    assert lit.answer.result.sign is Sign.CANNOT_TELL
    assert lit.answer.result.reasons[1] == (
        "Its dry weight is this very weighing: nothing else says that it was dry."
    )


def test_white_dry_on_two_days_and_no_lighter_is_dry(member, pot):
    weigh(member, pot, 900, "dry on the shelf", 30)
    weigh(member, pot, 900, "dry on the shelf", 1)

    assert sign(member, pot) is Sign.GO


def test_a_pot_from_the_warm_tray_is_a_go_on_the_word_of_who_weighed_it(member, pot):
    weigh(member, pot, 900, "bone dry", 1)

    (lit,), _air, _coats = judge_pots(member, [pot], NOW)

    assert lit.answer.result.sign is Sign.GO
    assert lit.answer.cautions[-1] == (
        "A go here rests on one weighing: that the pot was bone dry, warm from the tray, is your "
        "word."
    )


@pytest.mark.parametrize("grams", [1805, 2300])
def test_freshly_thrown_when_last_weighed_is_never_a_go(member, pot, grams):
    weigh(member, pot, 1800, "bone dry", 90)
    weigh(member, pot, 1810, "leather-hard", 10)
    weigh(member, pot, grams, "plastic", 1)

    (lit,), _air, _coats = judge_pots(member, [pot], NOW)

    assert lit.answer is None
    assert lit.refused == "it was freshly thrown when last weighed"


def test_a_hygrometer_that_shows_what_no_room_has_breaks_no_page(member, pot, signed_in):
    keep(Air, member, word="crisp", rh_percent=3)
    weigh(member, pot, 1800, "bone dry", 90)
    weigh(member, pot, 1805, "leather-hard", 1)

    reply = signed_in.post("/kiln/air/", {"word": "crisp", "rh_percent": "3", "next": "/"})

    assert sign(member, pot) in {Sign.GO, Sign.WAIT}
    assert reply.status_code == 422
    assert Air.objects.filter(studio=member.studio_id, rh_percent=3).count() == 1


def test_a_leather_hard_pot_called_bone_dry_a_minute_later_is_not_dry(member, pot):
    weigh(member, pot, 668, "leather-hard", 1)
    weigh(member, pot, 660, "bone dry", 0.9)
    weigh(member, pot, 660, "bone dry", 0.8)

    (lit,), _air, _coats = judge_pots(member, [pot], NOW)

    assert lit.answer.result.sign is Sign.CANNOT_TELL
    assert lit.dry is None
    assert lit.answer.result.reasons[-1] == (
        "660 g was called dry, but leather-hard it weighed 668 g, and leather-hard clay holds about"
        " 15 % water: it was not dry, so that weight does not count."
    )


def test_the_pots_of_its_form_speak_where_its_own_dry_weight_does_not_count(member):
    bowl = keep(Form, member, name="soup bowl")
    for grams in (540, 551, 547):
        weigh(member, keep(Pot, member, form=bowl), grams, "bone dry", 200)
    pot = keep(Pot, member, form=bowl)
    weigh(member, pot, 668, "leather-hard", 1)
    weigh(member, pot, 660, "bone dry", 0.9)

    (lit,), _air, _coats = judge_pots(member, [pot], NOW)

    assert lit.answer.result.sign is Sign.STOP
    assert lit.dry.dry_clay_g == pytest.approx(546)


def test_a_pot_that_dried_since_it_was_leather_hard_has_its_own_dry_weight(member, pot):
    weigh(member, pot, 668, "leather-hard", 50)
    weigh(member, pot, 570, "bone dry", 2)
    weigh(member, pot, 570, "bone dry", 1)

    assert sign(member, pot) is Sign.GO
