"""Which weighing counts as a pot's own dry weight: none that has glaze in it."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.core.drying import Sign
from wareboard.records.glazes.models import Bucket, Glaze
from wareboard.records.people.entry import keep
from wareboard.records.ware.drying import judge_pots
from wareboard.records.ware.models import Air, Coat, Form, Pot, Weighing

NOW = timezone.now()


@pytest.fixture
def form(member):
    return keep(Form, member, name="casserole")


@pytest.fixture
def pot(member, form):
    return keep(Pot, member, form=form, at=NOW - timedelta(days=9))


@pytest.fixture
def bucket(member):
    glaze = keep(Glaze, member, name="Rowan")
    return keep(Bucket, member, glaze=glaze, name="Rowan bucket")


def weigh(member, pot, weight_g, state, hours_ago):
    at = NOW - timedelta(hours=hours_ago)
    keep(Weighing, member, pot=pot, weight_g=weight_g, state=state, at=at)


def dip(member, pot, bucket, hours_ago):
    at = NOW - timedelta(hours=hours_ago)
    keep(Coat, member, pot=pot, bucket=bucket, side="both", at=at)


def test_a_glazed_pot_weighed_bone_dry_is_not_taken_for_its_bare_clay(member, pot, bucket):
    dip(member, pot, bucket, 30)
    weigh(member, pot, 1900, "bone dry", 20)
    weigh(member, pot, 1905, "glazed", 1)

    lits, _air, _coats = judge_pots(member, [pot], NOW)

    assert lits[0].dry is None
    assert lits[0].answer.result.sign is Sign.CANNOT_TELL


def test_the_weighing_before_the_first_coat_counts(member, pot, bucket):
    keep(Air, member, word="ordinary", at=NOW)
    weigh(member, pot, 1800, "bone dry", 40)
    dip(member, pot, bucket, 30)
    weigh(member, pot, 1870, "bone dry", 20)
    weigh(member, pot, 1880, "glazed", 1)

    lits, _air, _coats = judge_pots(member, [pot], NOW)

    assert lits[0].dry.dry_clay_g == 1800


def test_glazed_pots_do_not_count_for_what_their_form_usually_weighs(member, pot, bucket, form):
    other = keep(Pot, member, form=form, at=NOW - timedelta(days=9))
    dip(member, other, bucket, 30)
    weigh(member, other, 1900, "bone dry", 20)
    weigh(member, pot, 1880, "glazed", 1)

    lits, _air, _coats = judge_pots(member, [pot], NOW)

    assert lits[0].dry is None
