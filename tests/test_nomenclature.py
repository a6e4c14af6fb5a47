"""The page of names and units, held against the program.

Quantities of the core, numbers its results carry, and columns of the record
must be in order there, and nothing may stand there that is gone.
"""

import dataclasses
import importlib
import inspect
import pkgutil
import re
import types
import typing
from collections.abc import Iterator
from pathlib import Path

import wareboard.core
from wareboard.core import units
from wareboard.core.units import Quantity

PAGE = (Path(__file__).parent.parent / "docs" / "nomenclature.md").read_text(encoding="utf-8")
OF_A_QUANTITY = {"lowest", "highest", "minus", "divisor"}
OLD_SCALES = {"twaddell"}


def rows_under(heading: str) -> list[list[str]]:
    """Give the rows of the table under a heading, without its head."""
    under = PAGE.partition(f"## {heading}\n")[2].partition("\n## ")[0]
    rows = [line for line in under.splitlines() if line.startswith("|")][2:]
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in rows]


ENDS = {row[0].strip("`"): row[2] for row in rows_under("Ends of names")}
WORDS = {row[0].strip("`") for row in rows_under("Whole words")}


def line_of(name: str) -> str:
    """Give the line of the page that a name goes by; blank where there is none."""
    ends = sorted((end for end in ENDS if f"_{name}".endswith(end)), key=len, reverse=True)
    parts = name.split("_")
    whole = [word for word in (parts[-1], parts[0]) if word in WORDS]
    return name if name in WORDS else next(iter((*ends, *whole)), "")


def core_modules() -> Iterator[types.ModuleType]:
    for info in pkgutil.walk_packages(wareboard.core.__path__, "wareboard.core."):
        yield importlib.import_module(info.name)


def numbers_of(thing: object) -> set[str]:
    """Give the names in a class or a function that are numbers, or numbers by oxide."""
    hints = typing.get_type_hints(thing)
    return {name for name, hint in hints.items() if float in {hint, *typing.get_args(hint)}}


def defined(kind: typing.Callable[[object], bool]) -> list[typing.Any]:
    """Give the public things of a kind that modules of the core define."""
    return [
        value
        for module in core_modules()
        for name, value in inspect.getmembers(module, kind)
        if value.__module__ == module.__name__ and not name.startswith("_")
    ]


def names_given_back() -> set[str]:
    classes = [c for c in defined(inspect.isclass) if dataclasses.is_dataclass(c)]
    return set().union(*map(numbers_of, classes))


def names_asked_for() -> set[str]:
    return set().union(*map(numbers_of, defined(inspect.isfunction)))


def units_in_use() -> set[str]:
    quantities = [
        value
        for module in core_modules()
        for _name, value in inspect.getmembers(module, lambda v: isinstance(v, Quantity))
    ]
    return {quantity.unit for quantity in quantities} - {""} - OLD_SCALES


def columns() -> dict[str, set[str]]:
    """Give the number columns of the record, each with the units in its descriptions."""
    from django.db import models  # noqa: PLC0415 - needs Django

    from wareboard.records.keeping.tables import KEPT  # noqa: PLC0415 - as above

    found: dict[str, set[str]] = {}
    for kept in KEPT:
        for field in kept.model._meta.concrete_fields:
            if isinstance(field, models.FloatField):
                unit = re.search(r"\[([^\]]*)\]\.?$", str(field.help_text))
                found.setdefault(field.name, set()).add(unit[1] if unit else "")
    return found


def test_every_quantity_has_its_unit_on_the_page():
    assert {u for u in units_in_use() if f"_{u}" not in ENDS and u not in WORDS} == set()


def test_every_number_the_core_gives_back_says_its_unit():
    names = names_given_back() - OF_A_QUANTITY

    assert {name for name in names if not line_of(name)} == set()


def test_every_column_of_the_record_says_its_unit():
    assert {name for name in columns() if not line_of(name)} == set()


def test_every_column_has_in_its_description_the_unit_of_its_name():
    against = {
        name: found
        for name, found in columns().items()
        if (line := line_of(name)) in ENDS
        and {unit.removesuffix(" by weight") for unit in found} != {ENDS[line]}
    }

    assert against == {}


def test_the_page_lists_nothing_that_is_gone():
    used = {line_of(n) for n in names_given_back() | names_asked_for() | set(columns())}
    typed = {f"_{value.unit}" for value in vars(units).values() if isinstance(value, Quantity)}

    assert {*ENDS, *WORDS} - used - typed == set()


def test_a_name_without_its_unit_would_be_noticed():
    names = ["full_g", "coat_g_dm2", "percent", "hours_to", "slop_lb", "weight", "viscosity_pa_s"]

    assert [line_of(name) for name in names] == ["_g", "_g_dm2", "_percent", "hours", "", "", ""]
