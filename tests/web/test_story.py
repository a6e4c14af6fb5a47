"""The story of a pot."""

from datetime import timedelta

from django.utils import timezone
from ware_samples import DRY_FRACTION, bucket_of, coat_of, cylinder, pot_of, slop_g_for

from wareboard.records.glazes.models import BucketEvent, BucketEventKind
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import Shown, day
from wareboard.records.shelf.models import Verdict
from wareboard.records.stores.models import Lot
from wareboard.records.ware.models import Coat, Weighing


def told(reply) -> list[str]:
    return [knot.what for knot in reply.context["knots"]]


def test_the_whole_chain_stands_on_one_page(demo_client):
    reply = demo_client.get("/shelf/pots/pot-10/")

    knots = {knot.what: knot for knot in reply.context["knots"]}
    dip = knots["Dipped in Limpet, outside, below the lip"]
    assert "Limpet batch 4, mixed 4 October" in dip.more
    assert any(line.startswith("Lots: potash feldspar B") for line in dip.more)
    assert knots["Firing 3"].more[:2] == (
        "Stood on the bottom shelf.",
        "Reduction began at 980 °C.",
    )
    assert knots["Outside: bad"].more[0] == "stony, pinholes"


def test_its_one_line_says_the_batch_in_words(demo_client):
    summary = demo_client.get("/shelf/pots/pot-10/").context["summary"]

    assert summary == "Rill inside (batch 6), Limpet outside (batch 4)"


def test_powder_stirred_in_before_the_dip_is_told_with_it_and_later_powder_is_not(
    demo_client, demo_member
):
    coat = Coat.objects.get(pot="pot-10", bucket__glaze="limpet")
    for entry_id, later_h, grams in (("early", -1, 12), ("late", 1, 99)):
        keep(
            BucketEvent,
            demo_member,
            entry_id=entry_id,
            bucket=coat.bucket,
            kind=BucketEventKind.POWDER_IN,
            lot=Lot.objects.get(pk="potash-feldspar-b"),
            amount_g=grams,
            at=coat.at + timedelta(hours=later_h),
        )

    knots = demo_client.get("/shelf/pots/pot-10/").context["knots"]

    stirred = [line for knot in knots for line in knot.more if line.startswith("Stirred in")]
    assert stirred == [f"Stirred in on {day(coat.at, 'j F')}: potash feldspar, 12 g"]


def test_it_is_told_in_order_of_time(demo_client):
    knots = demo_client.get("/shelf/pots/pot-08/").context["knots"]

    assert knots[0].what == "Made"
    assert [knot.at for knot in knots] == sorted(knot.at for knot in knots)


