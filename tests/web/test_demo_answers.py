"""What the demo studio's record must reveal, asked of the pages' own answers.

The demo is taken in from its folder, like anybody's data. Probabilities are
not known yet; the counts, the shared differences and the honest sentence are.
"""

from datetime import date, datetime, time

import pytest
from django.utils import timezone

from wareboard.core.coat import layer_warning
from wareboard.core.coat.layers import RunRisk
from wareboard.core.why import Leaning, Reason, Strand
from wareboard.records.glazes.models import Batch, Glaze
from wareboard.records.kiln.lighting import before_lighting_of
from wareboard.records.kiln.queries import loads_for, pots_in
from wareboard.records.shelf.evidence import gather
from wareboard.records.shelf.words import FaultWord
from wareboard.web.pages.what_changed import compare

BEFORE_F4 = date(2026, 10, 24)
BEFORE_F5 = date(2026, 11, 14)


def compared(member, glaze: str, fault: FaultWord, until: date | None = None):
    """Ask the page's question."""
    last = timezone.make_aware(datetime.combine(until, time.max)) if until else None
    return compare(member, Glaze.objects.get(pk=glaze), fault, last)


def corners(found, said: str) -> tuple[int, int, int, int]:
    """Give one row of the table."""
    (change,) = [row["change"] for row in found["fits"] + found["rest"] if row["said"] == said]
    return (change.faulty_with, change.sound_with, change.faulty_without, change.sound_without)


def names(plank) -> list[str]:
    return [one["pot"].pk for one in plank]


@pytest.fixture
def limpet(demo_member):
    return compared(demo_member, "limpet", FaultWord.PINHOLE, BEFORE_F5)


def test_all_three_limpets_of_batch_4_are_faulty_and_all_three_of_batch_3_sound(limpet):
    assert names(limpet["bad"]) == ["pot-10", "pot-11", "pot-13"]
    assert names(limpet["good"]) == ["pot-01", "pot-06", "pot-14"]
    assert corners(limpet, "batch 4") == (3, 0, 0, 3)


def test_neither_shelf_nor_heat_nor_coat_explains_the_limpets(limpet):
    assert corners(limpet, "place: bottom shelf") == (1, 2, 2, 1)
    assert corners(limpet, "firing 4, 25 October") == (1, 1, 2, 2)
    assert corners(limpet, "firing 3, 11 October") == (2, 0, 1, 3)
    assert "coat as on the sound ones" in limpet["shared"]
    assert "density of the slop: about 1.50" in limpet["shared"]


def test_between_the_limpet_batches_only_the_feldspar_lot_differs(limpet):
    fitting = [(c.attribute, c.value) for c in limpet["finding"].fitting]

    assert [name for name, _value in fitting if name.startswith("lot of ")] == [
        "lot of potash feldspar"
    ]
    for material in ("dolomite", "talc", "whiting", "ball clay", "silica"):
        assert f"{material}, lot 1" in limpet["shared"]


def test_the_sentence_about_limpet(limpet):
    assert limpet["answer"].title == "Most likely potash feldspar, lot B."
    assert limpet["answer"].text == (
        "All 3 pieces with it have the fault, none of the 3 without it. "
        "It came together with batch 4 and Limpet, new bucket, and cannot be told from that. "
        "Chance alone could look like this about 1 time in 3: "
        "it could have fitted in 6 ways, and that is counted in. "
        "It is not certain until one piece of each has been fired side by side."
    )
    assert limpet["finding"].chance_of_any == pytest.approx(6 / 20)
    assert limpet["answer"].next_test == (
        "Put one piece from each bucket side by side in the next load."
    )


def test_rill_shows_the_same_bag_and_the_old_batch_is_sound_in_the_same_fire(demo_member):
    rill = compared(demo_member, "rill", FaultWord.PINHOLE, BEFORE_F5)

    assert names(rill["bad"]) == ["pot-09", "pot-10", "pot-15"]
    assert {"pot-11", "pot-12", "pot-16"} <= set(names(rill["good"]))
    assert corners(rill, "potash feldspar, lot B")[:3] == (3, 0, 0)
    assert rill["finding"].leaning is Leaning.LIKELY


def test_children_of_the_old_base_and_the_glaze_without_feldspar_have_no_pinholes(limpet):
    elsewhere = {row["glaze"]: row for row in limpet["elsewhere"]}

    for glaze in ("Samphire", "Rosehip", "Rowan"):
        assert (elsewhere[glaze]["has_it"], elsewhere[glaze]["faulty_without"]) == (False, 0)
    assert (elsewhere["Rill"]["faulty_with"], elsewhere["Rill"]["with"]) == (3, 3)
    assert elsewhere["Rill"]["faulty_without"] == 0


