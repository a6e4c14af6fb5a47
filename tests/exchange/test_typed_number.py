"""Numbers as people type them and as files hold them: one reader, two ways."""

import math
import subprocess
import sys

import pytest

from wareboard.core.units import (
    AREA_DM2,
    LENGTH_MM,
    MASS_G,
    MASS_KG,
    PACKING,
    PARTS,
    PERCENT,
    SLOP_SG,
    SOLID_G_CM3,
    TEMP_C,
    VOLUME_L,
    VOLUME_ML,
    Quantity,
)
from wareboard.exchange.typed_number import (
    Choice,
    NumberAsked,
    NumberRefused,
    Reading,
    TypedNumber,
    read_number,
    read_typed,
)
from wareboard.exchange.units import UNITS, Unit, units_written

# What neither a form nor a file may let through. N-numbers are rows of the list of bad inputs.
NO_NUMBER = {
    "N1 not a number": "NaN",
    "N1 in small letters": "nan",
    "N1 infinity": "inf",
    "N1 minus infinity": "-Infinity",
    "N2 far over every weight": "1e308",
    "N3 over the largest double": "1e309",
    "N4 under the smallest double": "1e-400",
    "N4 smallest double": "5e-324",
    "N5 negative": "-3",
    "N6 underscore": "1_000",
    "N8 en dash as a minus": "\N{EN DASH}5",
    "N8 range with a hyphen": "10-12",
    "N8 range with an en dash": "10\N{EN DASH}12",
    "N9 arabic-indic digits": "\N{ARABIC-INDIC DIGIT ONE}\N{ARABIC-INDIC DIGIT TWO}",
    "N9 arabic decimal sign": "1\N{ARABIC DECIMAL SEPARATOR}5",
    "N9 raised digit": "10\N{SUPERSCRIPT TWO}",
    "N9 circled digit": "\N{CIRCLED DIGIT ONE}",
    "N9 roman numeral": "\N{ROMAN NUMERAL FOUR}",
    "N10 unknown unit": "10 spoons",
    "N10 unit of something else": "10 ml",
    "N10 per cent of a weight": "10 %",
    "N10 fraction of nothing": "1/0",
    "N10 mixed number that is none": "1 3/2",
    "N10 fraction of a fraction": "1/2/3",
    "N11 empty": "",
    "N11 blank": "   ",
    "N11 point": ".",
    "N11 minus": "-",
    "N11 plus": "+",
    "N11 exponent alone": "e5",
    "N11 hexadecimal": "0x10",
    "N11 5,000 digits": "1" * 5000,
    "two points": "1.2.3",
    "point as group and as mark": "1.234.5",
    "groups of two": "1,23,456",
    "invisible blank": "5\N{ZERO WIDTH SPACE}",
    "NUL": "5\0",
    "half of a character": "5\ud800",
    "two lines": "1\n000",
    "unit alone": "g",
}


@pytest.mark.parametrize("reading", Reading)
@pytest.mark.parametrize("text", NO_NUMBER.values(), ids=NO_NUMBER.keys())
def test_what_is_no_usable_weight_is_refused_in_both_readings(text: str, reading: Reading) -> None:
    with pytest.raises(NumberRefused) as refused:
        read_number(text, MASS_G, field="weight", reading=reading)

    assert refused.value.field == "weight"
    assert refused.value.accepted == "grams from 0 to 10000000"
    assert len(refused.value.say) < 250
    assert refused.value.say.isprintable()


