"""A load as it stands in the kiln: putting pots in, taking them out."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import Load, Placing
from wareboard.records.people.entry import EntryRefused, keep
from wareboard.records.people.undoing import UNDO_WINDOW
from wareboard.records.ware.models import Pot, Weighing

from .conftest import HTMX


@pytest.fixture
def url(load):
    return reverse("kiln:load", args=[load.pk])


def standing(load):
    rows = Placing.objects.standing().filter(load=load).order_by("pot")
    return [(row.pot_id, row.place.level if row.place else None) for row in rows]


def test_ticked_pots_go_onto_the_shelf_that_is_tapped_and_only_the_section_comes_back(
    signed_in, url, load, pots, shelf
):
    reply = signed_in.post(
        url, {"pots": ["mug-0", "mug-2"], "place": shelf("middle").pk}, headers=HTMX
    )

    page = reply.content.decode()
    assert reply.status_code == 200
    assert "<html" not in page
    assert "2 pots so far." in page
    assert "Put in: 2 pots." in page
    assert standing(load) == [("mug-0", "middle"), ("mug-2", "middle")]


def test_it_works_without_javascript(signed_in, url, load, pots, shelf):
    reply = signed_in.post(url, {"pots": ["mug-1"], "place": shelf("top").pk})

    assert (reply.status_code, reply.url) == (302, url)
    assert "1 pot so far." in signed_in.get(url).content.decode()


def test_a_whole_board_goes_in_by_one_tap(signed_in, url, load, board, shelf):
    signed_in.post(url, {"board": board.pk, "place": shelf("bottom").pk})

    assert standing(load) == [("mug-0", "bottom"), ("mug-1", "bottom"), ("mug-2", "bottom")]
    assert "the long board" not in signed_in.get(url).content.decode()


def test_a_board_is_ticked_like_pots_and_goes_in_with_them(signed_in, url, load, board, shelf):
    signed_in.post(url, {"board": board.pk, "pots": ["mug-0", "mug-4"], "place": shelf("top").pk})

    assert standing(load) == [(f"mug-{n}", "top") for n in (0, 1, 2, 4)]


def test_one_row_of_shelves_serves_boards_and_pots_and_the_hint_stands_above_the_list(
    signed_in, url, board, shelf
):
    page = signed_in.get(url).content.decode()

    assert page.count(f'name="place" value="{shelf("top").pk}"') == 1
    assert page.index("Tick, then tap the shelf below.") < page.index('name="board"')
    assert page.index('name="board"') < page.index('name="pots"') < page.index('name="place"')


def test_pots_that_are_alike_can_be_ticked_together(signed_in, url, load, pots, shelf):
    together = signed_in.get(url).context["groups"][0].all_of_them

    signed_in.post(url, {"alike": together, "place": shelf("top").pk})

    assert len(standing(load)) == 5


def test_sent_twice_it_is_kept_once(signed_in, url, load, pots, shelf):
    sent = {"pots": ["mug-0", "mug-1"], "place": shelf("top").pk, "entry_id": "one-tap"}

    signed_in.post(url, sent)
    signed_in.post(url, sent)

    assert Placing.objects.filter(load=load).count() == 2


def test_undo_takes_the_whole_tap_back(signed_in, url, load, pots, shelf):
    sent = {"pots": ["mug-0", "mug-1"], "place": shelf("top").pk, "entry_id": "one-tap"}
    signed_in.post(url, sent)
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"], {"next": url})

    assert standing(load) == []
    assert "Nothing is in this load yet." in signed_in.get(url).content.decode()


def test_nothing_ticked_is_explained_and_nothing_stored(signed_in, url, load, shelf):
    reply = signed_in.post(url, {"place": shelf("top").pk}, headers=HTMX)

    assert reply.status_code == 422
    assert "Tick at least one pot, then tap the shelf." in reply.content.decode()
    assert standing(load) == []


def test_no_shelf_tapped_is_explained_and_nothing_stored(signed_in, url, load, pots):
    reply = signed_in.post(url, {"pots": ["mug-0"], "place": "no-such-place"})

    assert reply.status_code == 422
    assert "Say which shelf: tap it below the list." in reply.content.decode()
    assert standing(load) == []


def test_a_pot_of_another_studio_does_not_go_in(signed_in, url, load, shelf, demo):
    reply = signed_in.post(url, {"pots": ["pot-13"], "place": shelf("top").pk})

    assert reply.status_code == 422
    assert standing(load) == []


def test_a_pot_stands_in_one_waiting_load_at_a_time(
    signed_in, url, member, kiln, load, pots, shelf
):
    other = keep(Load, member, kiln=kiln, name="Sunday’s load")
    actions.put_in(member, other, pots[:1], shelf("top"))

    reply = signed_in.post(url, {"pots": ["mug-0"], "place": shelf("top").pk})

    assert reply.status_code == 422
    assert "mug stands in Sunday’s load: take it out there first." in reply.content.decode()
    assert standing(load) == []


def test_a_pot_that_is_in_already_stays_where_it_stands(member, load, pots, shelf):
    actions.put_in(member, load, pots[:1], shelf("top"))

    added = actions.put_in(member, load, pots[:2], shelf("bottom"))

    assert [placing.pot_id for placing in added] == ["mug-1"]
    assert standing(load) == [("mug-0", "top"), ("mug-1", "bottom")]


def test_a_kiln_without_places_takes_pots_all_the_same(signed_in, member, pots):
    from wareboard.records.kiln.models import Kiln  # noqa: PLC0415 - only this test makes one by hand

    load = keep(Load, member, kiln=keep(Kiln, member, name="a pit"))

    signed_in.post(reverse("kiln:load", args=[load.pk]), {"pots": ["mug-0"]})

    assert standing(load) == [("mug-0", None)]
    page = signed_in.get(reverse("kiln:load", args=[load.pk])).content.decode()
    assert "place not said · 1" in page


def test_taken_out_it_waits_again_and_may_be_put_back(signed_in, url, member, load, pots, shelf):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))

    signed_in.post(reverse("kiln:take-out", args=[placing.pk]))
    out = standing(load)
    undo = signed_in.get(url).context["undo"]
    signed_in.post(undo["url"])
    signed_in.post(undo["url"])

    assert out == []
    assert undo["say"] == "Taken out: mug."
    assert standing(load) == [("mug-0", "top")]
    assert Placing.objects.filter(load=load).count() == 2


def test_taken_out_twice_by_one_tap_ends_on_the_same_page(
    signed_in, url, member, load, pots, shelf
):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))

    replies = [signed_in.post(reverse("kiln:take-out", args=[placing.pk])) for _ in range(2)]

    assert [(reply.status_code, reply.url) for reply in replies] == [(302, url)] * 2
    assert standing(load) == []


def test_taking_out_gives_the_section_back_where_there_is_a_script(
    signed_in, member, load, pots, shelf
):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))

    reply = signed_in.post(reverse("kiln:take-out", args=[placing.pk]), headers=HTMX)

    assert "<html" not in reply.content.decode()
    assert "Taken out: mug." in reply.content.decode()


def test_what_was_taken_out_long_ago_is_not_offered_any_more(
    signed_in, url, member, load, pots, shelf
):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))
    actions.take_out(placing)
    Placing.objects.filter(pk=placing.pk).update(
        undone_at=timezone.now() - UNDO_WINDOW - timedelta(seconds=1)
    )

    assert signed_in.get(url).context["undo"] is None


def test_a_load_that_was_lit_changes_no_more(signed_in, url, member, load, pots, shelf):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))
    actions.light(member, load)

    put = signed_in.post(url, {"pots": ["mug-1"], "place": shelf("top").pk})
    out = signed_in.post(reverse("kiln:take-out", args=[placing.pk]))
    page = signed_in.get(url).content.decode()

    assert (put.status_code, out.status_code) == (422, 422)
    assert "This load was lit already" in put.content.decode()
    assert standing(load) == [("mug-0", "top")]
    assert "Put pots in" not in page
    assert "1 pot was in it." in page


def test_a_pot_taken_out_of_a_load_that_was_lit_since_is_not_put_back(member, load, pots, shelf):
    first, _second = actions.put_in(member, load, pots[:2], shelf("top"))
    actions.take_out(first)
    actions.light(member, load)

    with pytest.raises(EntryRefused, match="lit already"):
        actions.put_back(member, first)


def test_putting_back_into_a_lit_load_is_refused_in_a_sentence(
    signed_in, member, load, pots, shelf
):
    first, _second = actions.put_in(member, load, pots[:2], shelf("top"))
    actions.take_out(first)
    actions.light(member, load)

    reply = signed_in.post(reverse("kiln:put-back", args=[first.pk]), follow=True)

    assert "This load was lit already" in reply.content.decode()
    assert standing(load) == [("mug-1", "top")]


def test_pots_that_were_fired_wait_no_more_but_may_be_fired_again(
    signed_in, url, member, kiln, load, pots, shelf
):
    earlier = keep(Load, member, kiln=kiln, name="earlier")
    actions.put_in(member, earlier, pots[:1], shelf("top"))
    actions.light(member, earlier)
    keep(Weighing, member, pot=pots[1], weight_g=300.0, state="fired")

    waits = {pot.pk for group in signed_in.get(url).context["groups"] for pot in group.pots}
    again = signed_in.get(url, {"again": ""}).context["groups"]
    signed_in.post(f"{url}?again", {"pots": ["mug-0"], "place": shelf("middle").pk})

    assert waits == {"mug-2", "mug-3", "mug-4"}
    assert {pot.pk for group in again for pot in group.pots} == {"mug-0", "mug-1"}
    assert standing(load) == [("mug-0", "middle")]


def test_the_load_is_held_against_the_last_ones_of_its_kiln(
    signed_in, url, member, kiln, load, pots, shelf
):
    for n, size in enumerate((2, 4)):
        earlier = keep(Load, member, kiln=kiln, name=f"earlier {n}")
        some = [keep(Pot, member, name="dish") for _ in range(size)]
        actions.put_in(member, earlier, some, shelf("top"))
        actions.light(member, earlier)

    empty = signed_in.get(url).context["full"]
    actions.put_in(member, load, pots[:3], shelf("top"))
    full = signed_in.get(url).context["full"]

    assert empty.under == "The last 2 loads of this kiln had 2 to 4. This is about 0 % of that."
    assert full.title == "3 pots so far."
    assert (
        full.under == "The last 2 loads of this kiln had 2 to 4. This one is as full as they were."
    )
    assert full.n == 2


def test_a_first_load_has_nothing_to_be_measured_by(signed_in, url, load):
    full = signed_in.get(url).context["full"]

    assert (full.under, full.n) == ("There is no earlier load to measure it by.", 0)


def test_demo_load_stands_as_it_stood_when_it_was_lit(demo_client):
    reply = demo_client.get(reverse("kiln:load", args=["load-5"]))

    shelves = reply.context["shelves"]
    assert [(shelf.name, len(shelf.pots)) for shelf in shelves] == [
        ("top", 9),
        ("middle", 17),
        ("bottom", 13),
    ]
    assert reply.content.decode().count("<svg") == 39
    assert "39 pots were in it." in reply.content.decode()


def test_a_load_without_a_name_goes_by_its_day(signed_in, member, kiln, load):
    nameless = keep(Load, member, kiln=kiln, at=load.at)

    page = signed_in.get(reverse("kiln:load", args=[nameless.pk])).content.decode()

    assert "load of 3 October" in page


@pytest.mark.parametrize("name", ["load", "before-lighting"])
def test_somebody_of_another_studio_finds_nothing(stranger, load, name):
    assert stranger.get(reverse(f"kiln:{name}", args=[load.pk])).status_code == 404


def test_somebody_of_another_studio_changes_nothing(stranger, member, load, pots, shelf):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))

    replies = [
        stranger.post(reverse("kiln:load", args=[load.pk]), {"pots": ["mug-1"]}),
        stranger.post(reverse("kiln:take-out", args=[placing.pk])),
        stranger.post(reverse("kiln:put-back", args=[placing.pk])),
        stranger.post(reverse("kiln:light", args=[load.pk])),
    ]

    assert [reply.status_code for reply in replies] == [404] * 4
    assert standing(load) == [("mug-0", "top")]


def test_an_unknown_load_is_not_here(signed_in):
    assert signed_in.get(reverse("kiln:load", args=["no-such-load"])).status_code == 404


@pytest.mark.parametrize("name", ["take-out", "put-back", "light"])
def test_what_changes_something_is_not_done_by_reading(signed_in, name):
    assert signed_in.get(reverse(f"kiln:{name}", args=["any"])).status_code == 405


@pytest.mark.parametrize("load_id", ["load-5", "load-6"])
def test_however_many_pots_the_page_asks_the_same_few_questions(
    demo_client, load_id, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        demo_client.get(reverse("kiln:load", args=[load_id]))


def test_boards_and_pots_cost_no_more_questions(
    signed_in, url, board, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        signed_in.get(url)


def test_a_pot_taken_out_and_sent_again_is_answered_as_the_first_time(
    signed_in, url, member, load, pots, shelf
):
    (placing,) = actions.put_in(member, load, pots[:1], shelf("top"))
    out = reverse("kiln:take-out", args=[placing.pk])

    replies = [signed_in.post(out) for _ in range(2)]

    assert [(one.status_code, one["Location"]) for one in replies] == [(302, url)] * 2
    assert standing(load) == []
