"""Today, the front door."""

from datetime import datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format

from wareboard.records.glazes.models import Bucket, BucketEvent
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import LastBackup, note_backup
from wareboard.records.kiln.models import Firing, Kiln, Load, Moment, Placing
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import Verdict
from wareboard.records.ware.models import Air, Form, Pot, Weighing
from wareboard.web.pages.today_answer import between, kiln_clock


def test_the_demo_s_next_load_may_not_be_lit_as_its_own_page_says_too(demo_client):
    question = demo_client.get("/").context["question"]

    assert question.title == "Not tonight as it stands."
    assert question.text.startswith("The soup bowl with lugs holds ")


def test_it_names_the_bucket_that_drifted(demo_client):
    buckets = demo_client.get("/").context["buckets"]

    assert [(b["id"], b["say"]) for b in buckets] == [
        ("limpet-bucket-2", "thin: 1.47, its good pots had 1.50")
    ]


def test_it_takes_at_most_twelve_queries(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        demo_client.get("/")


def test_an_empty_studio_is_told_what_to_do(signed_in):
    reply = signed_in.get("/")

    assert reply.context["question"] is None
    page = reply.content.decode()
    assert "Begin with what is on the bench. Put pots into a load" in page
    begins = ("/glazes/new-glaze/", "/ware/new/", "/kiln/new/")
    assert [page.count(f'href="{first_step}"') for first_step in begins] == [1, 1, 1]


@pytest.fixture
def load(member):
    kiln = keep(Kiln, member, name="the kiln")
    return keep(Load, member, kiln=kiln, name="Friday")


def put_in(member, load, *, dry_g: float, now_g: float) -> Pot:
    """Put a pot into a load, with its bone-dry weight and one of today."""
    pot = keep(Pot, member, name="casserole")
    day = timedelta(days=1)
    keep(Weighing, member, pot=pot, weight_g=dry_g, state="bone dry", at=timezone.now() - 3 * day)
    keep(Weighing, member, pot=pot, weight_g=now_g, state="leather-hard")
    keep(Placing, member, load=load, pot=pot)
    return pot


def test_without_a_past_firing_it_says_so(signed_in, member, load):
    put_in(member, load, dry_g=1000, now_g=1005)
    keep(Air, member, word="crisp")

    question = signed_in.get("/").context["question"]

    assert question.title == "The load waits."
    assert "no past firing of this kiln" in question.text


def test_a_dry_load_is_told_to_light(signed_in, member, load):
    put_in(member, load, dry_g=1800, now_g=1810)
    keep(Air, member, word="ordinary")
    past = keep(Load, member, kiln=load.kiln)
    lit = timezone.now() - timedelta(days=9)
    old = keep(Firing, member, load=past, number=1, at=lit)
    keep(Moment, member, firing=old, kind="shut off", at=lit + timedelta(hours=14))
    keep(Moment, member, firing=old, kind="opened", at=lit + timedelta(hours=32))

    question = signed_in.get("/").context["question"]

    assert question.title.startswith("Light by ")
    assert " and it is off about " in question.title


def test_a_pot_that_is_too_wet_stops_the_load(signed_in, member, load):
    put_in(member, load, dry_g=1800, now_g=1896)
    keep(Air, member, word="fog", rh_percent=87)

    question = signed_in.get("/").context["question"]

    assert question.title == "Not tonight as it stands."
    assert question.text.startswith("The casserole holds 64 g more than this air explains.")


def signs_on_today(client) -> dict[str, str]:
    return {one["pot"].pk: one["sign"] for one in client.get("/").context["plank"]}


def signs_on_its_own_page(client, load) -> dict[str, str]:
    before = client.get(reverse("kiln:before-lighting", args=[load.pk])).context["before"]
    rows = [one for row in before.rows for one in row["each"] or [row]]
    return {row["pot"].pk: row["sign"] for row in rows}


def wait_alone(load) -> None:
    """Take back all other loads and every firing, so that this one waits."""
    now = timezone.now()
    Firing.objects.update(undone_at=now)
    Load.objects.exclude(pk=load.pk).update(undone_at=now)


@pytest.mark.parametrize("number", range(6))
def test_today_and_a_load_s_own_page_never_give_a_pot_different_signs(
    demo_client, demo_member, monkeypatch, number
):
    monkeypatch.setattr("wareboard.web.pages.today.ON_PLANK", 200)
    load = Load.objects.seen_by(demo_member).order_by("pk")[number]
    wait_alone(load)

    today, own = signs_on_today(demo_client), signs_on_its_own_page(demo_client, load)

    assert len(today) == Placing.objects.standing().filter(load=load).count()
    assert today == dict.fromkeys(today, "unknown") | own


@pytest.mark.parametrize(("now_g", "sign"), [(1240, "stop"), (1020, "wait")])
def test_a_pot_known_only_by_its_form_has_one_sign_on_both_pages(
    signed_in, member, load, now_g, sign
):
    form = keep(Form, member, name="jug")
    for weight_g in (990, 1000, 1010):
        other = keep(Pot, member, form=form)
        keep(Weighing, member, pot=other, weight_g=weight_g, state="bone dry")
    pot = keep(Pot, member, form=form)
    keep(Weighing, member, pot=pot, weight_g=now_g, state="glazed")
    keep(Placing, member, load=load, pot=pot)

    assert signs_on_today(signed_in) == {pot.pk: sign}
    assert signs_on_its_own_page(signed_in, load) == {pot.pk: sign}


def test_a_pot_that_may_not_go_says_when_it_was_weighed_and_leads_to_the_scale(
    signed_in, member, load
):
    pot = keep(Pot, member, name="casserole")
    at = timezone.now() - timedelta(days=5)
    day = date_format(timezone.localtime(at), "j M")
    keep(Weighing, member, pot=pot, weight_g=1800, state="bone dry", at=at - timedelta(days=1))
    keep(Weighing, member, pot=pot, weight_g=1896, state="leather-hard", at=at)
    keep(Placing, member, load=load, pot=pot)
    scale, asks = (
        reverse("pages:weigh", args=[pot.pk]),
        reverse("kiln:before-lighting", args=[load.pk]),
    )
    ways = {"/": scale, asks: f"{scale}?next={asks}"}

    pages = {url: signed_in.get(url).content.decode() for url in ways}

    for url, way in ways.items():
        link = f'<a class="again" href="{way}">weigh it again</a>'
        assert pages[url].count(f"last weighed {day}, leather-hard · {link}") == 1


def test_a_load_with_forms_takes_no_more_than_twelve_queries(
    signed_in, member, load, django_assert_max_num_queries
):
    form = keep(Form, member, name="jug")
    other = keep(Pot, member, form=form)
    keep(Weighing, member, pot=other, weight_g=1000, state="bone dry")
    for _ in range(3):
        pot = keep(Pot, member, form=form)
        keep(Weighing, member, pot=pot, weight_g=1100, state="glazed")
        keep(Placing, member, load=load, pot=pot)

    with django_assert_max_num_queries(12):
        signed_in.get("/")


@pytest.mark.parametrize(
    ("minutes", "say"),
    [
        (10, "Firing 1 was just lit."),
        (70, "Firing 1 is one hour in."),
        (310, "Firing 1 is 5 hours in."),
    ],
)
def test_a_running_firing_takes_the_door(signed_in, member, load, minutes, say):
    keep(Firing, member, load=load, number=1, at=timezone.now() - timedelta(minutes=minutes))

    question = signed_in.get("/").context["question"]

    assert question.title == say


def test_one_pot_that_was_never_weighed_is_spoken_of_as_one(signed_in, member, load):
    keep(Placing, member, load=load, pot=keep(Pot, member))

    question = signed_in.get("/").context["question"]

    assert question.text.startswith(
        "Of one pot it cannot be told; the load's page says what would tell."
    )


def test_a_running_firing_leads_to_its_log(signed_in, member, load):
    firing = keep(Firing, member, load=load, number=1, at=timezone.now() - timedelta(hours=5))

    page = signed_in.get("/").content.decode()

    url = reverse("kiln:firing", args=[firing.pk])
    assert page.count(f'<a class="button" href="{url}">The log of firing 1</a>') == 1


def open_kiln(member, load, pots) -> Firing:
    for pot in pots:
        keep(Placing, member, load=load, pot=pot)
    lit = timezone.now() - timedelta(days=2)
    firing = keep(Firing, member, load=load, number=1, at=lit)
    keep(Moment, member, firing=firing, kind="shut off", at=lit + timedelta(hours=14))
    keep(Moment, member, firing=firing, kind="opened", at=lit + timedelta(hours=32))
    return firing


def test_after_an_opening_the_pots_that_nobody_judged_are_counted(signed_in, member, load):
    pots = [keep(Pot, member) for _ in range(3)]
    firing = open_kiln(member, load, pots)
    keep(Verdict, member, pot=pots[0], surface="whole", thumb="up")

    page = signed_in.get("/").content.decode()

    url = reverse("pages:opening", args=[firing.pk])
    assert page.count(f'<a href="{url}">2 pots to judge</a>') == 1


def test_when_all_are_judged_nothing_is_asked(signed_in, member, load):
    pots = [keep(Pot, member)]
    open_kiln(member, load, pots)
    keep(Verdict, member, pot=pots[0], surface="whole", thumb="up")

    page = signed_in.get("/").content.decode()

    assert "to judge" not in page


@pytest.mark.parametrize(
    ("kind", "say"),
    [
        ("water in", "water was put in after the weighing: weigh it again"),
        ("water off", "water was taken off after the weighing: weigh it again"),
        ("powder in", "powder was put in after the weighing: weigh it again"),
    ],
)
def test_a_bucket_that_was_changed_after_its_weighing_is_not_judged_by_it(
    demo_client, demo_member, kind, say
):
    bucket = Bucket.objects.get(pk="limpet-bucket-2")
    keep(BucketEvent, demo_member, bucket=bucket, kind=kind, amount_ml=400)

    buckets = demo_client.get("/").context["buckets"]

    assert [(b["id"], b["say"]) for b in buckets] == [("limpet-bucket-2", say)]


def test_a_pinch_of_powder_leaves_the_weighing_as_it_was(demo_client, demo_member):
    bucket = Bucket.objects.get(pk="limpet-bucket-2")
    keep(BucketEvent, demo_member, bucket=bucket, kind="powder in", amount_g=5)

    buckets = demo_client.get("/").context["buckets"]
    page = demo_client.get("/glazes/buckets/limpet-bucket-2/").context

    assert page["answer"].say == "A little thin. Take off 0.4 l of clear water."
    assert [b["say"] for b in buckets if "weigh it again" in b["say"]] == []


def test_a_bucket_that_was_emptied_after_its_weighing_is_not_spoken_of(demo_client, demo_member):
    bucket = Bucket.objects.get(pk="limpet-bucket-2")
    keep(BucketEvent, demo_member, bucket=bucket, kind="emptied")

    assert demo_client.get("/").context["buckets"] == []


def test_a_cooling_kiln_says_when_it_was_opened_before(signed_in, member, load):
    past = keep(Load, member, kiln=load.kiln)
    lit = timezone.now() - timedelta(days=9)
    old = keep(Firing, member, load=past, number=1, at=lit)
    keep(Moment, member, firing=old, kind="shut off", at=lit + timedelta(hours=14))
    keep(Moment, member, firing=old, kind="opened", at=lit + timedelta(hours=32))
    firing = keep(Firing, member, load=load, number=2, at=timezone.now() - timedelta(hours=15))
    keep(Moment, member, firing=firing, kind="shut off", at=timezone.now() - timedelta(hours=1))

    question = signed_in.get("/").context["question"]

    assert question.title.startswith("Firing 2 is cooling. Open at about ")
    assert question.n == 1


class Past:
    """A firing as the query gives it."""

    def __init__(self, up: float, down: float | None) -> None:
        self.at = datetime(2026, 9, 13, 6, tzinfo=timezone.get_current_timezone())
        self.shut_at = self.at + timedelta(hours=up)
        self.opened_at = None if down is None else self.shut_at + timedelta(hours=down)


def test_the_hours_of_a_kiln_are_its_own_shortest_usual_and_longest():
    clock = kiln_clock([Past(14, 18), Past(15, None), Past(13, 20)])

    assert clock.firing_h == pytest.approx((13, 14, 15))
    assert clock.cooling_h == pytest.approx((18, 19, 20))
    assert clock.n == 3


def test_opened_within_two_hours_tells_nothing_of_how_a_kiln_cools():
    clock = kiln_clock([Past(14, 18), Past(15, 1 / 60)])

    assert clock.cooling_h == pytest.approx((18, 18, 18))
    assert clock.n == 2


def test_a_studio_without_a_backup_is_told_so(demo_client):
    assert b"No backup yet." in demo_client.get("/").content


def test_a_backup_on_the_disk_of_the_record_is_told_as_none_to_rely_on(
    demo_client, settings, tmp_path
):
    settings.DATA = tmp_path
    made = LastBackup(timezone.now(), tmp_path / "monday.zip", 1, "0" * 64, same_disk=True)
    note_backup(DataFolder(tmp_path), made)

    page = demo_client.get("/").content.decode()

    assert "The last backup is on the same disk as the record: a stick would be better." in page


@pytest.mark.parametrize(
    ("days", "low", "high", "say"),
    [
        (0, 4, 6, "(04:00–06:00)"),
        (1, 4, 6, "(04:00–06:00 tomorrow)"),
        (0, 23, 26, "(23:00–02:00 tomorrow)"),
        (5, 4, 6, "(Mon 04:00–06:00)"),
    ],
)
def test_a_span_of_two_times_says_the_day_once(monkeypatch, days, low, high, say):
    midnight = datetime(2026, 11, 25, tzinfo=timezone.get_current_timezone())
    monkeypatch.setattr(timezone, "now", lambda: midnight + timedelta(hours=1))
    start = midnight + timedelta(days=days)

    assert between(start + timedelta(hours=low), start + timedelta(hours=high)) == say
