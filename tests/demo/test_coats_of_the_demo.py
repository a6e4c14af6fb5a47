"""Reckoned from the weighings, the demo's coats are as thick as its story says."""

import pytest

from wareboard.core.coat import coat
from wareboard.core.pot.coated import coated_dm2
from wareboard.core.slop import density_from_bottle

USUAL = (0.45, 0.60)
THICK = (0.75, 0.85)
# Coats of the inside, then of the outside from the clay up; what the story calls them.
USUAL_POTS = ("01", "02", "03", "06", "07", "09", "10", "11", "12", "13", "14", "16", "18")
PACKING = 0.50


@pytest.fixture(scope="module")
def thickness_mm(told):
    """Thickness of every coat [mm], from two weighings, the bottle and the form."""
    forms = told.by_id("forms")
    pots = told.by_id("pots")
    densities = solid_densities(told)
    corrected = {row["corrects"] for row in told["readings"]}

    def of(row):
        pot = pots[row["pot"]]
        outline = [
            (point["r_cm"], point["z_cm"]) for point in told.of("form_points", form=pot["form"])
        ]
        area_dm2 = coated_dm2(
            outline,
            forms[pot["form"]]["wall_mm"],
            side=row["side"],
            extent=row["extent"],
            depth_cm=row["lip_cm"],
            foot_gap_mm=pot["foot_gap_mm"] or 0.0,
        )
        reading = max(
            (
                r
                for r in told.of("readings", bucket=row["bucket"])
                if r["at"] <= row["at"] and r["id"] not in corrected
            ),
            key=lambda r: r["at"],
        )
        bottle = density_from_bottle(reading["full_g"], reading["empty_g"], reading["volume_ml"])
        return coat(
            row["before_g"],
            row["after_g"],
            sg=bottle.result.sg,
            solid=densities[told.batch_of(row)],
            area_dm2=area_dm2,
            packing=PACKING,
        ).result.coat_mm

    return {row["id"]: of(row) for row in told["coats"]}


def solid_densities(told):
    """Density of each batch's powder: weights over the sum of volumes."""
    of_material = {
        row["material"]: row["density_g_cm3"] for row in told["sheets"] if row["density_g_cm3"]
    }
    found = {}
    for batch in told["batches"]:
        base = batch["drawn_from"] or batch["id"]
        lines = told.of("batch_lines", batch=base)
        volume = sum(line["weighed_g"] / of_material[line["material"]] for line in lines)
        found[batch["id"]] = sum(line["weighed_g"] for line in lines) / volume
    return found


@pytest.mark.parametrize("number", USUAL_POTS)
def test_usual_coats_are_usual(told, thickness_mm, number):
    coats = told.of("coats", pot=f"pot-{number}")

    assert coats
    for row in coats:
        assert USUAL[0] <= thickness_mm[row["id"]] <= USUAL[1], row["id"]


@pytest.mark.parametrize("number", ["05", "15"])
def test_rosehip_is_thick_where_it_came_out_red(thickness_mm, number):
    assert USUAL[0] <= thickness_mm[f"pot-{number}-coat-1"] <= USUAL[1]
    assert THICK[0] <= thickness_mm[f"pot-{number}-coat-2"] <= THICK[1]


def test_three_coats_meet_in_1_1_mm_on_the_lip_of_the_salt_pig(told, thickness_mm):
    coats = told.of("coats", pot="pot-04")

    assert [row["extent"] for row in coats] == ["whole", "whole", "lip"]
    assert sum(thickness_mm[row["id"]] for row in coats) == pytest.approx(1.1, abs=0.03)


def test_honey_jar_has_0_9_mm_stacked_outside(told, thickness_mm):
    stacked = told.of("coats", pot="pot-08", side="outside")

    assert [told.batch_of(row) for row in stacked] == ["rowan-batch-7", "hedgelay-batch-2"]
    assert sum(thickness_mm[row["id"]] for row in stacked) == pytest.approx(0.9, abs=0.02)


def test_candle_holder_got_40_percent_more_in_the_same_seconds(told, thickness_mm):
    usual, heavy = (told.by_id("coats")[coat] for coat in ("pot-07-coat-2", "pot-17-coat-1"))

    assert usual["seconds"] == heavy["seconds"]
    assert thickness_mm["pot-17-coat-1"] == pytest.approx(0.75, abs=0.01)
    assert thickness_mm["pot-07-coat-2"] == pytest.approx(0.53, abs=0.02)


def test_hedgelay_runs_between_its_usual_coat_and_the_heavy_ones(told, thickness_mm):
    limit_mm = told.by_id("glazes")["hedgelay"]["runs_above_mm"]

    assert thickness_mm["pot-07-coat-2"] < limit_mm < thickness_mm["pot-17-coat-1"]


def test_paired_tiles_have_the_same_coat(told, thickness_mm):
    tiles = [row["id"] for row in told["coats"] if row["pot"].startswith("tile-")]

    assert [thickness_mm[coat] for coat in tiles] == pytest.approx([0.53] * 6, abs=0.02)


def test_a_pot_is_never_lighter_after_a_dip_nor_than_its_clay(told):
    dry_g = {row["pot"]: row["weight_g"] for row in told.of("weighings", state="bone dry")}

    for row in told["coats"]:
        assert dry_g[row["pot"]] <= row["before_g"] < row["after_g"]


def test_reading_put_right_left_the_density_as_it_was(told):
    (right,) = [row for row in told["readings"] if row["corrects"]]
    wrong = told.by_id("readings")[right["corrects"]]

    assert (wrong["full_g"], right["full_g"]) == (754, 745)
    assert right["at"] > wrong["at"]
