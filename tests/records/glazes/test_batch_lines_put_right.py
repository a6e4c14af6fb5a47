"""What went into a batch put right: a second line stands for the first wherever it counts."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.glazes.actions import mix_batch
from wareboard.records.glazes.models import Batch, BatchLine, Bucket, BucketEvent
from wareboard.records.glazes.queries import recipe_of
from wareboard.records.glazes.solids import solids_of
from wareboard.records.people.entry import EntryRefused, keep
from wareboard.records.people.undoing import undo
from wareboard.records.stores.models import Sheet
from wareboard.records.ware.books import BucketBooks
from wareboard.records.ware.models import Coat, Pot
from wareboard.records.ware.past_coats import PastBooks

BATCH = "/glazes/batches/my-batch/"
RIGHT = "/glazes/batch-lines/my-batch-001/"
TOLD = {"entry_id": "c-1", "weighed_g": "6000", "lot": "fel-a"}
LAST_WEEK = timezone.now() - timedelta(days=7)


def lines(stores):
    return [
        BatchLine(material=stores["feldspar"], lot_id="fel-a", weighed_g=600),
        BatchLine(material=stores["whiting"], lot_id="whi-a", weighed_g=4000),
    ]


def mix(member, glaze, powders, entry_id="my-batch", **facts):
    return mix_batch(member, recipe_of(member, glaze.pk), lines=powders, entry_id=entry_id, **facts)


@pytest.fixture
def batch(member, stores, rill):
    """A batch mixed a week ago, with a slip: 600 g of feldspar for 6000."""
    made = mix(member, rill, lines(stores), at=LAST_WEEK)
    for model in (Batch, BatchLine):
        model.objects.filter(studio=member.studio).update(kept_at=LAST_WEEK)
    return made


def current():
    return BatchLine.objects.current().filter(batch="my-batch").order_by("position")


def test_the_page_of_the_batch_leads_to_it(signed_in, batch):
    assert f'href="{RIGHT}"' in signed_in.get(BATCH).content.decode()


def test_it_begins_with_what_was_written(signed_in, batch):
    page = signed_in.get(RIGHT).context

    assert page["was"] == "600 g, bag A"
    assert {name: page["form"][name].value() for name in ("weighed_g", "lot")} == {
        "weighed_g": "600",
        "lot": "fel-a",
    }


def test_a_second_line_names_the_first_and_keeps_its_place_and_time(signed_in, batch):
    reply = signed_in.post(RIGHT, TOLD)

    right = current().first()
    assert (reply.status_code, reply["Location"]) == (302, BATCH)
    assert (right.corrects_id, right.weighed_g, right.position) == ("my-batch-001", 6000, 1)
    assert (right.at, right.material_id) == (LAST_WEEK, "my-fel")
    assert BatchLine.objects.get(pk="my-batch-001").weighed_g == 600


def test_the_page_of_the_batch_counts_what_is_right_and_says_what_it_was(signed_in, batch):
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(BATCH).context
    assert page["total"] == "10000 g"
    assert [(row["grams"], row["was"]) for row in page["own"]] == [
        ("6000 g", "corrected, was 600 g"),
        ("4000 g", ""),
    ]


def test_another_bag_is_told_on_the_pages_of_both(signed_in, batch):
    signed_in.post(RIGHT, {**TOLD, "weighed_g": "600", "lot": "fel-b"})

    pages = {lot: signed_in.get(f"/stores/lots/{lot}/").context for lot in ("fel-a", "fel-b")}
    assert [line["grams"] for line in pages["fel-a"]["batches"]] == []
    assert [line["grams"] for line in pages["fel-b"]["batches"]] == ["600 g"]
    assert signed_in.get(BATCH).context["own"][0]["was"] == "corrected, was bag A"


def test_a_line_that_nobody_weighed_gets_its_grams(signed_in, batch):
    signed_in.post(RIGHT, {**TOLD, "weighed_g": ""})
    signed_in.post(RIGHT, TOLD)

    assert [line.weighed_g for line in current()] == [6000, 4000]
    assert signed_in.get(BATCH).context["own"][0]["was"] == "corrected, was not weighed"


def test_the_density_of_the_powder_rests_on_what_is_right(signed_in, member, stores, batch):
    keep(Sheet, member, material=stores["feldspar"], standing="certified", density_g_cm3=5.0)
    before = solids_of([batch])[batch.pk].result.solid_density_g_cm3

    signed_in.post(RIGHT, TOLD)

    # Volumes add up: 600/5 + 4000/2.5 ml hold 4600 g, 6000/5 + 4000/2.5 ml hold 10 000 g.
    after = solids_of([batch])[batch.pk].result.solid_density_g_cm3
    assert before == pytest.approx(4600 / 1720)
    assert after == pytest.approx(10_000 / 2800)


@pytest.mark.parametrize("books", [BucketBooks, PastBooks])
def test_a_coat_dipped_before_rests_on_what_is_right(signed_in, member, rill, batch, books):
    bucket = keep(Bucket, member, glaze=rill, name="Rill", at=LAST_WEEK)
    keep(BucketEvent, member, bucket=bucket, kind="filled", batch=batch, at=LAST_WEEK)
    pot = keep(Pot, member, name="A cup")
    coat = keep(Coat, member, pot=pot, bucket=bucket, side="inside")

    signed_in.post(RIGHT, TOLD)

    assert [line.weighed_g for line in books([coat]).lines[batch.pk]] == [6000, 4000]


def test_the_same_page_sent_twice_ends_alike_and_is_kept_once(signed_in, batch):
    replies = [signed_in.post(RIGHT, TOLD) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, BATCH)] * 2
    assert BatchLine.objects.filter(batch=batch).count() == 3


def test_an_old_page_puts_right_what_stands_now(signed_in, batch):
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(RIGHT).context
    signed_in.post(RIGHT, {**TOLD, "entry_id": "c-2", "weighed_g": "6010"})

    assert page["was"] == "6000 g, bag A"
    assert (current().first().weighed_g, current().first().corrects_id) == (6010, "c-1")


def test_it_is_taken_back_from_the_foot_of_the_batch(signed_in, batch):
    signed_in.post(RIGHT, TOLD)

    undo_link = signed_in.get(BATCH).context["undo"]
    signed_in.post(undo_link["url"])

    assert undo_link["say"] == "Put right: feldspar, 6000 g, bag A."
    assert [line.pk for line in current()] == ["my-batch-001", "my-batch-002"]


def test_a_batch_that_is_taken_back_takes_its_lines_along(member, stores, rill):
    batch = mix(member, rill, lines(stores))

    undo(batch)

    assert not current().exists()
    assert BatchLine.objects.filter(batch=batch).count() == 2


def test_a_batch_of_which_a_line_was_put_right_stays(signed_in, member, stores, rill):
    batch = mix(member, rill, lines(stores))
    signed_in.post(RIGHT, TOLD)

    with pytest.raises(EntryRefused):
        undo(batch)

    assert current().count() == 2


def test_a_batch_sent_again_after_a_line_was_put_right_is_kept_once(
    signed_in, member, stores, rill, batch
):
    signed_in.post(RIGHT, TOLD)

    again = mix(member, rill, lines(stores))

    assert again == batch
    assert [line.weighed_g for line in current()] == [6000, 4000]


def test_an_old_page_sent_again_with_other_grams_is_another_batch(member, stores, rill, batch):
    told = lines(stores)
    told[0].weighed_g = 700

    other = mix(member, rill, told)

    assert (other.number, other.lines.count()) == (2, 2)
    assert [line.weighed_g for line in current()] == [600, 4000]


def test_what_cannot_be_is_explained_and_not_kept(signed_in, batch):
    reply = signed_in.post(RIGHT, {**TOLD, "weighed_g": "a scoop"})

    assert reply.status_code == 422
    assert reply.context["form"].errors["weighed_g"] == [
        'What the scale said: "a scoop" is not a number; accepted is grams from 0 to 10000000.'
    ]
    assert current().first().pk == "my-batch-001"


def test_a_line_of_another_studio_is_not_found(stranger, batch):
    assert stranger.get(RIGHT).status_code == 404
    assert stranger.post(RIGHT, TOLD).status_code == 404


def test_a_line_that_was_never_kept_is_not_found(signed_in, batch):
    assert signed_in.get("/glazes/batch-lines/nobody/").status_code == 404


def test_it_takes_no_other_method(signed_in, batch):
    assert signed_in.put(RIGHT).status_code == 405
