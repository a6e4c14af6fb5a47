"""The demo's outlines hold, and weigh, what such pots hold and weigh."""

import statistics

import pytest

from wareboard.core.pot import pot

# What is not in the outline: nothing, a handle or lugs or a hood, a lid.
OPEN = ("pie-dish", "colander-bowl", "planter")
WITH_HANDLES = ("jug", "salt-pig", "oil-bottle", "egg-baker", "honey-jar", "soup-bowl")
WITH_LIDS = ("butter-dish", "casserole")


@pytest.fixture
def shape_of(told):
    def of(form_id):
        points = told.of("form_points", form=form_id)
        outline = [(point["r_cm"], point["z_cm"]) for point in points]
        return pot(outline, told.by_id("forms")[form_id]["wall_mm"]).result

    return of


def dry_g(told, form_id):
    pots = {row["id"] for row in told["pots"] if row["form"] == form_id}
    weights = [
        row["weight_g"] for row in told.of("weighings", state="bone dry") if row["pot"] in pots
    ]
    return statistics.median(weights)


@pytest.mark.parametrize(
    ("form_id", "least", "most"),
    [(form, 0.88, 1.0) for form in OPEN]
    + [(form, 0.78, 0.9) for form in WITH_HANDLES]
    + [(form, 0.6, 0.75) for form in WITH_LIDS],
)
def test_clay_of_the_outline_is_the_pot_less_its_lid_and_handles(
    told, shape_of, form_id, least, most
):
    share = shape_of(form_id).clay_g / dry_g(told, form_id)

    assert least <= share <= most


@pytest.mark.parametrize(
    ("form_id", "least_ml", "most_ml"),
    [
        ("jug", 1_100, 1_400),
        ("mug", 300, 450),
        ("casserole", 2_000, 3_500),
        ("honey-jar", 500, 900),
        ("egg-cup", 40, 70),
    ],
)
def test_pots_hold_what_their_names_promise(shape_of, form_id, least_ml, most_ml):
    assert least_ml <= shape_of(form_id).brim_ml <= most_ml


def test_every_outline_stands_on_the_shelf_and_rises_to_its_rim(told):
    for form in told["forms"]:
        heights = [point["z_cm"] for point in told.of("form_points", form=form["id"])]

        assert heights[0] == 0
        assert heights == sorted(set(heights))
