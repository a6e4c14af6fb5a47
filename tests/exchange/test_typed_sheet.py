"""Analyses as people type them."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_sheet import IN_WORDS, TypedSheet, read_sheet
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
        "silica 66.5, alumina 18.3, potash 10.6, soda 3, loss on ignition .4",
        "66.5 silica, 18.3 alumina, 10.6 potash, 3 soda and .4 loss",
        "66.5 % SiO2 18.3 % Al2O3 10.6 % K2O 3.0 % Na2O 0.4 % LOI",
        "Silica (SiO2): 66.5\nAl2O3 (alumina): 18.3\nPotash: 10.6\nNa2O: 3.0\nLOI: ,4",
        "Silicon dioxide 66.5; aluminum oxide 18.3; potassium oxide 10.6; sodium oxide 3; LOI .4",
        "  SiO2 66.5,Al2O3 18.3,K2O 10.6,Na2O 3.0,ignition loss 0.4,  ",
    ],
)
def test_one_sheet_written_in_many_ways_is_one_sheet(text):
    assert read_sheet(text, field="sheet") == FELDSPAR


def test_a_bag_is_typed_in_plain_words():
    sheet = read_sheet("silica 66, alumina 18, .4 iron", field="sheet")

    assert sheet == TypedSheet({"SiO2": 66.0, "Al2O3": 18.0, "Fe2O3": 0.4}, None)


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
        ("soda feldspar 20", "After soda a number is missing; write oxide"),
        ("silica 66, .4", '".4" cannot be read here; write oxide'),
        ("silica 66,.4 iron", 'SiO2: "66,.4" is not a number'),
        ("silica (alumina) 66", "After silica a number is missing; write oxide"),
        ("silica 66, SiO2 2", "SiO2 stands twice; write oxide"),
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


PER_CENT = st.decimals(min_value=0, max_value=10, places=2).map(float)
PERCENTS = st.dictionaries(
    st.sampled_from(sorted(all_oxides())),
    PER_CENT,
    min_size=1,
    max_size=8,
)


@given(oxides=PERCENTS, between=st.sampled_from([", ", "; ", "\n", " ", ","]))
def test_every_sheet_that_is_written_out_reads_back(oxides, between):
    text = between.join(f"{oxide} {percent}" for oxide, percent in oxides.items())

    assert read_sheet(text, field="sheet") == TypedSheet(oxides, None)


WORDS = st.dictionaries(st.sampled_from(sorted(IN_WORDS)), PER_CENT, min_size=1, max_size=5)


@given(named=WORDS, between=st.sampled_from([", ", "; ", "\n", " and "]), first=st.booleans())
def test_every_sheet_in_plain_words_reads_back(named, between, first):
    assume(len({IN_WORDS[word] for word in named}) == len(named))
    written = {word: f"{percent}".removeprefix("0") for word, percent in named.items()}
    text = between.join(
        f"{number} {word}" if first else f"{word} {number}" for word, number in written.items()
    )

    sheet = read_sheet(text, field="sheet")

    assert sheet.oxides == {IN_WORDS[word]: percent for word, percent in named.items()}


def refusal_of(text: str) -> str:
    try:
        read_sheet(text, field="sheet")
    except CoreError as refused:
        return refused.say
    return "read."


@given(text=st.text(max_size=80))
def test_any_text_is_a_sheet_or_gets_a_sentence(text):
    assert refusal_of(text).endswith((".", "?"))
