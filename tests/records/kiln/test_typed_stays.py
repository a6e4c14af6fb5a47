"""What stands typed in the log stays there while something else is tapped."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions, typed
from wareboard.records.kiln.models import LogLine, Moment

from .conftest import HTMX, steady

TYPED = {"temp_c": "1042", "flame": "licking", "damper": "3", "note": "wind", "seen": ""}


@pytest.fixture
def burning(fire):
    return fire("burning", steady(to_h=4))


@pytest.fixture
def url(burning):
    return reverse("kiln:firing", args=[burning.pk])


def stands_in(page):
    form = page.context["form"]
    return {name: str(form[name].value() or "") for name in TYPED}


def lines(firing):
    return LogLine.objects.filter(firing=firing).count()


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["plain", "htmx"])
def test_a_moment_is_tapped_and_what_was_typed_stays(signed_in, url, burning, headers):
    before = lines(burning)
    tap = {**TYPED, "kind": "sealed"}

    reply = signed_in.post(
        reverse("kiln:moment", args=[burning.pk]), tap, headers=headers, follow=True
    )

    assert stands_in(reply) == TYPED
    assert Moment.objects.get(firing=burning).kind == "sealed"
    assert lines(burning) == before


def test_an_undo_is_tapped_and_what_was_typed_stays(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "500"})
    undo = signed_in.get(url).context["undo"]

    reply = signed_in.post(undo["url"], TYPED, follow=True)

    assert stands_in(reply) == TYPED
    assert not LogLine.objects.standing().filter(firing=burning, temp_c=500).exists()


@pytest.mark.parametrize("name", ["cones", "gas"])
def test_on_the_way_to_cones_or_gas_and_back_what_was_typed_stays(signed_in, url, burning, name):
    sent = {**TYPED, "go": name}

    reply = signed_in.post(reverse("kiln:hold", args=[burning.pk]), sent)

    assert reply.url == reverse(f"kiln:{name}", args=[burning.pk])
    assert stands_in(signed_in.get(url)) == TYPED


def test_on_to_the_cones_a_whole_page_follows_also_where_a_fragment_was_asked_for(
    signed_in, burning
):
    sent = {**TYPED, "go": "cones"}

    reply = signed_in.post(reverse("kiln:hold", args=[burning.pk]), sent, headers=HTMX)

    assert reply["HX-Redirect"] == reverse("kiln:cones", args=[burning.pk])


def test_a_fold_with_something_typed_in_it_stands_open(signed_in, url, burning):
    signed_in.post(reverse("kiln:hold", args=[burning.pk]), {**TYPED, "go": "cones"})

    page = signed_in.get(url).content.decode()

    assert "<details open><summary>A note, or an earlier time" in page


def test_a_line_that_is_kept_leaves_the_form_empty(signed_in, url, burning):
    signed_in.post(reverse("kiln:hold", args=[burning.pk]), {**TYPED, "go": "cones"})

    signed_in.post(url, {"temp_c": "1042"})

    assert set(stands_in(signed_in.get(url)).values()) == {""}


def test_a_form_that_was_cleared_stays_cleared(signed_in, url, burning):
    hold = reverse("kiln:hold", args=[burning.pk])
    signed_in.post(hold, {**TYPED, "go": "cones"})

    signed_in.post(hold, {**dict.fromkeys(TYPED, ""), "go": "cones"})

    assert set(stands_in(signed_in.get(url)).values()) == {""}


def test_what_was_typed_in_one_log_stands_in_no_other(signed_in, burning, fire):
    other = fire("other", steady(to_h=2), number=2)
    signed_in.post(reverse("kiln:hold", args=[burning.pk]), {**TYPED, "go": "cones"})

    page = signed_in.get(reverse("kiln:firing", args=[other.pk]))

    assert set(stands_in(page).values()) == {""}


def test_what_was_typed_yesterday_is_not_held_before_today(signed_in, url, burning, monkeypatch):
    signed_in.post(reverse("kiln:hold", args=[burning.pk]), {**TYPED, "go": "cones"})
    monkeypatch.setattr(typed, "HELD_FOR", timedelta(0))

    assert set(stands_in(signed_in.get(url)).values()) == {""}


def test_undo_of_a_log_knows_only_what_stands_in_it(signed_in, member, burning, fire):
    other = fire("other", [], number=2)
    line = actions.write_line(member, other, temp_c=20.0, at=timezone.now())

    def undo(kind, entry_id):
        return signed_in.post(reverse("kiln:log-undo", args=[burning.pk, kind, entry_id]))

    assert undo("logline", line.pk).status_code == 404
    assert undo("pot", "any").status_code == 404
    assert undo("moment", "no-such").status_code == 404
    assert LogLine.objects.standing().filter(pk=line.pk).exists()


def test_undo_after_ten_minutes_says_so_and_changes_nothing(signed_in, member, url, burning):
    line = actions.write_line(member, burning, temp_c=20.0, at=timezone.now())
    LogLine.objects.filter(pk=line.pk).update(kept_at=timezone.now() - timedelta(minutes=11))

    reply = signed_in.post(
        reverse("kiln:log-undo", args=[burning.pk, "logline", line.pk]), follow=True
    )

    assert "more than ten minutes ago: correct it instead" in reply.content.decode()
    assert LogLine.objects.standing().filter(pk=line.pk).exists()


def test_somebody_of_another_studio_holds_and_undoes_nothing(stranger, member, burning):
    line = actions.write_line(member, burning, temp_c=20.0, at=timezone.now())

    undo = stranger.post(reverse("kiln:log-undo", args=[burning.pk, "logline", line.pk]))
    hold = stranger.post(reverse("kiln:hold", args=[burning.pk]), {"go": "cones"})

    assert (undo.status_code, hold.status_code) == (404, 404)
    assert LogLine.objects.standing().filter(pk=line.pk).exists()


def test_there_is_nowhere_else_to_go_on_to(signed_in, burning):
    hold = reverse("kiln:hold", args=[burning.pk])

    assert signed_in.post(hold, {"go": "moon"}).status_code == 404
    assert signed_in.get(hold).status_code == 405


def test_a_moment_that_cannot_be_leads_to_its_page_from_a_fragment_too(signed_in, burning, fire):
    firing = fire("opened", steady(to_h=4), number=2, moments=[("opened", 5.0)])

    reply = signed_in.post(
        reverse("kiln:moment", args=[firing.pk]), {"kind": "shut off"}, headers=HTMX
    )

    assert reply.status_code == 204
    assert reply["HX-Redirect"] == reverse("kiln:happened", args=[firing.pk, "shut-off"])
