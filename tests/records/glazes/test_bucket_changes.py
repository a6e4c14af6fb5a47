"""What was done to a bucket: water in, water off, drawn, emptied, each with its undo."""

import pytest

from wareboard.records.glazes.models import BucketEvent

BUCKET = "/glazes/buckets/limpet-bucket-2/"
CHANGE = f"{BUCKET}change/"


def events():
    return BucketEvent.objects.standing().filter(bucket="limpet-bucket-2").exclude(kind="filled")


@pytest.mark.parametrize("kind", ["water in", "water off", "drawn"])
def test_two_taps_keep_what_was_done(demo_client, kind):
    reply = demo_client.post(CHANGE, {"entry_id": "e-1", "kind": kind, "amount_l": "0,4"})

    assert (reply.status_code, reply["Location"]) == (302, BUCKET)
    assert [(event.kind, event.amount_ml) for event in events()] == [(kind, 400)]


def test_emptied_needs_no_amount(demo_client):
    demo_client.post(CHANGE, {"entry_id": "e-1", "kind": "emptied", "amount_l": ""})

    page = demo_client.get(BUCKET).context
    assert [(event.kind, event.amount_ml) for event in events()] == [("emptied", None)]
    assert (page["empty"], page["litres"]) == (True, "")
    assert page["answer"].say == "It is empty."
    assert page["answer"].working.startswith("Emptied on ")
    assert (page["left"], page["pots"]) == (None, None)


def test_a_bucket_drawn_from_until_nothing_can_be_left_says_so(demo_client):
    demo_client.post(CHANGE, {"entry_id": "e-1", "kind": "drawn", "amount_l": "7"})

    answer = demo_client.get(BUCKET).context["answer"]

    assert answer.say == "Nothing can be left in it."
    assert answer.fill


def test_sent_twice_it_is_kept_once(demo_client):
    for _ in range(2):
        demo_client.post(CHANGE, {"entry_id": "e-1", "kind": "water in", "amount_l": "0.4"})

    assert events().count() == 1


def test_it_is_taken_back_from_the_foot_of_the_page(demo_client):
    demo_client.post(CHANGE, {"entry_id": "e-1", "kind": "water in", "amount_l": "0.4"})

    undo = demo_client.get(BUCKET).context["undo"]
    demo_client.post(undo["url"])

    assert undo["say"] == "Kept: water added: 0.4 l."
    assert not events().exists()


@pytest.mark.parametrize(
    ("told", "field", "say"),
    [
        (
            {"kind": "water in", "amount_l": ""},
            "amount_l",
            "How much? Nothing is written here; accepted is litres, such as 0.4.",
        ),
        (
            {"kind": "water in", "amount_l": "a cup"},
            "amount_l",
            (
                'How much? "a cup" is not a number; '
                "accepted is litres above 0 and up to 10000, such as 5."
            ),
        ),
        (
            {"kind": "powder in", "amount_l": "1"},
            "kind",
            "Select a valid choice. powder in is not one of the available choices.",
        ),
    ],
)
def test_what_cannot_be_is_explained_and_not_kept(demo_client, told, field, say):
    reply = demo_client.post(CHANGE, told)

    assert reply.status_code == 422
    assert reply.context["change_form"].errors[field] == [say]
    assert not events().exists()


def test_a_bucket_gets_another_name(demo_client):
    replies = [demo_client.post(f"{BUCKET}name/", {"name": "Limpet, red lid"}) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, BUCKET)] * 2
    assert demo_client.get(BUCKET).context["bucket"].name == "Limpet, red lid"


def test_a_bucket_without_a_name_is_refused(demo_client):
    reply = demo_client.post(f"{BUCKET}name/", {"name": ""})

    assert reply.status_code == 422
    assert reply.context["form"].errors["name"] == [
        "What is written on it? Nothing is written here yet."
    ]
