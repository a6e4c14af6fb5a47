import pytest

from wareboard.refdata import (
    cones,
    hazards,
    heatwork,
    loading,
    materials,
    oxides,
    release_limits,
)
from wareboard.refdata.loading import Standing, UnknownNameError


def test_an_oxide_says_how_far_each_of_its_numbers_is_to_be_trusted() -> None:
    silica = oxides.oxide("SiO2")

    assert silica.molar_mass_standing is Standing.VERIFIED
    assert silica.melting_point_standing is Standing.FROM_MEMORY


def test_an_oxide_without_melting_point_has_no_standing_for_it() -> None:
    gas = oxides.oxide("CO2")

    assert gas.melting_point_c is None
    assert gas.melting_point_standing is None


def test_an_unknown_oxide_is_refused_with_the_spelling_that_was_meant() -> None:
    with pytest.raises(UnknownNameError, match=r"no oxide called 'cao'\. Near it: CaO"):
        oxides.oxide("cao")


def test_oxygen_is_what_the_iron_oxides_differ_by() -> None:
    difference = oxides.molar_mass_g_mol("Fe2O3") - 2 * oxides.molar_mass_g_mol("FeO")

    assert difference == pytest.approx(oxides.OXYGEN_MOLAR_MASS_G_MOL, abs=1e-9)


def test_one_oxygen_takes_the_place_of_two_fluorines_of_the_table() -> None:
    fluorines = 2 * oxides.molar_mass_g_mol("F")

    assert fluorines * oxides.OXYGEN_FOR_FLUORINE == oxides.OXYGEN_MOLAR_MASS_G_MOL


def test_fluxes_gases_and_colorants_are_oxides_of_the_table_and_do_not_overlap() -> None:
    groups = (*oxides.FLUXES, *oxides.GASES, *oxides.colorants())

    assert len(set(groups)) == len(groups)
    assert set(groups) <= set(oxides.all_oxides())


def test_fluxes_are_the_alkalis_and_alkaline_earths_of_the_table_with_zinc_and_lead() -> None:
    named = {symbol for symbol, found in oxides.all_oxides().items() if "flux" in found.unity_group}

    # Caesium is not counted; bismuth, iron and manganese are outside by convention.
    assert named - {"Cs2O", "FeO", "MnO", "Bi2O3"} == set(oxides.FLUXES)


def test_every_material_adds_up_to_what_its_row_says() -> None:
    rows = {row["id"]: row for row in loading.load(materials.TABLE).rows}

    off = {
        found.id: total
        for found in materials.all_materials().values()
        for total in [
            sum(found.oxides.values())
            - oxides.OXYGEN_FOR_FLUORINE * found.oxides.get("F", 0.0)
            + (found.loi_percent or 0.0)
        ]
        # Each oxide is printed to 0.001: with up to sixteen of them 0.01 is ample.
        if abs(total - float(rows[found.id]["total"])) > 0.01
    }

    assert off == {}


def test_every_oxide_of_every_material_has_a_molar_mass() -> None:
    used = {symbol for found in materials.all_materials().values() for symbol in found.oxides}

    assert used <= set(oxides.all_oxides())


def test_a_material_keeps_the_standing_of_its_analysis_and_of_its_density_apart() -> None:
    petalite = materials.material("petalite_ideal")

    assert petalite.analysis_standing is Standing.COMPUTED
    assert petalite.density_standing is Standing.FROM_MEMORY


def test_a_material_that_states_no_loss_has_none() -> None:
    assert materials.material("glass_srm93a").loi_percent is None
    assert materials.material("quartz_ideal").loi_percent == 0


def test_a_material_found_by_id_is_the_one_in_the_list() -> None:
    listed = materials.all_materials()

    assert all(materials.material(key) == listed[key] for key in listed)


def test_an_unknown_material_is_refused_with_names_near_it() -> None:
    with pytest.raises(UnknownNameError) as refusal:
        materials.material("whiting")

    assert refusal.value.kind == "material"
    assert refusal.value.name == "whiting"
    assert refusal.value.near == ("calcite_ideal",)


def test_a_material_without_density_has_no_standing_for_it() -> None:
    row = dict(loading.load(materials.TABLE).rows[0])

    found = materials._material(row | {"density_g_cm3": "", "density_source": ""})  # noqa: SLF001 no row of ours is without, yet a table may be

    assert found.density_g_cm3 is None
    assert found.density_standing is None


def test_a_cone_series_rises_from_cone_to_cone_and_with_the_rate() -> None:
    series = cones.series("self-supporting")

    at_60 = [point.temp_c for points in series.values() for point in points if point.rate_c_h == 60]
    by_rate = [[point.temp_c for point in points] for points in series.values()]

    assert at_60 == sorted(at_60)
    assert by_rate == [sorted(temps) for temps in by_rate]


def test_a_point_that_the_chart_itself_contradicts_is_left_out_of_its_series() -> None:
    suspect = [point for point in cones.all_cone_points() if point.suspect]

    assert [(point.form, point.cone) for point in suspect] == [("large", "14"), ("large", "14")]
    assert "14" not in cones.series("large")


def test_seger_cones_are_given_without_a_rate() -> None:
    german = cones.series("Seger SK (German make)")

    assert {point.rate_c_h for points in german.values() for point in points} == {None}


def test_an_unknown_set_of_cones_is_refused_with_the_sets_there_are() -> None:
    with pytest.raises(UnknownNameError) as refusal:
        cones.series("self-supporting", "leaded")

    assert refusal.value.near[0] == "self-supporting, regular"


def test_the_heatwork_table_repeats_the_published_end_points() -> None:
    published = {
        (cone, point.rate_c_h): point.temp_c
        for cone, points in cones.series("self-supporting").items()
        for point in points
    }

    repeated = {
        (cone, rate): temp
        for cone, row in heatwork.all_heatwork().items()
        for rate, temp in ((15, row.t15_c), (60, row.t60_c), (150, row.t150_c))
        if temp is not None
    }

    assert repeated == {key: published[key] for key in repeated}
    assert len(repeated) == 111


def test_an_unknown_cone_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="There is no cone called '15'"):
        heatwork.heatwork("15")

    assert heatwork.heatwork("10").standing is Standing.COMPUTED


def test_each_hazard_has_three_limits_each_with_its_own_standing() -> None:
    silica = hazards.all_hazards()[0]

    assert [(limit.authority, limit.standing) for limit in silica.limits] == [
        ("OSHA", Standing.VERIFIED),
        ("NIOSH", Standing.VERIFIED),
        ("HSE", Standing.VERIFIED),
    ]
    assert {len(hazard.limits) for hazard in hazards.all_hazards()} == {3}


def test_a_limit_half_of_which_is_from_memory_counts_as_from_memory() -> None:
    copper = next(h for h in hazards.all_hazards() if h.materials.startswith("copper"))

    assert copper.limits[0].standing is Standing.FROM_MEMORY


def test_lead_and_cadmium_alone_have_limits_for_ceramics() -> None:
    limited = [
        element
        for element, limit in release_limits.all_release_limits().items()
        if not limit.us_limit.startswith("none") and not limit.eu_limit.startswith("none")
    ]

    assert limited == ["Pb", "Cd"]
    assert release_limits.release_limit("Pb").us_standing is Standing.VERIFIED


def test_an_unlisted_element_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="There is no release limit called 'Xe'"):
        release_limits.release_limit("Xe")
