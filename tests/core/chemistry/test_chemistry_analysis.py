import pytest

from wareboard.core.chemistry import LOI, Analysis, Standing, analysis_of
from wareboard.core.errors import CompositionError, DensityError


def test_a_library_material_keeps_its_standings_and_its_source():
    petalite = analysis_of("petalite_ideal")

    assert petalite.standing is Standing.COMPUTED
    assert petalite.density_standing is Standing.FROM_MEMORY
    assert petalite.source == "materials__wareboard2026"
    assert petalite.called == "petalite, ideal"


def test_an_own_sheet_wins_over_the_library():
    own = Analysis("calcite_ideal", {"CaO": 54.0})

    assert analysis_of("calcite_ideal", {"calcite_ideal": own}) is own


def test_the_library_answers_where_the_own_sheets_are_silent():
    assert analysis_of("calcite_ideal", {}) == analysis_of("calcite_ideal")


def test_an_unknown_material_is_refused_with_a_hint():
    with pytest.raises(CompositionError, match="no material called 'whiting'") as refusal:
        analysis_of("whiting")

    assert refusal.value.field == "material"
    assert refusal.value.seen == "whiting"


def test_an_own_sheet_is_given_and_goes_by_its_id():
    sheet = Analysis("chalk", {"CaO": 56.0})

    assert sheet.standing is Standing.GIVEN
    assert sheet.called == "chalk"


def test_fluorine_leaves_and_takes_half_its_molecules_of_oxygen_from_the_air():
    fluorspar = analysis_of("fluorspar_ideal")

    # CaF2 + O -> CaO + F2: 71.825 % stays, so 28.175 % is lost.
    assert fluorspar.kept == {"CaO": 71.825}
    assert fluorspar.loss_percent == pytest.approx(28.175, abs=5e-4)


def test_sulphur_trioxide_leaves():
    gypsum = analysis_of("gypsum")

    assert gypsum.kept == {"CaO": 32.572}
    assert gypsum.loss_percent == pytest.approx(46.5 + 20.928, rel=1e-12)


def test_water_and_carbon_dioxide_by_name_are_parts_of_a_loss_that_is_given():
    sheet = Analysis("chalk", {"CaO": 56.0, "CO2": 43.0, "H2O": 0.5}, loi_percent=44.0)

    assert sheet.loss_percent == 44.0
    assert sheet.kept == {"CaO": 56.0}


def test_water_and_carbon_dioxide_by_name_are_the_loss_where_none_is_given():
    sheet = Analysis("chalk", {"CaO": 56.0, "CO2": 43.0, "H2O": 0.5})

    assert sheet.loss_percent == 43.5


def test_a_powder_that_gains_in_the_fire_has_a_negative_loss():
    assert analysis_of("copper_oxide_red").loss_percent == -11.181


@pytest.mark.parametrize("percent", [-1.0, 201.0, float("nan"), float("inf")])
def test_an_amount_that_cannot_be_is_refused_by_its_column(percent):
    with pytest.raises(CompositionError, match="The CaO of chalk cannot be") as refusal:
        Analysis("chalk", {"CaO": percent})

    assert refusal.value.field == "CaO"


def test_an_unknown_column_is_refused():
    with pytest.raises(CompositionError, match="cao is not an oxide"):
        Analysis("chalk", {"cao": 56.0})


@pytest.mark.parametrize("percent", [-101.0, 100.5, float("nan")])
def test_a_loss_that_cannot_be_is_refused(percent):
    with pytest.raises(CompositionError, match="The LOI of chalk cannot be") as refusal:
        Analysis("chalk", {"CaO": 56.0}, loi_percent=percent)

    assert refusal.value.field == LOI


def test_a_deviation_that_cannot_be_is_refused():
    with pytest.raises(CompositionError, match=r"The CaO of chalk cannot be -0\.1"):
        Analysis("chalk", {"CaO": 56.0}, sd_percent={"CaO": -0.1})


@pytest.mark.parametrize("density", [0.0, 1.0, 30.0, float("nan")])
def test_a_density_that_no_powder_has_is_refused(density):
    with pytest.raises(DensityError, match="The density of chalk cannot be") as refusal:
        Analysis("chalk", {"CaO": 56.0}, density_g_cm3=density)

    assert refusal.value.field == "density_g_cm3"


def test_a_density_in_kilograms_a_cubic_metre_is_asked_about():
    with pytest.raises(DensityError, match=r"do you mean 2\.7\?"):
        Analysis("chalk", {"CaO": 56.0}, density_g_cm3=2700)


def test_a_doubt_of_the_density_that_cannot_be_is_refused():
    with pytest.raises(DensityError, match="The density sd of chalk cannot be -1"):
        Analysis("chalk", {"CaO": 56.0}, density_g_cm3=2.7, density_sd_g_cm3=-1.0)