# Text, what a form makes of it, and why.
TYPED = {
    "N5 minus zero": ("-0.0", 0.0),
    "N7 decimal comma": ("1,5", 1.5),
    "N7 two digits after the comma": ("1,50", 1.5),
    "N7 four digits after the comma": ("1,5000", 1.5),
    "N7 zero never begins a group, with a point": ("0.500", 0.5),
    "N7 decimal point with four digits": ("1.5000", 1.5),
    "N7 decimal point with two digits": ("1.24", 1.24),
    "N7 nothing before the comma": (",5", 0.5),
    "N7 zero never begins a group": ("0,500", 0.5),
    "N7 four digits are no group": ("1234,500", 1234.5),
    "N7 point groups, comma decimal": ("1.234,5", 1234.5),
    "N7 comma groups, point decimal": ("1,234.5", 1234.5),
    "N7 comma groups twice": ("1,234,567", 1234567.0),
    "N7 point groups twice": ("1.234.567", 1234567.0),
    "N7 no-break space": ("1\N{NO-BREAK SPACE}000", 1000.0),
    "N7 thin space": ("1\N{THIN SPACE}000", 1000.0),
    "N7 narrow no-break space": ("1\N{NARROW NO-BREAK SPACE}000,25", 1000.25),
    "N7 apostrophe": ("1'000", 1000.0),
    "N7 curled apostrophe": ("1\N{RIGHT SINGLE QUOTATION MARK}000.5", 1000.5),
    "N9 full-width digits": ("\uff11\uff12\uff0e\uff15", 12.5),
    "N10 half": ("\N{VULGAR FRACTION ONE HALF}", 0.5),
    "N10 one and a half": ("1\N{VULGAR FRACTION ONE HALF}", 1.5),
    "N10 fraction": ("1/2", 0.5),
    "N10 mixed fraction": ("1 1/2", 1.5),
    "N10 fraction slash": ("3\N{FRACTION SLASH}4", 0.75),
    "N10 own unit": ("10g", 10.0),
    "N10 own unit, capital": ("10 G", 10.0),
    "exponent": ("1,5e3", 1500.0),
    "blanks around": ("  7 ", 7.0),
}


@pytest.mark.parametrize(("text", "value"), TYPED.values(), ids=TYPED.keys())
def test_a_weight_typed_with_one_meaning_is_read(text: str, value: float) -> None:
    number = read_typed(text, MASS_G, field="weight")

    assert number == TypedNumber(value, "")
    assert math.copysign(1.0, number.value) == 1.0


def test_typed_minus_sign_is_a_minus() -> None:
    celsius = read_typed("\N{MINUS SIGN}12,5", TEMP_C, field="temp")

    assert celsius.value == -12.5


# International avoirdupois pound 0.45359237 kg and US gallon 231 cubic inches exactly; NIST
# Special Publication 811, appendix B.8, from memory.
@pytest.mark.parametrize(
    ("text", "quantity", "number"),
    [
        ("2,5 kg", MASS_G, TypedNumber(2500.0, "2,5 kg = 2500 g")),
        ("10 oz", MASS_G, TypedNumber(283.49523125, "10 oz = 283.5 g")),
        ("1 lb.", MASS_G, TypedNumber(453.59237, "1 lb. = 453.6 g")),
        ("1 US gal", VOLUME_L, TypedNumber(3.785411784, "1 US gal = 3.785 l")),
        ('4"', LENGTH_MM, TypedNumber(101.6, '4" = 101.6 mm')),
        ("1450 g/l", SLOP_SG, TypedNumber(1.45, "1450 g/l = 1.45")),
        ("1.45 g/ml", SLOP_SG, TypedNumber(1.45, "1.45 g/ml = 1.45")),
        (
            "50 cm\N{SUPERSCRIPT TWO}",
            AREA_DM2,
            TypedNumber(0.5, "50 cm\N{SUPERSCRIPT TWO} = 0.5 dm2"),
        ),
        ("64 %", PACKING, TypedNumber(0.64, "64 % = 0.64")),
        ("1222\N{DEGREE CELSIUS}", TEMP_C, TypedNumber(1222.0, "")),
        ("212 f", TEMP_C, TypedNumber(100.0, "212 f = 100 \N{DEGREE SIGN}C")),
    ],
)
def test_a_known_unit_is_converted_and_shown(
    text: str, quantity: Quantity, number: TypedNumber
) -> None:
    assert read_typed(text, quantity, field="x") == number


# What a scale shows in kilograms, a jug in litres, a bottle as its density.
@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("1.240", SLOP_SG, 1.24),
        ("2.650", SOLID_G_CM3, 2.65),
        ("1.240 kg", MASS_G, 1240.0),
        ("1.240 l", VOLUME_ML, 1240.0),
        ("1.240", VOLUME_L, 1.24),
        ("1.240", PERCENT, 1.24),
        ("1.240 lb", MASS_KG, 1.24 * 0.45359237),
        ("-1.240", TEMP_C, -1.24),
        ("3.500", TEMP_C, 3.5),
    ],
)
def test_three_places_behind_a_point_are_read_where_thousands_cannot_be_meant(
    text: str, quantity: Quantity, value: float
) -> None:
    number = read_typed(text, quantity, field="x")

    assert number.value == pytest.approx(value, rel=1e-9)


