import math
import statistics
from dataclasses import replace

import pytest

from wareboard.core.chemistry import LOI, Analysis, Standing, analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula
from wareboard.core.recipe.spread import density_g_cm3, percent_sd
from wareboard.refdata.materials import all_materials

COMPARED = {
    "feldspar_potash_ideal": [
        "feldspar_potash_grade1",
        "feldspar_potash_grade2",
        "feldspar_potash_srm70a",
        "feldspar_potash_bcs376",
    ],
    "feldspar_soda_ideal": ["feldspar_soda_bcs375"],
    "kaolinite_ideal": [
        "kaolin_kga1",
        "kaolin_primary_typical",
        "flint_clay_srm97a",
        "flint_clay_srm97b",
    ],
    "calcite_ideal": ["limestone_srm1c", "limestone_srm1d"],
    "dolomite_ideal": ["dolomite_srm88a", "dolomite_srm88b"],
    "wollastonite_ideal": ["wollastonite_typical"],
    "talc_ideal": ["talc_typical"],
    "petalite_ideal": ["petalite_typical"],
    "spodumene_ideal": ["spodumene_typical", "spodumene_crm"],
    "quartz_ideal": ["glass_sand_srm81a"],
    "metakaolin_ideal": ["kaolin_calcined_typical"],
    "iron_oxide_red_ideal": ["iron_oxide_red_natural", "iron_oxide_red_synthetic"],
    "bone_ash_apatite": ["bone_ash_srm1400"],
    "kaolin_primary_typical": ["kaolin_kga1"],
    "ball_clay_plastic": ["ball_clay_siliceous", "plastic_clay_srm98a", "plastic_clay_srm98b"],
    "nepheline_syenite_studio": ["nepheline_syenite_world_mean"],
}
"""Powders of the library against other powders of the same kind."""

SALE_TOLERANCES = [
    (12.1, 0.6),
    (67.5, 1.0),
    (17.75, 0.5),
    (2.5, 0.8),
    (67.0, 1.0),
    (18.0, 0.5),
    (11.0, 1.0),
    (0.5, 0.5),
    (70.0, 2.0),
    (18.0, 2.0),
    (8.0, 1.0),
    (4.0, 1.0),
]
"""Oxides above 0.3 % of three feldspar grades as sold, each with its tolerance."""

BASIS = Analysis("spar", {"K2O": 12.0, "Al2O3": 18.0, "SiO2": 66.0}, loi_percent=0.4)


def test_two_thirds_of_the_powders_of_a_kind_lie_within_the_general_spread():
    within = []
    for general, others in COMPARED.items():
        first = analysis_of(general)
        for second in map(analysis_of, others):
            pairs = [(o, first.oxides[o], second.oxides.get(o, 0.0)) for o in first.oxides]
            if first.loi_percent:
                pairs.append((LOI, first.loi_percent, second.loi_percent or 0.0))
            within += [
                abs(here - there) <= percent_sd(first, column)
                for column, here, there in pairs
                if here > 0.3 and there
            ]

    assert len(within) == pytest.approx(90, abs=3)
    assert statistics.mean(within) == pytest.approx(2 / 3, abs=0.07)


def test_sale_tolerances_of_feldspars_are_about_two_deviations_of_a_lot():
    ratios = [
        tolerance / (2 * percent_sd(replace(BASIS, oxides={"SiO2": percent}), "SiO2"))
        for percent, tolerance in SALE_TOLERANCES
    ]

    assert statistics.geometric_mean(ratios) == pytest.approx(1, abs=0.4)


def test_a_bag_with_its_own_sheet_is_five_times_as_sure_as_a_general_analysis():
    general = replace(BASIS, standing=Standing.FROM_MEMORY)

    assert percent_sd(BASIS, "K2O") == pytest.approx(0.5)
    assert percent_sd(general, "K2O") == pytest.approx(2.5)


def test_a_small_amount_spreads_by_its_root():
    assert percent_sd(BASIS, LOI) == pytest.approx(0.15 * math.sqrt(0.4))


