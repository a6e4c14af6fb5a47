"""The story of a pot."""

from wareboard.records.shelf.models import Verdict


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