def test_it_takes_at_most_twelve_queries(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        demo_client.get("/shelf/pots/pot-10/")


def test_what_is_remembered_is_marked(demo_client):
    knots = demo_client.get("/shelf/pots/pot-03/").context["knots"]

    assert [knot.remembered for knot in knots if knot.remembered] == ["I think"]


def test_nobody_else_reads_it(stranger, demo):
    assert stranger.get("/shelf/pots/pot-10/").status_code == 404


def test_an_unknown_pot_is_not_found(demo_client):
    assert demo_client.get("/shelf/pots/pot-999/").status_code == 404


def test_a_verdict_is_kept_once_and_shown(demo_client):
    entry = {"entry_id": "judged-here", "surface": "outside", "thumb": "up", "words": "quiet"}

    first = demo_client.post("/shelf/pots/pot-14/judge/", entry)
    again = demo_client.post("/shelf/pots/pot-14/judge/", entry)

    assert (first.status_code, again.status_code) == (302, 302)
    assert Verdict.objects.filter(pk="judged-here").count() == 1
    assert "Outside: good" in told(demo_client.get("/shelf/pots/pot-14/"))


def test_a_later_verdict_corrects_the_one_before_and_keeps_it(demo_client):
    entry = {"entry_id": "second-look", "surface": "outside", "thumb": "down", "faults": ["craze"]}

    demo_client.post("/shelf/pots/pot-14/judge/", entry)

    now = Verdict.objects.get(pk="second-look")
    assert now.corrects is not None
    assert [fault.word for fault in now.faults.all()] == ["craze"]
    assert "Outside: good" not in told(demo_client.get("/shelf/pots/pot-14/"))


def test_a_verdict_that_says_nothing_is_explained_and_not_kept(demo_client):
    before = Verdict.objects.count()

    reply = demo_client.post("/shelf/pots/pot-14/judge/", {"words": "lovely"})

    assert reply.status_code == 422
    assert set(reply.context["form"].errors) == {"surface", "thumb"}
    assert Verdict.objects.count() == before


def put_right_here(client, member):
    """A pot whose weighing and coat were both put right."""
    pot = pot_of(member, cylinder(member))
    bucket = bucket_of(member)
    at = timezone.now() - timedelta(days=2)
    wrong = keep(Weighing, member, pot=pot, weight_g=1840, state="bone dry", at=at)
    coat = coat_of(member, pot, bucket, 0.5, side="inside", before_g=1000.0)
    client.post(f"/ware/weighings/{wrong.pk}/", {"weight_g": "1480", "state": "bone dry"})
    client.post(
        f"/ware/coats/{coat.pk}/right/",
        {"bucket": bucket.pk, "side": "outside", "extent": "whole", "before_g": "990"},
    )
    return pot


def test_what_was_put_right_is_told_quietly(signed_in, member):
    pot = put_right_here(signed_in, member)

    reply = signed_in.get(f"/shelf/pots/{pot.pk}/")

    today = day(timezone.now(), "j M")
    assert [(knot.what, knot.right) for knot in reply.context["knots"] if knot.right] == [
        (
            "Dipped in Limpet, outside, all of it",
            f"put right on {today}; was inside, 1000 g before the dip",
        ),
        ("1480 g", f"put right on {today}; was 1840 g"),
    ]
    assert f'<span class="more quiet">put right on {today}; was 1840 g</span>' in (
        reply.content.decode()
    )


def test_a_coat_of_another_bucket_and_a_cleared_weight_are_told(signed_in, member):
    pot = pot_of(member, cylinder(member))
    wrong, right = bucket_of(member, "Limpet"), bucket_of(member, "Rowan")
    coat = coat_of(member, pot, wrong, 0.5, before_g=1000.0, seconds=3.0)
    after_g = Shown(member.studio).mass(coat.after_g)
    sent = {"bucket": right.pk, "side": "outside", "extent": "whole", "seconds": "4"}
    signed_in.post(f"/ware/coats/{coat.pk}/right/", {**sent, "before_g": "", "after_g": ""})

    knots = signed_in.get(f"/shelf/pots/{pot.pk}/").context["knots"]

    right = [knot.right for knot in knots if knot.right]
    was = f"Limpet bucket, 1000 g before the dip, {after_g} after it, 3 seconds"
    assert right == [f"put right on {day(timezone.now(), 'j M')}; was {was}"]


def test_a_story_put_right_asks_no_more(signed_in, member, django_assert_max_num_queries):
    pot = put_right_here(signed_in, member)

    with django_assert_max_num_queries(12):
        signed_in.get(f"/shelf/pots/{pot.pk}/")


def test_where_the_form_is_not_drawn_the_story_tells_the_grams_as_the_pages_of_the_coat_do(
    signed_in, member
):
    pot = pot_of(member, None, name="odd bowl")
    coat_of(member, pot, bucket_of(member), 0.5)

    knots = signed_in.get(f"/shelf/pots/{pot.pk}/").context["knots"]

    (more,) = [knot.more for knot in knots if knot.kind == "coat"]
    assert more[0].startswith(f"{slop_g_for(0.5) * DRY_FRACTION:.0f} g dry (")
    assert "How thick that is is not known: nobody has drawn the pot's form." in more
