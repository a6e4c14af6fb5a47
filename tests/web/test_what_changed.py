"""The page that asks what changed."""

import pytest

from wareboard.core.why import Piece, Strand, count_changes, find_change
from wareboard.web.pages.change_answer import answer_for

URL = "/shelf/what-changed/"


def test_it_asks_before_it_answers(demo_client):
    reply = demo_client.get(URL)

    assert reply.status_code == 200
    assert "answer" not in reply.context


def test_it_answers_without_javascript_and_as_a_fragment_with_it(demo_client):
    asked = {"glaze": "limpet", "fault": "pinhole"}

    page = demo_client.get(URL, asked)
    fragment = demo_client.get(URL, asked, headers={"HX-Request": "true"})

    assert page.content.lstrip().startswith(b"<!doctype html>")
    assert b'<section id="changed"' in fragment.content
    assert b"<!doctype" not in fragment.content


@pytest.mark.parametrize(
    "asked",
    [
        {"glaze": "limpet", "fault": "ugly"},
        {"glaze": "no-such-glaze", "fault": "pinhole"},
        {"glaze": "limpet", "fault": "pinhole", "until": "yesterday"},
    ],
)
def test_what_cannot_be_asked_is_explained(demo_client, asked):
    reply = demo_client.get(URL, asked)

    assert reply.status_code == 422
    assert reply.context["form"].errors


def test_another_studio_s_glaze_is_not_on_the_list(stranger, demo):
    reply = stranger.get(URL, {"glaze": "limpet", "fault": "pinhole"})

    assert reply.status_code == 422
    assert list(reply.context["form"].fields["glaze"].queryset) == []


def test_nothing_is_posted_to_it(demo_client):
    assert demo_client.post(URL).status_code == 405


def test_of_many_pots_the_newest_are_drawn_and_all_are_counted(demo_client, monkeypatch):
    monkeypatch.setattr("wareboard.web.pages.what_changed.ON_PLANK", 1)

    found = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).context

    drawn = [len(found[name]) for name in ("bad", "good")]
    more = [found["more"][name] for name in ("bad", "good")]
    assert drawn == [1, 1]
    assert [n + 1 for n in more] == [found["finding"].faulty, found["finding"].sound]


def test_of_very_many_pots_only_the_newest_are_compared_and_it_says_so(demo_client, monkeypatch):
    monkeypatch.setattr("wareboard.records.shelf.evidence.MOST", 2)
    monkeypatch.setattr("wareboard.web.pages.what_changed.MOST", 2)

    reply = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"})

    assert reply.context["finding"].faulty + reply.context["finding"].sound <= 2
    assert "only the newest 2 are held side by side" in reply.content.decode()


def finding_of_six(*, remembered):
    pieces = [
        Piece(str(n), faulty=n < 3, attributes={"batch": "ab"[n < 3]}, remembered=remembered)
        for n in range(6)
    ]
    return find_change(pieces, count_changes(pieces, {"batch": Strand.MIX}))


def test_what_is_only_remembered_is_said_to_be_so_and_a_pair_is_asked_for():
    answer = answer_for(finding_of_six(remembered=True), "Limpet")

    assert answer.title == "Cannot tell yet: b fits, but partly from memory."
    assert answer.text == (
        "3 with the fault, 3 without. 6 of these pieces are only remembered; "
        "those written down at the time are not enough alone."
    )
    assert answer.next_test == "Put one piece from each bucket side by side in the next load."


def test_a_pair_that_was_fired_side_by_side_is_named_and_not_asked_for_again():
    answer = answer_for(finding_of_six(remembered=False), "Limpet", ("firing 5", "middle shelf"))

    assert answer.text.endswith(
        "One of each was fired side by side in firing 5 (middle shelf); it is not certain."
    )
    assert answer.next_test == ""
