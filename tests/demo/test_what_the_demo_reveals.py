"""What the records of the demo must let a person find out, one claim a test."""

import pytest

from wareboard.core.slop import dry_fraction

USUAL_SOLID_G_CM3 = 2.6
BEFORE_TILES = ("pot-01", "pot-06", "pot-10", "pot-11", "pot-13", "pot-14")


def pots_with(told, glaze, fault, *, side=None):
    return {
        (pot, batch)
        for pot, where, batch in told.pieces(glaze)
        if fault in told.faults_by_surface[pot, where] and side in {None, where}
    }


def judged(told, glaze):
    return {(pot, batch) for pot, _, batch in told.pieces(glaze)}


def tiles(pairs):
    return {(pot, batch) for pot, batch in pairs if pot.startswith("tile-")}


def test_all_three_limpet_pots_of_batch_4_are_pinholed_and_all_three_of_batch_3_sound(told):
    holed = pots_with(told, "limpet", "pinhole")
    every = judged(told, "limpet")

    assert holed - tiles(holed) == {
        ("pot-10", "limpet-batch-4"),
        ("pot-11", "limpet-batch-4"),
        ("pot-13", "limpet-batch-4"),
    }
    assert every - holed - tiles(every) == {
        ("pot-01", "limpet-batch-3"),
        ("pot-06", "limpet-batch-3"),
        ("pot-14", "limpet-batch-3"),
    }


def test_between_limpet_batches_only_the_feldspar_bag_changed(told):
    before, after = told.lots_of("limpet-batch-3"), told.lots_of("limpet-batch-4")

    assert before.keys() == after.keys()
    assert {m for m in before if before[m] != after[m]} == {"potash-feldspar"}
    assert (before["potash-feldspar"], after["potash-feldspar"]) == (
        "potash-feldspar-a",
        "potash-feldspar-b",
    )


def test_limpet_batches_were_weighed_out_alike(told):
    weighed = [
        [(line["material"], line["weighed_g"]) for line in told.of("batch_lines", batch=batch)]
        for batch in ("limpet-batch-3", "limpet-batch-4")
    ]

    assert weighed[0] == weighed[1]


def test_sound_limpet_stood_on_the_cool_shelf_and_pinholed_limpet_on_the_better_one(told):
    places = {pot: told.level_of(pot) for pot in BEFORE_TILES}

    assert places["pot-13"] == ("load-4", "place-middle")
    assert places["pot-14"] == ("load-4", "place-bottom")
    assert places["pot-06"] == ("load-2", "place-bottom")


def test_limpet_hung_alike_in_both_buckets(told):
    readings = [
        row
        for bucket in ("limpet-bucket-1", "limpet-bucket-2")
        for row in told.of("readings", bucket=bucket)
        if row["at"].month < 11
    ]
    densities = [(r["full_g"] - r["empty_g"]) / r["volume_ml"] for r in readings]

    assert {row["flow"] for row in readings} == {"as usual"}
    assert densities == pytest.approx([1.50] * len(densities), abs=0.003)


def test_no_mark_decoration_or_dryness_divides_sound_limpet_from_pinholed(told):
    holed = {"pot-10", "pot-11", "pot-13"}
    sound = set(BEFORE_TILES) - holed
    coats = [row for row in told["coats"] if row["pot"] in BEFORE_TILES]
    traits = {(row["beneath"], row["pot"]) for row in coats if "limpet" in row["bucket"]}
    traits |= {(row["kind"], row["pot"]) for row in told["marks"] if row["pot"] in BEFORE_TILES}
    traits |= {
        (row["kind"], row["pot"]) for row in told["decorations"] if row["pot"] in BEFORE_TILES
    }

    for trait in {word for word, _ in traits}:
        having = {pot for word, pot in traits if word == trait}
        assert having not in (holed, sound), trait


def test_rill_batch_6_is_pinholed_inside_and_batch_5_is_sound_in_the_same_firings(told):
    holed = pots_with(told, "rill", "pinhole", side="inside")
    sound = judged(told, "rill") - holed

    assert holed == {(f"pot-{n}", "rill-batch-6") for n in ("09", "10", "15")}
    assert {(f"pot-{n}", "rill-batch-5") for n in (11, 12, 16)} <= sound
    assert {batch for pot, batch in sound if not pot.startswith("tile-")} == {"rill-batch-5"}


def test_children_of_the_old_rill_batch_show_no_pinholes(told):
    for glaze, batch in (("rosehip", "rosehip-batch-2"), ("samphire", "samphire-batch-1")):
        assert {found for _, found in judged(told, glaze)} == {batch}
        assert told.lots_of(batch)["potash-feldspar"] == "potash-feldspar-a"
        assert not pots_with(told, glaze, "pinhole")


def test_glazes_without_potash_feldspar_show_no_pinholes_in_any_firing(told):
    for glaze, batches in (
        ("rowan", ("rowan-batch-7",)),
        ("hedgelay", ("hedgelay-batch-2", "hedgelay-batch-3")),
    ):
        assert all("potash-feldspar" not in told.lots_of(batch) for batch in batches)
        assert not pots_with(told, glaze, "pinhole")


def test_rowans_one_fault_is_the_crawl_on_a_thick_lip(told):
    faults = {
        pot: told.faults_by_surface[pot, side]
        for pot, side, _ in told.pieces("rowan")
        if told.faults_by_surface[pot, side] and pot != "pot-08"
    }

    assert faults == {"pot-04": {"crawl"}}


