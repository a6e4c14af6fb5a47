"""Units that people write, and how they become ours.

The program keeps one unit for each quantity. Here stand the words that people
write behind a number, by family, and the conversion. The conversion factors
are those of pint, which is loaded only when a number in a foreign unit turns
up; nothing else of the program knows it.

A word with two meanings keeps both: ``gr`` is grain or gram, and pints and
gallons differ across the sea. The reader of typed numbers asks then.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pint import UnitRegistry

DEGREE = "\N{DEGREE SIGN}"


@dataclass(frozen=True)
class Unit:
    """A unit that may stand behind a number.

    Attributes
    ----------
    key : str
        As in the names of our variables, for example ``g_cm3``.
    family : str
        Units of one family convert into each other.
    written : str
        How we write it; reads back as this unit and no other.
    pint : str
        Its name in the library that converts.
    words : tuple of str
        Other ways of writing it, in lower case.
    """

    key: str
    family: str
    written: str
    pint: str
    words: tuple[str, ...] = ()


UNITS = (
    Unit("g", "mass", "g", "gram", ("gr", "gram", "grams", "gramme", "grammes", "gm", "gms")),
    Unit("mg", "mass", "mg", "milligram", ("milligram", "milligrams")),
    Unit("kg", "mass", "kg", "kilogram", ("kilo", "kilos", "kilogram", "kilograms")),
    Unit("oz", "mass", "oz", "ounce", ("ounce", "ounces")),
    Unit("lb", "mass", "lb", "pound", ("lbs", "pound", "pounds")),
    Unit("grain", "mass", "grain", "grain", ("gr", "grains")),
    Unit("ml", "volume", "ml", "milliliter", ("cc", "cm3", "millilitre", "millilitres")),
    Unit("cl", "volume", "cl", "centiliter", ()),
    Unit("dl", "volume", "dl", "deciliter", ()),
    Unit("l", "volume", "l", "liter", ("lt", "ltr", "litre", "litres", "liter", "liters")),
    Unit("us_floz", "volume", "US fl oz", "US_fluid_ounce", ("oz", "fl oz", "fl.oz", "floz")),
    Unit("imp_floz", "volume", "imp fl oz", "imperial_fluid_ounce", ("oz", "fl oz", "floz")),
    Unit("us_pt", "volume", "US pt", "US_pint", ("pt", "pint", "pints", "us pint", "us pints")),
    Unit("imp_pt", "volume", "imp pt", "imperial_pint", ("pt", "pint", "pints", "imp pint")),
    Unit("us_qt", "volume", "US qt", "US_liquid_quart", ("qt", "quart", "quarts", "us quart")),
    Unit("imp_qt", "volume", "imp qt", "imperial_quart", ("qt", "quart", "quarts")),
    Unit("us_gal", "volume", "US gal", "US_liquid_gallon", ("gal", "gallon", "gallons")),
    Unit("imp_gal", "volume", "imp gal", "imperial_gallon", ("gal", "gallon", "gallons")),
    Unit("mm", "length", "mm", "millimeter", ("millimetre", "millimetres")),
    Unit("cm", "length", "cm", "centimeter", ("centimetre", "centimetres")),
    Unit("m", "length", "m", "meter", ("metre", "metres", "meter", "meters")),
    Unit(
        "inch", "length", "in", "inch", ('"', "\N{RIGHT DOUBLE QUOTATION MARK}", "inch", "inches")
    ),
    Unit("ft", "length", "ft", "foot", ("foot", "feet")),
    Unit("mm2", "area", "mm2", "millimeter**2", ()),
    Unit("cm2", "area", "cm2", "centimeter**2", ("sq cm",)),
    Unit("dm2", "area", "dm2", "decimeter**2", ("sq dm",)),
    Unit("m2", "area", "m2", "meter**2", ("sq m",)),
    Unit("in2", "area", "in2", "inch**2", ("sq in",)),
    Unit("c", "temperature", f"{DEGREE}C", "degC", ("c", "oc", "deg c", "degc", "celsius")),
    Unit("f", "temperature", f"{DEGREE}F", "degF", ("f", "of", "deg f", "degf", "fahrenheit")),
    Unit("k", "temperature", "K", "kelvin", ("kelvin",)),
    Unit("s", "time", "s", "second", ("sec", "second", "seconds")),
    Unit("min", "time", "min", "minute", ("mins", "minute", "minutes")),
    Unit("h", "time", "h", "hour", ("hr", "hrs", "hour", "hours")),
    Unit("d", "time", "days", "day", ("d", "day")),
    Unit("c_h", "rate", f"{DEGREE}C/h", "delta_degC/hour", ("c/h", "c/hr", f"{DEGREE}c/hr", "k/h")),
    Unit("f_h", "rate", f"{DEGREE}F/h", "delta_degF/hour", ("f/h", "f/hr", f"{DEGREE}f/hr")),
    Unit("sg", "density", "", "gram/milliliter", ("sg",)),
    Unit("g_cm3", "density", "g/cm3", "gram/milliliter", ("g/cc", "g/ml", "kg/l", "kg/dm3")),
    Unit("g_l", "density", "g/l", "gram/liter", ("kg/m3",)),
    Unit("oz_us_pt", "density", "oz/US pt", "ounce/US_pint", ("oz/pt", "oz/pint")),
    Unit("oz_imp_pt", "density", "oz/imp pt", "ounce/imperial_pint", ("oz/pt", "oz/pint")),
    Unit("kpa", "pressure", "kPa", "kilopascal", ("kilopascal", "kilopascals")),
    Unit("mbar", "pressure", "mbar", "millibar", ("millibar", "millibars", "hpa")),
    Unit("bar", "pressure", "bar", "bar", ("bars",)),
    Unit("psi", "pressure", "psi", "pound_force_per_square_inch", ("lb/in2", "lbs/in2")),
    Unit("in_wc", "pressure", "in wc", "inch_H2O", ("in w.c", "inwc", "in h2o", "in. wc")),
    Unit("kg_h", "use", "kg/h", "kilogram/hour", ("kg/hr",)),
    Unit("g_h", "use", "g/h", "gram/hour", ("g/hr",)),
    Unit("lb_h", "use", "lb/h", "pound/hour", ("lb/hr", "lbs/h", "lbs/hr")),
    Unit("", "ratio", "", "dimensionless", ()),
    Unit("percent", "ratio", "%", "percent", ("percent", "per cent", "pct")),
    Unit("parts", "parts", "parts", "dimensionless", ("part", "%")),
)
BY_KEY = {unit.key: unit for unit in UNITS}


@lru_cache
def _words_of(family: str) -> dict[str, tuple[Unit, ...]]:
    words: dict[str, tuple[Unit, ...]] = {}
    for unit in UNITS:
        if unit.family == family:
            for word in dict.fromkeys((unit.written.casefold(), *unit.words)):
                if word:
                    words[word] = (*words.get(word, ()), unit)
    return words


def units_written(word: str, target: str) -> tuple[Unit, ...]:
    """Find the units that a word may mean where a quantity has its own.

    Parameters
    ----------
    word : str
        What stands behind the number, for example ``kg``.
    target : str
        Key of the unit that the quantity has in the program.

    Returns
    -------
    tuple of Unit
        None if the word is unknown there, more than one if it is unclear.
    """
    tidy = " ".join(word.casefold().replace(" / ", "/").split()).removesuffix(".")
    return _words_of(BY_KEY[target].family).get(tidy, ())


def words_for(target: str) -> str:
    """List the units that may be written for a quantity, for a sentence."""
    family = BY_KEY[target].family
    return ", ".join(unit.written for unit in UNITS if unit.family == family and unit.written)


@lru_cache
def _registry() -> "UnitRegistry[Any]":
    import decimal  # noqa: PLC0415 - with pint, below

    import pint  # slow to load, and most numbers come without a foreign unit

    return pint.UnitRegistry(non_int_type=decimal.Decimal)


def convert(value: float, *, of: Unit, target: str) -> float:
    """Turn a number of one unit into our unit of the same family.

    Parameters
    ----------
    value : float
        The number [of].
    of : Unit
        The unit it was written in.
    target : str
        Key of the unit wanted.

    Returns
    -------
    float
        The number [target].
    """
    wanted = BY_KEY[target]
    if of.pint == wanted.pint:
        return value
    registry = _registry()
    exact = registry.Quantity(registry.non_int_type(repr(value)), of.pint)
    return float(exact.to(wanted.pint).magnitude)


def fahrenheit_to_celsius(temp_f: float) -> float:
    """Turn a temperature of a log into ours, without loading anything.

    Examples
    --------
    >>> fahrenheit_to_celsius(212.0)
    100.0
    """
    return (temp_f - 32.0) * 5.0 / 9.0
