"""Before lighting, the page says which pots are proved alone, and which only together."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions
from wareboard.records.kiln.proofs import LISTED
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Form, Pot, Weighing


@pytest.fixture
def url(load):
    return reverse("kiln:before-lighting", args=[load.pk])


@pytest.fixture
def put(member, load, shelf):
    """Put a glazed pot into the load that was weighed once, or never."""

    def of(name, weight_g=None):
        pot = keep(Pot, member, name=name)
        if weight_g is not None:
            at = timezone.now() - timedelta(hours=1)
            keep(Weighing, member, pot=pot, weight_g=weight_g, state="glazed", at=at)
        actions.put_in(member, load, [pot], shelf("middle"))
        return pot

    return of


def test_the_page_says_which_go_on_the_scale_alone_and_which_together(signed_in, url, put):
    # A scale of 1 g: its errors are half of what 740 g of clay may lose.
    put("casserole", 1900.0)
    put("egg cup", 90.0)
    put("mug", 350.0)
    put("bowl")

    reply = signed_in.get(url)

    proofs, page = reply.context["before"].proofs, reply.content.decode()
    assert [one.name for one in proofs.alone] == ["casserole"]
    (pan,) = proofs.together
    assert sorted(one.name for one in pan.pots) == ["egg cup", "mug"]
    assert [one.name for one in proofs.unknown] == ["bowl"]
    heads = ["Never weighed: weigh each once", "One at a time", "All these at once on the scale"]
    assert [head in page for head in heads] == [True] * 3
    assert pan.url.replace("&", "&amp;") in page


def test_a_group_without_pots_has_no_head(signed_in, url, put):
    put("casserole", 1900.0)

    page = signed_in.get(url).content.decode()

    assert "One at a time" in page
    assert "All these at once" not in page
    assert "Never weighed: weigh each once" not in page


def test_a_long_list_says_how_many_more(signed_in, url, put):
    for n in range(LISTED + 2):
        put(f"bowl {n}")

    proofs = signed_in.get(url).context["before"].proofs

    assert (len(proofs.unknown), proofs.more) == (LISTED, 2)


@pytest.fixture
def clock(monkeypatch):
    """Let some hours go by."""
    begun = timezone.now()

    def hours(later):
        monkeypatch.setattr(timezone, "now", lambda: begun + timedelta(hours=later))

    return hours


@pytest.fixture
def cups(put):
    """Six glazed cups of about 200 g, each too small for a scale of whole grams."""
    return [put(f"cup {n}", 200.0) for n in range(1, 7)]


@pytest.fixture
def weigh_cups(signed_in, clock, cups):
    """Weigh the cups together, some hours from now."""

    def of(weight_g, state, hours, pots=None):
        clock(hours)
        ids = [pot.pk for pot in (pots or cups)]
        where = "?" + "&".join(f"pot={pot.pk}" for pot in cups)
        return signed_in.post(
            reverse("ware:weigh-together") + where,
            {"pots": ids, "weight_g": weight_g, "state": state},
        )

    return of


def signs(client, url):
    return sorted(row["sign"] for row in client.get(url).context["before"].rows)


def test_cups_that_lose_next_to_nothing_together_may_all_go(signed_in, url, weigh_cups):
    before = signs(signed_in, url)

    weigh_cups("1206", "before on a pan", 0)
    weigh_cups("1204", "after on a pan", 2)

    assert before == ["unknown"]
    assert signs(signed_in, url) == ["go"]


def test_cups_that_lose_more_than_a_hundredth_together_may_not(signed_in, url, weigh_cups):
    weigh_cups("1206", "before on a pan", 0)
    weigh_cups("1190", "after on a pan", 2)

    assert signs(signed_in, url) == ["unknown"]


def test_the_second_weighing_has_the_same_cups_as_the_first(signed_in, url, weigh_cups, cups):
    weigh_cups("1206", "before on a pan", 0)

    fewer = weigh_cups("1004", "after on a pan", 2, pots=cups[:5])

    assert fewer.status_code == 422
    assert "Before the two hours these stood on the scale: cup 1, cup 2" in fewer.content.decode()
    assert Weighing.objects.filter(state="after on a pan").count() == 0
    assert signs(signed_in, url) == ["unknown"]


def test_what_they_weigh_together_is_no_pots_own_weight(signed_in, weigh_cups, cups):
    weigh_cups("1206", "before on a pan", 0)

    scale = signed_in.get(reverse("pages:weigh", args=[cups[0].pk]))
    pot = signed_in.get(reverse("pages:pot", args=[cups[0].pk]))

    assert [row["weight"] for row in scale.context["rows"]] == ["200 g"]
    assert pot.context["weight"]["g"] == "200 g"


def test_a_cup_that_gained_since_proves_again(signed_in, member, url, weigh_cups, cups, clock):
    weigh_cups("1206", "before on a pan", 0)
    weigh_cups("1204", "after on a pan", 2)
    clock(22)
    keep(Weighing, member, pot=cups[0], weight_g=206.0, state="glazed", at=timezone.now())

    assert signs(signed_in, url) == ["go", "unknown"]


def test_a_cup_that_was_damp_when_last_weighed_alone_is_not_proved_among_dry_ones(
    signed_in, member, url, weigh_cups, cups
):
    at = timezone.now() - timedelta(minutes=30)
    keep(Weighing, member, pot=cups[0], weight_g=236.0, state="leather-hard", at=at)

    weigh_cups("1242", "before on a pan", 0)
    weigh_cups("1239", "after on a pan", 2)

    assert signs(signed_in, url) == ["go", "unknown"]


def test_a_cup_heavier_than_its_share_that_was_not_weighed_before_proves_again(
    signed_in, member, url, weigh_cups, cups, clock
):
    weigh_cups("1206", "before on a pan", 20)
    weigh_cups("1204", "after on a pan", 22)
    clock(24)
    keep(Weighing, member, pot=cups[0], weight_g=199.0, state="glazed", at=timezone.now())

    assert signs(signed_in, url) == ["go", "unknown"]


def test_a_go_that_rests_on_a_pan_says_that_one_wet_pot_would_hide(signed_in, url, weigh_cups):
    weigh_cups("1206", "before on a pan", 0)
    weigh_cups("1204", "after on a pan", 2)

    page = signed_in.get(url).content.decode()

    assert "one wet pot hides among dry ones: hold each to your cheek" in page


def test_pots_of_two_forms_are_not_weighed_together(signed_in, url, put, weigh_cups, cups, member):
    cups[0].form = keep(Form, member, name="cup")
    cups[0].save()

    refused = weigh_cups("1206", "before on a pan", 0)
    pans = signed_in.get(url).context["before"].proofs.together

    assert refused.status_code == 422
    assert "Together only pots of one form" in refused.content.decode()
    assert Weighing.objects.filter(state="before on a pan").count() == 0
    assert sorted(len(pan.pots) for pan in pans) == [1, 5]


def test_the_second_weighing_is_told_and_may_be_taken_back(signed_in, weigh_cups, cups):
    where = reverse("ware:weigh-together") + "?" + "&".join(f"pot={pot.pk}" for pot in cups)
    weigh_cups("1206", "before on a pan", 0)
    weigh_cups("1204", "after on a pan", 2)

    told = signed_in.get(where)
    signed_in.post(told.context["undo"]["url"])

    assert told.context["undo"]["say"] == "Kept: 1204 g together."
    assert "After the two hours 1204 g together." in told.content.decode()
    assert not Weighing.objects.filter(state="after on a pan", undone_at=None).exists()
    assert signed_in.get(where).context["weight"] == "1206 g"


def test_a_second_weighing_that_comes_too_soon_is_asked_about(signed_in, url, weigh_cups):
    weigh_cups("1206", "before on a pan", 0)

    asked = weigh_cups("1204", "after on a pan", 1 / 60)

    assert asked.status_code == 422
    assert (
        "That is 1 minute after the first weighing: a proof takes two hours at about 50 °C."
        in asked.content.decode()
    )
    assert Weighing.objects.filter(state="after on a pan").count() == 0


def test_so_it_is_for_a_pot_alone(signed_in, put, clock):
    page = reverse("pages:weigh", args=[put("casserole", 1900.0).pk])
    signed_in.post(page, {"weight_g": "1900", "state": "before the proof"})
    clock(1 / 2)
    sent = {"weight_g": "1899", "state": "after the proof"}

    asked, sure = signed_in.post(page, sent), signed_in.post(page, {**sent, "sure": "on"})

    assert (asked.status_code, sure.status_code) == (422, 302)
    assert "That is 30 minutes after the first weighing" in asked.content.decode()


def test_one_pot_alone_is_not_together(weigh_cups, cups):
    refused = weigh_cups("201", "before on a pan", 0, pots=cups[:1])

    assert refused.status_code == 422
    assert Weighing.objects.filter(state="before on a pan").count() == 0


def test_the_same_pan_sent_twice_is_kept_once_and_taken_back_at_once(signed_in, weigh_cups, cups):
    where = reverse("ware:weigh-together") + "?" + "&".join(f"pot={pot.pk}" for pot in cups)
    sent = {
        "entry_id": "one-pan",
        "pots": [pot.pk for pot in cups],
        "weight_g": "1206",
        "state": "before on a pan",
    }
    replies = [signed_in.post(where, sent).status_code for _ in range(2)]
    kept = Weighing.objects.filter(state="before on a pan", undone_at=None).count()

    signed_in.post(signed_in.get(where).context["undo"]["url"])

    assert replies == [302, 302]
    assert kept == 6
    assert not Weighing.objects.filter(state="before on a pan", undone_at=None).exists()


def test_pots_of_another_studio_are_not_weighed(stranger, cups):
    where = reverse("ware:weigh-together") + f"?pot={cups[0].pk}&pot={cups[1].pk}"

    page = stranger.get(where).content.decode()

    assert "No pots were named." in page