def test_rosehip_was_pale_once_and_red_again_from_the_same_batch(told):
    colours = {
        pot: told.faults_by_surface[pot, "outside"] for pot in ("pot-05", "pot-09", "pot-15")
    }

    assert colours == {"pot-05": set(), "pot-09": {"pale"}, "pot-15": set()}
    assert {batch for _, batch in judged(told, "rosehip")} == {"rosehip-batch-2"}


def test_hedgelay_3_had_the_right_density_and_hung_gelled(told):
    usual, gelled = told.of("readings", bucket="hedgelay-bucket")

    assert gelled["full_g"] == usual["full_g"]
    assert (usual["flow"], gelled["flow"]) == ("as usual", "gelled")
    assert told.lots_of("hedgelay-batch-3")["hedge-ash"] == "hedge-ash-3"


def test_honey_jar_was_stacked_on_a_narrow_foot_gap(told):
    jar = told.by_id("pots")["pot-08"]

    assert jar["foot_gap_mm"] == 3
    assert told.faults_by_surface["pot-08", "outside"] == {"run", "stuck"}


def test_casserole_was_96_g_over_its_clay_and_the_fog_explains_32(told):
    weighings = told.by_id("weighings")
    dry_g = weighings["pot-18-bone-dry"]["weight_g"]
    morning_g = weighings["pot-18-before-firing-5"]["weight_g"]
    coats_g = 0.0
    for row in told.of("coats", pot="pot-18"):
        (reading,) = [
            r for r in told.of("readings", bucket=row["bucket"]) if f"{r['at']:%m-%d}" == "11-12"
        ]
        sg = (reading["full_g"] - reading["empty_g"]) / reading["volume_ml"]
        coats_g += (row["after_g"] - row["before_g"]) * dry_fraction(sg, USUAL_SOLID_G_CM3)
    fog = next(row for row in told["air"] if row["word"] == "fog")
    humidity = fog["rh_percent"] / 100
    from_air_g = dry_g * 0.008 * (humidity / (1 - humidity)) ** 0.42

    assert dry_g == 1800
    assert from_air_g == pytest.approx(32, abs=0.5)
    # Two coats, each weighed twice to the gram.
    assert morning_g - dry_g - coats_g == pytest.approx(96, abs=1.5)
    assert told.faults_by_surface["pot-18", "whole"] == {"burst"}


def test_tiles_exist_only_from_the_last_firing_on(told):
    placed = {row["pot"]: row["load"] for row in told["placings"]}
    tested = {row["id"] for row in told["pots"] if row["test_piece"]}

    assert len(tested) == 6
    assert {placed[pot] for pot in tested} == {"load-5"}
    assert {told.level_of(pot) for pot in tested} == {("load-5", "place-middle")}


def test_tiles_settle_it_four_against_none_on_each_side(told):
    holed = {pot for pot, _ in pots_with(told, "limpet", "pinhole")}
    recipe_1 = {
        (pot, told.lots_of(batch)["potash-feldspar"])
        for pot, batch in judged(told, "limpet")
        if told.by_id("batches")[batch]["recipe"] == "limpet-1"
    }

    assert {pot for pot, lot in recipe_1 if lot == "potash-feldspar-b"} == holed
    assert len(holed) == 4
    assert len(recipe_1) == 8


def test_rebalanced_tiles_are_sound_with_the_new_bag(told):
    for glaze in ("limpet", "rill"):
        batch = next(b for pot, b in judged(told, glaze) if pot == f"tile-{glaze}-c")

        assert told.lots_of(batch)["potash-feldspar"] == "potash-feldspar-b"
        assert told.by_id("batches")[batch]["recipe"] == f"{glaze}-2"
        assert told.faults_by_surface[f"tile-{glaze}-c", "outside"] == set()


def test_loads_have_the_pieces_that_were_counted(told):
    counted = [len(told.of("placings", load=f"load-{number}")) for number in range(1, 6)]

    assert counted == [38, 41, 40, 36, 39]


def test_every_fired_piece_was_placed_once_and_judged(told):
    lit = {row["load"] for row in told["firings"]}
    placed = [row["pot"] for row in told["placings"] if row["load"] in lit]
    waiting = {row["pot"] for row in told["placings"] if row["load"] not in lit}

    assert len(placed) == len(set(placed))
    assert {row["id"] for row in told["pots"]} - set(placed) == waiting
    assert waiting == {"pot-19", "pot-20", "pot-21"}
    assert {row["pot"] for row in told["verdicts"]} == set(placed)


def test_other_pots_carry_no_coats_so_that_the_counts_stay_clear(told):
    told_in_full = {f"pot-{number:02d}" for number in range(1, 20)}
    coated = {row["pot"] for row in told["coats"]}

    assert coated - told_in_full == {row["id"] for row in told["pots"] if row["test_piece"]}


def test_eleven_pots_are_students_two_with_nobodys_mark(told):
    whose = [row["whose"] for row in told["pots"] if row["whose"]]

    assert len(whose) == 11
    assert sum("no mark" in words for words in whose) == 2


def test_ball_clay_runs_out_in_three_weeks(told):
    first, second = told.of("counts", lot="ball-clay-1")
    weeks = (second["at"] - first["at"]).days / 7

    assert second["left_g"] / ((first["left_g"] - second["left_g"]) / weeks) == pytest.approx(3)
    assert len({row["lot"] for row in told["counts"]}) == 6


def test_forms_have_enough_bone_dry_weights_to_speak_of_usual(told):
    forms = {row["id"]: row["form"] for row in told["pots"]}
    dry = [forms[row["pot"]] for row in told.of("weighings", state="bone dry")]

    assert {form: dry.count(form) >= 3 for form in ("casserole", "jug", "butter-dish")} == {
        "casserole": True,
        "jug": True,
        "butter-dish": True,
    }