def test_in_files_and_options_a_point_is_always_the_decimal_sign() -> None:
    assert read_number("1.240", MASS_G, field="grams") == 1.24


@pytest.mark.parametrize("text", ["10%", "10 %", "10 per cent", "10"])
def test_per_cent_is_the_unit_of_a_share(text: str) -> None:
    assert read_typed(text, PERCENT, field="share") == TypedNumber(10.0, "")


def test_a_studio_that_types_fahrenheit_gets_celsius_and_sees_it() -> None:
    number = read_typed("212", TEMP_C, field="temp", bare_unit="f")

    assert number == TypedNumber(100.0, "212 \N{DEGREE SIGN}F = 100 \N{DEGREE SIGN}C")


ASKED = {
    "N7 three digits after one comma": (
        "1,500",
        MASS_G,
        "1,500: do you mean 1.5 or 1500?",
        (Choice(1.5, "1.5"), Choice(1500.0, "1500")),
    ),
    "N7 three digits after one point, in grams": (
        "1.240",
        MASS_G,
        "1.240: do you mean 1.24 or 1240?",
        (Choice(1.24, "1.24"), Choice(1240.0, "1240")),
    ),
    "N7 three digits after one point, in millilitres": (
        "1.240 ml",
        VOLUME_ML,
        "1.240 ml: do you mean 1.24 ml or 1240 ml?",
        (Choice(1.24, "1.24 ml"), Choice(1240.0, "1240 ml")),
    ),
    "N7 three digits after one point, in degrees": (
        "1.222",
        TEMP_C,
        "1.222: do you mean 1.2220 (1.222 \N{DEGREE SIGN}C) or 1222?",
        (Choice(1.222, "1.2220"), Choice(1222.0, "1222")),
    ),
    "N7 the answer is not asked about again": (
        "1,234",
        MASS_G,
        "1,234: do you mean 1.2340 (1.234 g) or 1234?",
        (Choice(1.234, "1.2340"), Choice(1234.0, "1234")),
    ),
    "N7 asked even where only one fits": (
        "1,450",
        SLOP_SG,
        "1,450: do you mean 1.45?",
        (Choice(1.45, "1.45"),),
    ),
    "N7 with a unit": (
        "1,500 kg",
        MASS_G,
        "1,500 kg: do you mean 1.5 kg (1500 g) or 1500 kg (1500000 g)?",
        (Choice(1500.0, "1.5 kg"), Choice(1500000.0, "1500 kg")),
    ),
    "N10 gr": (
        "10 gr",
        MASS_G,
        "10 gr: do you mean 10 g or 10 grain (0.648 g)?",
        (Choice(10.0, "10 g"), Choice(0.6479891, "10 grain")),
    ),
    "N10 pint": (
        "2 pints",
        VOLUME_L,
        "2 pints: do you mean 2 US pt (0.9464 l) or 2 imp pt (1.137 l)?",
        (Choice(0.946352946, "2 US pt"), Choice(1.1365225, "2 imp pt")),
    ),
    "lost point": ("145", SLOP_SG, "145: do you mean 1.45?", (Choice(1.45, "1.45"),)),
    "N23 over every kiln": (
        "2232",
        TEMP_C,
        "2232: do you mean 2232 \N{DEGREE SIGN}F (1222 \N{DEGREE SIGN}C)?",
        (Choice(2200 / 1.8, "2232 \N{DEGREE SIGN}F"),),
    ),
    "N23 strange but possible": (
        "1832",
        TEMP_C,
        "1832: do you mean 1832 \N{DEGREE SIGN}F (1000 \N{DEGREE SIGN}C) or 1832 \N{DEGREE SIGN}C?",
        (Choice(1000.0, "1832 \N{DEGREE SIGN}F"), Choice(1832.0, "1832 \N{DEGREE SIGN}C")),
    ),
    "share typed as per cent": (
        "64",
        PACKING,
        "64: do you mean 64 % (0.64)?",
        (Choice(0.64, "64 %"),),
    ),
}