def test_the_pale_rosehip_has_another_cause_than_the_limpets(demo_member):
    rosehip = compared(demo_member, "rosehip", FaultWord.PALE, BEFORE_F5)

    assert names(rosehip["bad"]) == ["pot-09"]
    assert names(rosehip["good"]) == ["pot-05", "pot-15"]
    assert corners(rosehip, "reduction began: about 1000 °C") == (1, 0, 0, 2)
    assert "batch 2" in rosehip["shared"]
    assert Strand.MIX not in rosehip["finding"].strands


def test_hedgelay_ran_from_a_heavier_coat_out_of_a_bucket_that_weighed_right(demo_member):
    pieces = {
        p.pot.pk: p
        for p in gather(demo_member, Glaze.objects.get(pk="hedgelay"), FaultWord.RUN).pieces
    }
    usual, heavy = pieces["pot-07"], pieces["pot-17"]

    assert heavy.coat_mm / usual.coat_mm == pytest.approx(1.4, abs=0.1)
    assert heavy.reading.flow == "gelled"
    ran = compared(demo_member, "hedgelay", FaultWord.RUN)
    (found,) = [
        row["change"]
        for row in ran["fits"] + ran["rest"]
        if row["said"] == "coat thicker than on the sound ones"
    ]
    assert (found.faulty_with, found.sound_with) == (2, 0)


def test_the_honey_jar_would_have_been_warned_of(demo_member):
    hedgelay = Glaze.objects.get(pk="hedgelay")
    (jar,) = [
        p for p in gather(demo_member, hedgelay, FaultWord.RUN).pieces if p.pot.pk == "pot-08"
    ]

    warning = layer_warning(
        jar.coat_mm,
        doubt_mm=0.05,
        runs_above_mm=hedgelay.runs_above_mm,
        foot_gap_mm=jar.pot.foot_gap_mm,
    )

    assert jar.coat_mm == pytest.approx(0.9, abs=0.05)
    assert jar.pot.foot_gap_mm == pytest.approx(3)
    assert warning.result.run is RunRisk.MAY_RUN


def test_the_casserole_is_a_stop_before_lighting(demo_member):
    load = loads_for(demo_member).get(pk="load-5")

    before = before_lighting_of(demo_member, pots_in(load), load.lit_at)

    assert before.title == "One pot is too wet to light tonight."
    assert before.text.startswith(
        "The lidded casserole holds 64 g more than this air explains. Take it out"
    )
    assert (before.rows[0]["pot"].pk, before.rows[0]["sign"]) == ("pot-18", "stop")
    # 64 g of 1800 g of clay are 3.56 %.
    assert before.rows[0]["more"].startswith("64 g over (43–77), 3.6 %")
    assert "96 g over its own bone-dry weight" in before.rows[0]["why"][0]
    assert "explains 32 g" in before.rows[0]["why"][0]


def test_before_the_fourth_firing_it_cannot_be_told(demo_member):
    early = compared(demo_member, "limpet", FaultWord.PINHOLE, BEFORE_F4)

    assert early["finding"].reason is Reason.SEVERAL
    assert early["answer"].title == (
        "Cannot tell yet: the new batch and the firing changed at the same time."
    )
    assert early["answer"].next_test.startswith("Put one piece from each bucket side by side")


def test_after_the_tiles_it_is_four_against_none_on_each_side_and_still_only_likely(demo_member):
    after = compared(demo_member, "limpet", FaultWord.PINHOLE)

    assert corners(after, "potash feldspar, lot B") == (4, 0, 0, 4)
    assert names(after["aside"]) == ["tile-limpet-c"]
    assert after["answer"].title == "Most likely potash feldspar, lot B."
    assert "not certain" in after["answer"].text


def test_loads_have_their_pieces(demo_member):
    sizes = {load.pk: load.pots for load in loads_for(demo_member)}

    assert [sizes[f"load-{n}"] for n in range(1, 6)] == [38, 41, 40, 36, 39]


def test_samphire_and_rosehip_were_drawn_from_the_old_base(demo):
    drawn = dict(Batch.objects.filter(drawn_from__isnull=False).values_list("pk", "drawn_from"))

    assert set(drawn.values()) == {"rill-batch-5"}
