"""The demo's recipes and sheets give the unity formulas that its story prints."""

import pytest

from wareboard.core.chemistry import Analysis, analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula

# KNaO, CaO, MgO, Al2O3, SiO2, SiO2:Al2O3, loss on ignition, as the story prints them.
PRINTED = {
    ("rill-1", "potash-feldspar-a"): (0.264, 0.606, 0.129, 0.514, 3.68, 7.2, 9.6),
    ("rill-1", "potash-feldspar-b"): (0.228, 0.637, 0.135, 0.509, 3.93, 7.7, 9.7),
    ("limpet-1", "potash-feldspar-a"): (0.223, 0.362, 0.415, 0.440, 2.69, 6.1, 11.5),
    ("limpet-1", "potash-feldspar-b"): (0.191, 0.379, 0.429, 0.433, 2.87, 6.6, 11.5),
    ("rowan-1", ""): (0.952, 0.034, 0.014, 1.356, 5.15, 3.8, 5.9),
    ("hedgelay-1", ""): (0.157, 0.698, 0.145, 0.317, 1.93, 6.1, 13.6),
}
HALF_A_DIGIT = (5e-4, 5e-4, 5e-4, 5e-4, 5e-3, 5e-2, 5e-2)


@pytest.fixture(scope="module")
def unity_of(told):
    def analysis(material_id, sheet_id):
        sheets = told.of("sheets", material=material_id)
        sheet = next((s for s in sheets if s["id"] == sheet_id), sheets[0] if sheets else None)
        if sheet is None:
            return analysis_of(told.by_id("materials")[material_id]["library_id"])
        oxides = told.of("sheet_oxides", sheet=sheet["id"])
        return Analysis(
            material_id,
            {row["oxide"]: row["percent"] for row in oxides},
            loi_percent=sheet["loss_percent"],
            density_g_cm3=sheet["density_g_cm3"],
        )

    def unity(recipe, feldspar_sheet):
        lines = told.of("recipe_lines", recipe=recipe)
        answer = unity_formula(
            [
                RecipeLine(
                    line["material"],
                    line["parts"],
                    line["addition"],
                    analysis(line["material"], feldspar_sheet),
                )
                for line in lines
            ]
        )
        return answer.result

    return unity


def numbers(result):
    formula = result.unity
    return (
        formula.get("K2O", 0) + formula.get("Na2O", 0),
        formula["CaO"],
        formula["MgO"],
        formula["Al2O3"],
        formula["SiO2"],
        result.sio2_al2o3,
        result.loi_percent,
    )


@pytest.mark.parametrize(("recipe", "sheet"), PRINTED)
def test_unity_formula_is_the_printed_one(unity_of, recipe, sheet):
    found = numbers(unity_of(recipe, sheet))

    for number, printed, half in zip(found, PRINTED[recipe, sheet], HALF_A_DIGIT, strict=True):
        assert number == pytest.approx(printed, abs=half * 1.0001)


@pytest.mark.parametrize("recipe", ["rill-1", "limpet-1"])
def test_new_bag_takes_14_percent_of_the_alkalis_and_brings_7_percent_of_silica(unity_of, recipe):
    before = numbers(unity_of(recipe, "potash-feldspar-a"))
    after = numbers(unity_of(recipe, "potash-feldspar-b"))

    assert round(100 * (after[0] / before[0] - 1)) == -14
    assert round(100 * (after[4] / before[4] - 1)) == 7


@pytest.mark.parametrize(
    ("glaze", "printed"), [("limpet", (0.222, 0.440, 2.69)), ("rill", (0.264, 0.514, 3.67))]
)
def test_rebalanced_recipe_comes_back_to_the_old_formula(unity_of, glaze, printed):
    found = numbers(unity_of(f"{glaze}-2", "potash-feldspar-b"))
    old = numbers(unity_of(f"{glaze}-1", "potash-feldspar-a"))

    restored = (found[0], found[3], found[4])
    for number, digits, half in zip(restored, printed, (5e-4, 5e-4, 5e-3), strict=True):
        assert number == pytest.approx(digits, abs=half * 1.0001)
    assert restored == pytest.approx((old[0], old[3], old[4]), rel=0.02)


def test_colour_was_weighed_for_the_dry_part_of_the_wet_bucket(told):
    rosehip = told.by_id("batches")["rosehip-batch-2"]
    added = {
        line["material"]: line["weighed_g"]
        for line in told.of("batch_lines", batch="rosehip-batch-2")
    }

    # Brongniart with the usual powder of 2.6 g/cm³; Rill's own is within half a per cent of it.
    sg = rosehip["drawn_sg"]
    dry_g = rosehip["drawn_wet_g"] * 2.6 * (sg - 1) / ((2.6 - 1) * sg)
    assert added["copper-carbonate"] == pytest.approx(0.006 * dry_g, rel=0.005)
    assert added["tin-oxide"] == pytest.approx(0.012 * dry_g, rel=0.005)