@pytest.mark.parametrize(("text", "quantity", "say", "choices"), ASKED.values(), ids=ASKED.keys())
def test_a_number_with_two_meanings_is_asked_about(
    text: str, quantity: Quantity, say: str, choices: tuple[Choice, ...]
) -> None:
    with pytest.raises(NumberAsked) as asked:
        read_typed(text, quantity, field="x")

    assert asked.value.say == say
    assert asked.value.choices == choices


@pytest.mark.parametrize(
    ("text", "quantity"), [(text, quantity) for text, quantity, _, _ in ASKED.values()]
)
def test_each_choice_typed_back_means_what_it_said(text: str, quantity: Quantity) -> None:
    with pytest.raises(NumberAsked) as asked:
        read_typed(text, quantity, field="x")

    for choice in asked.value.choices:
        again = read_typed(choice.typed, quantity, field="x")
        assert again.value == choice.value


def test_an_unclear_unit_out_of_range_in_every_meaning_is_refused() -> None:
    with pytest.raises(NumberRefused, match="out of range") as refused:
        read_typed("90000 gal", VOLUME_L, field="litres")

    assert not isinstance(refused.value, NumberAsked)


@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("1,5", "has a comma in it; here the decimal sign is a point"),
        ("1_000", "has an underscore in it"),
        ("\uff11", "has characters other than ASCII in it"),
        ("", "is blank"),
        ("abc", "is not a plain number"),
        ("1 000", "is not a plain number"),
        (" 1", "is not a plain number"),
        ("1" * 65, "is longer than 64 characters"),
        ("1e309", "is out of range"),
        ("-1", "is out of range"),
        ("1e-400", "is smaller than can be told from zero"),
    ],
)
def test_a_plain_number_is_refused_with_its_reason(text: str, say: str) -> None:
    with pytest.raises(NumberRefused) as refused:
        read_number(text, PARTS, field="parts")

    shown = text if len(text) < 60 else "1" * 60 + "..."
    assert refused.value.say == (
        f'parts: "{shown}" {say}; accepted is a number from 0 to 1000000000.'
    )
    assert refused.value.seen == shown


@pytest.mark.parametrize(
    ("text", "value"),
    [("40", 40.0), ("+40.", 40.0), (".5", 0.5), ("1e3", 1000.0), ("2.5E-2", 0.025), ("-0.0", 0.0)],
)
def test_plain_numbers_have_sign_digits_point_and_exponent(text: str, value: float) -> None:
    number = read_number(text, PARTS, field="parts")

    assert (number, math.copysign(1.0, number)) == (value, 1.0)


def test_lost_point_of_a_density_is_named_in_a_file_too() -> None:
    with pytest.raises(NumberAsked) as asked:
        read_number("145", SLOP_SG, field="sg")

    assert asked.value.say == "145: do you mean 1.45?"


@pytest.mark.parametrize("reading", Reading)
@pytest.mark.parametrize("text", ["-300", "5000"])
def test_a_temperature_no_kiln_has_on_either_scale_is_refused(text: str, reading: Reading) -> None:
    with pytest.raises(NumberRefused, match="out of range") as refused:
        read_number(text, TEMP_C, field="temp_c", reading=reading)  # N23

    assert not isinstance(refused.value, NumberAsked)


def test_plain_temperature_that_is_possible_is_not_asked_about() -> None:
    assert read_number("1832", TEMP_C, field="temp_c") == 1832.0


@pytest.mark.parametrize("unit", [unit for unit in UNITS if unit.written], ids=lambda u: u.key)
def test_each_unit_as_we_write_it_means_itself_alone(unit: Unit) -> None:
    assert units_written(unit.written, unit.key) == (unit,)


def test_bare_numbers_load_neither_pint_nor_numpy() -> None:
    script = (
        "import sys\n"
        "from wareboard.core.units import MASS_G\n"
        "from wareboard.exchange.typed_number import Reading, read_number\n"
        "read_number('2,5 g', MASS_G, field='x', reading=Reading.AS_TYPED)\n"
        "read_number('2.5', MASS_G, field='x')\n"
        "print(sorted({'pint', 'numpy', 'decimal'} & set(sys.modules)))\n"
    )

    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )

    assert done.stdout == "[]\n"
