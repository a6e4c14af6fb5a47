"""Rows with what they name, each named row made once."""

from django.utils import timezone

from wareboard.records.glazes.models import Bucket, Glaze
from wareboard.records.people.entry import keep
from wareboard.records.people.read_once import read_once
from wareboard.records.ware.models import Coat, Form, Pot

NAMED = ("bucket__glaze", "glaze", "pot__form", "like")


def coats(member) -> list[Coat]:
    """Keep two pots of one form, dipped in one bucket, and one whose glaze is remembered."""
    glaze = keep(Glaze, member, name="Alder")
    bucket = keep(Bucket, member, glaze=glaze, name="Alder, old bucket")
    form = keep(Form, member, name="mug")
    first, second = (keep(Pot, member, form=form, at=timezone.now()) for _ in range(2))
    odd = keep(Pot, member, name="odd one")
    weighed = keep(Coat, member, pot=first, bucket=bucket, side="inside", before_g=400, after_g=430)
    return [
        weighed,
        keep(Coat, member, pot=second, bucket=bucket, side="inside", like=weighed),
        keep(Coat, member, pot=odd, glaze=glaze, side="outside"),
    ]


def said(coat: Coat) -> tuple[object, ...]:
    """Give everything that is asked of a coat and of what it names."""
    bucket, form = coat.bucket, coat.pot.form
    return (
        coat.pk,
        coat.at,
        coat.before_g,
        bucket and (bucket.name, bucket.at, bucket.glaze.name),
        coat.glaze and coat.glaze.name,
        coat.pot.name,
        form and form.name,
        coat.like and coat.like.before_g,
    )


def test_it_says_the_same_as_reading_each_row_by_itself(member):
    coats(member)
    rows = Coat.objects.filter(studio=member.studio_id).order_by("kept_at", "pk")

    assert [said(coat) for coat in read_once(rows, *NAMED)] == [said(coat) for coat in rows]


def test_it_asks_once_and_nothing_more_when_rows_are_looked_into(member, django_assert_num_queries):
    coats(member)

    with django_assert_num_queries(1):
        found = read_once(Coat.objects.filter(studio=member.studio_id), *NAMED)
        said_of_all = [said(coat) for coat in found]

    assert len(said_of_all) == 3


def test_what_two_rows_name_is_one_object(member):
    first, second, odd = coats(member)

    found = {c.pk: c for c in read_once(Coat.objects.filter(studio=member.studio_id), *NAMED)}

    assert found[first.pk].bucket is found[second.pk].bucket
    assert found[first.pk].pot.form is found[second.pk].pot.form
    assert found[odd.pk].glaze is found[first.pk].bucket.glaze
    assert found[odd.pk].bucket is None
