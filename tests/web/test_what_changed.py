"""The page that asks what changed."""

import pytest

from wareboard.core.why import Piece, Strand, count_changes, find_change
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import Fault, Verdict
from wareboard.records.ware.models import Pot
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


def test_it_asks_nothing_the_potter_did_not_choose(demo_client):
    form = demo_client.get(URL).context["form"]

    chosen = [str(form[name]).split("selected", 1)[0][-9:] for name in ("glaze", "fault")]
    firsts = [next(iter(form.fields[name].choices)) for name in ("glaze", "fault")]
    assert firsts == [("", "choose"), ("", "choose")]
    assert chosen == ['value="" ', 'value="" ']


def test_what_was_not_chosen_is_asked_for_by_name(demo_client):
    reply = demo_client.get(URL, {"glaze": "", "fault": ""})

    assert reply.status_code == 422
    assert reply.context["form"].errors == {
        "glaze": ["Which glaze? Choose one of the list."],
        "fault": ["What is wrong with it? Choose one of the list."],
    }


def test_each_difference_is_a_line_of_words_with_two_counts(demo_client):
    found = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).context

    assert [(row["said"], row["counted"]) for row in found["fits"]] == [
        ("potash feldspar, lot B", "With it 4 of 4 have the fault, without it 0 of 4.")
    ]
    assert ("batch 4", "With it 3 of 3 have the fault, without it 1 of 5.") in [
        (row["said"], row["counted"]) for row in found["rest"]
    ]


def test_what_does_not_fit_all_pieces_is_folded_away(demo_client):
    page = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).content.decode()

    folded = page[page.index("differences that do not fit all</summary>") :]
    assert page.count("<strong>batch 4</strong>") == 1
    assert folded[: folded.index("</details>")].count("<strong>batch 4</strong>") == 1
    assert "<details open" not in page


def test_the_recipe_version_that_is_set_aside_is_named(demo_client):
    page = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).content.decode()

    assert "Version 2 of the recipe: none of its pieces has the fault." in page


@pytest.mark.parametrize(("most", "said"), [(20, 1), (1_500, 0)])
def test_how_the_other_glazes_are_counted_is_said_with_its_limit(
    demo_client, monkeypatch, most, said
):
    monkeypatch.setattr("wareboard.records.shelf.elsewhere.MOST", most)

    page = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).content.decode()

    assert page.count("A pot counts by its first dip in that glaze.") == 1
    assert page.count(f"Only the newest {most} judged pots are looked at.") == said


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
        "One of each was fired side by side in firing 5 (middle shelf). Even so, it is not certain."
    )
    assert answer.next_test == ""


OFTEN = "Chance alone could look like this about 1 time in "


@pytest.mark.parametrize(
    ("bad", "good", "say"),
    [
        (1, 1, "Chance alone would look like this as often as not."),
        (2, 4, f"{OFTEN}10."),
        (3, 3, f"{OFTEN}10: it could have fitted in 2 ways, and that is counted in."),
        (4, 4, f"{OFTEN}30: it could have fitted in 2 ways, and that is counted in."),
    ],
)
def test_chance_is_said_as_one_time_in_so_many(bad, good, say):
    pieces = [
        Piece(str(n), faulty=n < bad, attributes={"batch": "ab"[n < bad]})
        for n in range(bad + good)
    ]

    answer = answer_for(find_change(pieces, count_changes(pieces, {"batch": Strand.MIX})), "Limpet")

    chance = answer.text[answer.text.index("Chance alone") :]
    assert (
        chance.removesuffix(
            " It is not certain until one piece of each has been fired side by side."
        )
        == say
    )


def test_names_that_have_commas_are_listed_with_semicolons(demo_client):
    asked = {"glaze": "limpet", "fault": "pinhole", "until": "2026-10-24"}

    answer = demo_client.get(URL, asked).context["answer"]

    assert answer.text == (
        "2 with the fault, 2 without. Each of these fits every piece: potash feldspar, lot B; "
        "batch 4; Limpet, new bucket; firing 3, 11 October; reduction began: about 1000 °C."
    )


def test_where_nothing_fits_the_three_that_part_best_stand_open(demo_client, demo_member):
    pots = Pot.objects.filter(pk__in=["pot-01", "pot-06"])
    for pot in pots:
        fault = (Fault(word="pinhole"),)
        facts = {"pot": pot, "surface": "whole", "thumb": "down"}
        keep(Verdict, demo_member, parts=fault, owner="verdict", **facts)

    found = demo_client.get(URL, {"glaze": "limpet", "fault": "pinhole"}).context

    assert found["finding"].fitting == ()
    assert len(found["fits"]) == 3
    assert len(found["rest"]) > 3


def test_where_the_record_knows_no_difference_it_says_so_and_promises_no_list():
    pieces = [Piece(str(n), faulty=n < 2, attributes={"batch": "a"}) for n in range(4)]
    finding = find_change(pieces, count_changes(pieces, {"batch": Strand.MIX}))

    answer = answer_for(finding, "Limpet", differ=False)

    assert answer.title == (
        "Cannot tell: the record knows no difference between the good and the bad ones."
    )
    assert "below" not in answer.text
    assert answer.next_test == "Put one more piece, dipped alike, in the next load."
