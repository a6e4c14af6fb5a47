"""Analyses as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_sheet import TypedSheet, read_sheet
from wareboard.refdata.oxides import all_oxides

# The feldspar of one and the same sheet, written in the ways that sheets and people write it.
FELDSPAR = TypedSheet({"SiO2": 66.5, "Al2O3": 18.3, "K2O": 10.6, "Na2O": 3.0}, 0.4)


@pytest.mark.parametrize(
    "text",
    [
        "SiO2 66.5, Al2O3 18.3, K2O 10.6, Na2O 3.0, LOI 0.4",
        "SiO2 66,5, Al2O3 18,3, K2O 10,6, Na2O 3, LOI 0,4",
        "SiO₂: 66.5 %; Al₂O₃: 18.3 %; K₂O: 10.6 %; Na₂O: 3.0 %; loss on ignition: 0.4 %",
        "sio2\t66.5\nal2o3\t18.3\nk2o\t10.6\nna2o\t3.0\nL.O.I.\t0.4",
        "SiO2=66.5 Al2O3=18.3 K2O=10.6 Na2O=3.0 Loss 0.4.",
        "  SiO2 66.5,Al2O3 18.3,K2O 10.6,Na2O 3.0,ignition loss 0.4,  ",
    ],
)
def test_one_sheet_written_in_many_ways_is_one_sheet(text):
    assert read_sheet(text, field="sheet") == FELDSPAR


def test_what_adds_up_is_what_stays_and_what_leaves():
    assert FELDSPAR.total_percent == pytest.approx(98.8)


def test_a_loss_that_is_not_given_is_not_known():
    assert read_sheet("SiO2 99.5", field="sheet").loi_percent is None


@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("Si02 66.5", '"Si02" is no oxide known here; do you mean SiO2?'),
        ("SiO2 66.5, Unobtainium 3", '"Unobtainium" is no oxide known here; write oxide'),
        ("SiO2, Al2O3 18.3", "After SiO2 a number is missing; write oxide"),
        ("SiO2 66.5 Al2O3", "After Al2O3 a number is missing; write oxide"),
        ("SiO2 66.5, SiO2 2", "SiO2 stands twice; write oxide"),
        ("66.5 18.3", '"66.5 18.3" cannot be read here; write oxide'),
        ("SiO2 66.5 (fired)", '"(fired)" cannot be read here; write oxide'),
        ("SiO2 -3", 'SiO2: "-3" is out of range; accepted is weight per cent from 0 to 200.'),
        ("SiO2 99 LOI -1", 'LOI: "-1" is out of range; accepted is per cent from 0 to 100.'),
        ("SiO2 1.2.3", 'SiO2: "1.2.3" is not a number'),
        ("SiO2 80, Al2O3 31", "This adds up to 111.0 %, which no analysis does; write oxide"),
        ("LOI 12", "There is no oxide in it; write oxide"),
        (" , ", "There is no oxide in it; write oxide"),
        ("", "There is no oxide in it; write oxide"),
    ],
)
def test_what_cannot_be_read_is_named(text, say):
    with pytest.raises(CoreError) as refused:
        read_sheet(text, field="sheet")

    assert refused.value.say.startswith(say)
    assert refused.value.field == "sheet"


PERCENTS = st.dictionaries(
    st.sampled_from(sorted(all_oxides())),
    st.decimals(min_value=0, max_value=10, places=2).map(float),
    min_size=1,
    max_size=8,
)


@given(oxides=PERCENTS, between=st.sampled_from([", ", "; ", "\n", " ", ","]))
def test_every_sheet_that_is_written_out_reads_back(oxides, between):
    text = between.join(f"{oxide} {percent}" for oxide, percent in oxides.items())

    assert read_sheet(text, field="sheet") == TypedSheet(oxides, None)


def refusal_of(text: str) -> str:
    try:
        read_sheet(text, field="sheet")
    except CoreError as refused:
        return refused.say
    return "read."


@given(text=st.text(max_size=80))
def test_any_text_is_a_sheet_or_gets_a_sentence(text):
    assert refusal_of(text).endswith((".", "?"))