def test_a_deviation_that_is_given_goes_first():
    sheet = replace(BASIS, sd_percent={"K2O": 0.2, LOI: 0.1})

    assert percent_sd(sheet, "K2O") == 0.2
    assert percent_sd(sheet, LOI) == 0.1


def test_what_the_analysis_does_not_name_has_no_spread():
    assert percent_sd(BASIS, "PbO") == 0
    assert percent_sd(replace(BASIS, loi_percent=None), LOI) == 0


@pytest.mark.parametrize(
    ("sheet", "density", "deviation"),
    [
        (BASIS, 2.6, 0.14 * 2.6),
        (replace(BASIS, density_g_cm3=2.5), 2.5, 0.012 * 2.5),
        (replace(BASIS, density_g_cm3=2.5, density_sd_g_cm3=0.1), 2.5, 0.1),
        (
            replace(BASIS, density_g_cm3=2.5, density_standing=Standing.FROM_MEMORY),
            2.5,
            0.03 * 2.5,
        ),
    ],
)
def test_a_density_is_as_sure_as_its_standing(sheet, density, deviation):
    assert density_g_cm3(sheet) == pytest.approx((density, deviation))


def test_two_sources_for_one_density_differ_as_much_as_is_said():
    # Haematite, tenorite, ilmenite, zircon, wollastonite: as the table quotes them.
    pairs = [(5.25, 5.28), (6.31, 6.51), (4.787, 4.72), (4.6, 4.67), (2.909, 2.92)]

    rms = math.sqrt(statistics.mean(math.log(a / b) ** 2 for a, b in pairs))

    assert rms / math.sqrt(2) == pytest.approx(0.012, abs=5e-4)


def test_white_powders_of_the_library_spread_around_2_6_as_much_as_is_said():
    white = [
        found.density_g_cm3
        for found in all_materials().values()
        if not any(word in found.role for word in ("colourant", "opacifier", "historic"))
        and found.density_g_cm3 < 4
    ]

    assert statistics.mean(white) == pytest.approx(2.6, abs=0.05)
    assert statistics.stdev(white) / 2.6 == pytest.approx(0.14, abs=0.01)


RECIPE = [("spar", 60.0, BASIS), ("chalk", 40.0, Analysis("chalk", {"CaO": 55.0}, 44.0))]


def lines(changed=None):
    found = [changed if changed and changed.id == sheet.id else sheet for _, _, sheet in RECIPE]
    return [
        RecipeLine(key, parts, False, sheet)
        for (key, parts, _), sheet in zip(RECIPE, found, strict=True)
    ]


def shifted(read):
    """Half of what one deviation up and down does to a result, for each number of an analysis."""
    for _, _, sheet in RECIPE:
        for oxide, percent in sheet.oxides.items():
            sd = percent_sd(sheet, oxide) / 100
            up = replace(sheet, oxides={**sheet.oxides, oxide: percent + sd})
            down = replace(sheet, oxides={**sheet.oxides, oxide: percent - sd})
            yield 50 * (
                read(unity_formula(lines(up)).result) - read(unity_formula(lines(down)).result)
            )


@pytest.mark.parametrize(
    ("key", "read"),
    [
        ("unity.K2O", lambda found: found.unity["K2O"]),
        ("unity.SiO2", lambda found: found.unity["SiO2"]),
        ("fired_percent.CaO", lambda found: found.fired_percent["CaO"]),
        ("sio2_al2o3", lambda found: found.sio2_al2o3),
    ],
)
def test_the_doubt_is_what_shifting_each_number_of_the_analyses_gives(key, read):
    answer = unity_formula(lines())

    half = (answer.doubt[key].high - answer.doubt[key].low) / 2

    assert half == pytest.approx(1.645 * math.hypot(*shifted(read)), rel=1e-5)


def test_the_doubt_of_the_loss_is_that_of_its_parts():
    interval = unity_formula(lines()).doubt["loi_percent"]
    spar, chalk = (percent_sd(sheet, LOI) for _, _, sheet in RECIPE)

    half = (interval.high - interval.low) / 2

    assert half == pytest.approx(1.645 * math.hypot(0.6 * spar, 0.4 * chalk), rel=1e-12)
