"""What a row may say beyond the range of each cell: the rules that the forms hold too.

A folder comes from a spreadsheet, another program, another hand. What no form
would have kept would end on a page that cannot be drawn, so it is refused here,
by its own cell and before anything is stored.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.db import models

from wareboard.core.coat.weighed import SOLID_G_CM3_WHERE_NOT_KNOWN
from wareboard.core.drying import air_by_hygrometer
from wareboard.core.errors import CoreError
from wareboard.core.slop import check_sg, density_from_bottle, full_bottle
from wareboard.records.glazes import models as glazes
from wareboard.records.kiln import models as kiln
from wareboard.records.people.models import Studio
from wareboard.records.stores import models as stores
from wareboard.records.ware import models as ware
from wareboard.refdata.cones import all_cone_points
from wareboard.refdata.oxides import all_oxides

Row = Mapping[str, Any]
SWATCH = re.compile(r"#[0-9a-fA-F]{6}")
NAME_BUCKET = "name the bucket, or the glaze alone where the bucket is not known"
FILLINGS = frozenset({"filled", "topped up"})


@dataclass(frozen=True)
class RowRule:
    """One rule that a row has to keep.

    Attributes
    ----------
    column : str
        Where it is said when it is broken.
    fault : str
        What is wrong, to follow the place and the value in a sentence.
    accepted : str
        What would do, as a request.
    broken : callable
        Takes the row, says whether it breaks the rule.
    constraint : str
        The constraint by which the database holds the same; empty where it does not.
    """

    column: str
    fault: str
    accepted: str
    broken: Callable[[Row], bool]
    constraint: str = ""


def _no_clock(row: Row) -> bool:
    try:
        ZoneInfo(row["time_zone"])
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return True
    return False


def _refused(reckon: Callable[[], object]) -> bool:
    try:
        reckon()
    except CoreError:
        return True
    return False


def _no_slop(row: Row) -> bool:
    if not full_bottle(row["empty_g"], row["volume_ml"]).allows(row["full_g"]):
        return True
    return _refused(lambda: density_from_bottle(row["full_g"], row["empty_g"], row["volume_ml"]))


def _not_drawn_off(row: Row) -> bool:
    sg = row["drawn_sg"]
    return sg is not None and _refused(lambda: check_sg(sg, SOLID_G_CM3_WHERE_NOT_KNOWN))


def _no_air(row: Row) -> bool:
    rh_percent = row["rh_percent"]
    return rh_percent is not None and _refused(lambda: air_by_hygrometer(rh_percent))


def _below(row: Row, heavier: str, lighter: str) -> bool:
    """Say whether a weight is less than the one it cannot be less than."""
    return row[heavier] is not None and row[lighter] is not None and row[heavier] < row[lighter]


@cache
def _cones() -> frozenset[str]:
    return frozenset(point.cone for point in all_cone_points())


@cache
def rules() -> Mapping[type[models.Model], tuple[RowRule, ...]]:
    """Give the rules of every kind of row that has any."""
    oxides = ", ".join(all_oxides())
    return {
        Studio: (
            RowRule(
                "time_zone",
                "is no time zone that this machine knows",
                "write one such as Europe/London, or UTC",
                _no_clock,
            ),
        ),
        stores.SheetOxide: (
            RowRule(
                "oxide",
                "is no oxide that the program knows",
                f"write one of {oxides}",
                lambda row: row["oxide"] not in all_oxides(),
            ),
        ),
        stores.Lot: (
            RowRule(
                "label",
                "is blank",
                "write what tells this bag from the next",
                lambda row: not row["label"],
                "lot_has_label",
            ),
        ),
        glazes.Glaze: (
            RowRule(
                "swatch",
                "is no colour",
                "write a colour as #a9a79c",
                lambda row: not SWATCH.fullmatch(row["swatch"]),
            ),
        ),
        glazes.Recipe: (
            RowRule(
                "base",
                "is the glaze itself",
                "write another glaze, or leave it blank",
                lambda row: row["base"] is not None and row["base"] == row["glaze"],
                "recipe_not_own_base",
            ),
        ),
        glazes.Batch: (
            RowRule(
                "drawn_sg",
                "is a density that no slop has",
                f"write a number above 1 and below {SOLID_G_CM3_WHERE_NOT_KNOWN}, such as 1.45",
                _not_drawn_off,
            ),
        ),
        glazes.BucketEvent: (
            RowRule(
                "batch",
                "is blank, though a batch was poured in",
                "name the batch that was poured in",
                lambda row: row["kind"] in FILLINGS and row["batch"] is None,
                "bucket_event_filling_has_batch",
            ),
        ),
        glazes.Reading: (
            RowRule(
                "full_g",
                "is no heavier than the empty bottle",
                "write the weight of the full bottle, more than empty_g",
                lambda row: row["full_g"] <= row["empty_g"],
                "reading_full_over_empty",
            ),
            RowRule(
                "full_g",
                "makes a density that no slop has",
                "write weights and volume that make a density above 1 and up to 10, such as 1.45",
                _no_slop,
            ),
        ),
        ware.Coat: (
            RowRule(
                "bucket",
                "is blank, and so is the column glaze",
                NAME_BUCKET,
                lambda row: row["bucket"] is None and row["glaze"] is None,
                "coat_bucket_or_glaze",
            ),
            RowRule(
                "glaze",
                "stands beside a bucket, which has its own glaze",
                NAME_BUCKET,
                lambda row: row["bucket"] is not None and row["glaze"] is not None,
                "coat_bucket_or_glaze",
            ),
            RowRule(
                "after_g",
                "is less than before_g",
                "write the weight just after the coat, no less than just before it",
                lambda row: _below(row, "after_g", "before_g"),
                "coat_after_not_lighter",
            ),
        ),
        ware.Hope: (
            RowRule(
                "words",
                "is blank, and nothing was spoken",
                "write the hope in words, or name its spoken note",
                lambda row: not row["words"] and row["spoken"] is None,
                "hope_says_something",
            ),
        ),
        ware.Air: (
            RowRule(
                "rh_percent",
                "is a dampness that no room has",
                "write per cent from 5 to 100",
                _no_air,
            ),
        ),
        kiln.ConeReading: (
            RowRule(
                "cone",
                "is no cone that the program knows",
                "write a cone such as 9 or 010",
                lambda row: row["cone"] not in _cones(),
            ),
        ),
        kiln.FuelWeight: (
            RowRule(
                "gross_kg",
                "is less than the empty cylinder",
                "write cylinder and gas together, no less than tare_kg",
                lambda row: _below(row, "gross_kg", "tare_kg"),
                "fuel_weight_gross_over_tare",
            ),
        ),
    }
