"""Sheets: whose analysis counts, how far it is believed, and whether it adds up."""

import pytest

from wareboard.core.chemistry import Standing, analysis_of
from wareboard.core.errors import CompositionError
from wareboard.exchange.typed_sheet import read_sheet
from wareboard.records.people.entry import keep
from wareboard.records.stores import actions
from wareboard.records.stores.bridge import (
    Sheets,
    density_alone,
    of_sheet,
    off_hundred,
    shares_of,
    stand_in_of,
)
from wareboard.records.stores.cautions import caution_of
from wareboard.records.stores.models import Lot, Material, SheetStanding


@pytest.fixture
def feldspar(member):
    return keep(Material, member, name="my spar", library_id="feldspar_potash_ideal")


def enter(member, material, text, standing=SheetStanding.SUPPLIER, **facts):
    sheet = read_sheet(text, field="sheet")
    return actions.enter_sheet(member, material, sheet=sheet, standing=standing, **facts)


@pytest.mark.parametrize(
    ("standing", "known_as"),
    [
        (SheetStanding.SUPPLIER, Standing.GIVEN),
        (SheetStanding.BURN_OFF, Standing.GIVEN),
        (SheetStanding.CERTIFIED, Standing.GIVEN),
        (SheetStanding.PUBLISHED, Standing.VERIFIED),
        (SheetStanding.THEORETICAL, Standing.COMPUTED),
        (SheetStanding.TYPICAL, Standing.ILLUSTRATIVE),
    ],
)
def test_only_a_sheet_of_the_bag_is_believed_as_one(member, feldspar, standing, known_as):
    sheet = enter(member, feldspar, "SiO2 66.5 Al2O3 18.3 K2O 14", standing)

    assert of_sheet(sheet, feldspar).standing is known_as


def test_a_typical_sheet_is_five_times_as_doubtful_as_one_of_the_bag(member, feldspar):
    widths = []
    for standing in (SheetStanding.SUPPLIER, SheetStanding.TYPICAL):
        sheet = enter(member, feldspar, "K2O 10.6", standing)
        share = shares_of(of_sheet(sheet, feldspar))[0]
        widths.append(share.doubt.high - share.doubt.low)

    assert widths[1] == pytest.approx(5 * widths[0])


def test_the_loss_stands_last_and_nothing_goes_below_none(member, feldspar):
    sheet = enter(member, feldspar, "LOI 0.1, SiO2 0.05, CaO 99", SheetStanding.TYPICAL)

    shares = shares_of(of_sheet(sheet, feldspar))

    assert [share.oxide for share in shares] == ["SiO2", "CaO", "LOI"]
    assert shares[0].doubt.low == 0.0


def test_no_share_is_more_than_all_of_it(member, feldspar):
    sheet = enter(member, feldspar, "SiO2 99.9", SheetStanding.TYPICAL)

    share = shares_of(of_sheet(sheet, feldspar))[0]

    assert share.doubt.high == 100.0


# Oxides of CaCO3 and KAlSi3O8 by the atomic weights, as the built-in table has them.
@pytest.mark.parametrize(
    ("row", "capped"),
    [("calcite_ideal", {"CaO", "LOI"}), ("feldspar_potash_ideal", {"K2O"})],
)
def test_no_powder_holds_more_than_its_formula(row, capped):
    shares = [share for share in shares_of(analysis_of(row)) if share.percent]

    at_most = {share.oxide for share in shares if share.doubt.high == share.percent}
    assert at_most == capped
    assert all(share.doubt.low < share.percent for share in shares)


def test_a_sheet_is_held_to_the_formula_that_stands_in(member):
    whiting = keep(Material, member, name="whiting", library_id="calcite_ideal")
    sheet = enter(member, whiting, "CaO 55.2, MgO 0.4, LOI 43.5", SheetStanding.TYPICAL)

    shares = shares_of(of_sheet(sheet, whiting), stand_in_of(whiting))

    highest = {share.oxide: share.doubt.high for share in shares}
    # CaCO3 is 56.03 CaO and 43.97 CO2; of magnesia it says nothing.
    assert highest["CaO"] == pytest.approx(56.03, abs=0.005)
    assert highest["LOI"] == pytest.approx(43.97, abs=0.005)
    assert highest["MgO"] > 1.0


def test_quartz_and_clay_bring_no_more_than_they_hold():
    silica, alumina, _loss = shares_of(analysis_of("kaolinite_ideal"))

    assert silica.doubt.high > silica.percent
    assert alumina.doubt.high == pytest.approx(39.5, abs=0.05)


def test_a_bag_without_a_sheet_borrows_the_newest_of_its_material(member, feldspar):
    bag = keep(Lot, member, material=feldspar, label="C")
    enter(member, feldspar, "K2O 10.6")
    newest = enter(member, feldspar, "K2O 7.6")

    assert Sheets([feldspar]).sheet_for(feldspar, bag) == newest


def test_a_bag_with_a_sheet_keeps_to_it(member, feldspar):
    bag = keep(Lot, member, material=feldspar, label="A")
    own = enter(member, feldspar, "K2O 10.6", lot=bag)
    enter(member, feldspar, "K2O 7.6")

    assert Sheets([feldspar]).sheet_for(feldspar, bag) == own


def test_what_stands_in_goes_by_the_potters_own_name(feldspar):
    analysis = Sheets([feldspar]).analysis_for(feldspar)

    assert (analysis.called, analysis.standing) == ("my spar", Standing.COMPUTED)


def test_a_material_of_which_nothing_is_known_says_so(member):
    ash = keep(Material, member, name="hedge ash")

    with pytest.raises(CompositionError, match="What hedge ash is made of is not known yet"):
        Sheets([ash]).analysis_for(ash)


@pytest.mark.parametrize(
    ("typed", "total"),
    [
        ("SiO2 98, LOI 0", None),
        ("SiO2 60, Al2O3 40, LOI 2", None),
        ("SiO2 97.9, LOI 0", 97.9),
        ("SiO2 60, Al2O3 40, LOI 2.1", 102.1),
    ],
)
def test_a_total_far_from_a_hundred_is_named(member, feldspar, typed, total):
    analysis = of_sheet(enter(member, feldspar, typed), feldspar)

    assert off_hundred(analysis) == (None if total is None else pytest.approx(total))


def test_a_row_the_table_never_had_stands_in_for_nothing(member):
    """A record taken in from elsewhere may name one."""
    spar = keep(Material, member, name="moondust", library_id="feldspar_of_the_moon")

    with pytest.raises(CompositionError, match="What moondust is made of is not known yet"):
        Sheets([spar]).analysis_for(spar)
    assert density_alone(spar, None).density_g_cm3 is None
    assert caution_of(spar).startswith("what its dust does is not known here")
    sheet = enter(member, spar, "K2O 10.6")
    assert of_sheet(sheet, spar).density_g_cm3 is None
