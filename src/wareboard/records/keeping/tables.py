"""Which tables a record folder has, worked out from the models themselves.

One table a model, in the order of the craft; columns are the model's fields.
What belongs to this machine alone (sign-ins, sessions, what was undone) is not
part of the record and stays here.
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.db import models

from wareboard.exchange.record_folder import Column, Kind, TableSpec
from wareboard.records.glazes import models as glazes
from wareboard.records.kiln import models as kiln
from wareboard.records.people.entry import Entry, Part
from wareboard.records.people.limits import range_of
from wareboard.records.people.models import Member, Studio
from wareboard.records.pictures import models as pictures
from wareboard.records.shelf import models as shelf
from wareboard.records.stores import models as stores
from wareboard.records.ware import models as ware

NOT_HANDED_OUT = frozenset({"studio", "person", "undone_at"})


@dataclass(frozen=True)
class Kept:
    """A model and the file its rows go to."""

    model: type[models.Model]
    name: str

    @property
    def owner(self) -> str:
        """For lines of an entry: the field that names the entry."""
        return next(
            f.name
            for f in self.model._meta.fields
            if isinstance(f, models.ForeignKey) and f.remote_field.on_delete is models.CASCADE
        )

    @property
    def is_part(self) -> bool:
        """Whether its rows stand and fall with another's."""
        return issubclass(self.model, Part)

    @property
    def is_entry(self) -> bool:
        """Whether its rows are entries."""
        return issubclass(self.model, Entry)


KEPT = (
    Kept(Studio, "studio"),
    Kept(Member, "members"),
    Kept(pictures.Original, "pictures"),
    Kept(stores.Material, "materials"),
    Kept(stores.Sheet, "sheets"),
    Kept(stores.SheetOxide, "sheet_oxides"),
    Kept(stores.Lot, "lots"),
    Kept(stores.Count, "counts"),
    Kept(glazes.Glaze, "glazes"),
    Kept(glazes.Recipe, "recipes"),
    Kept(glazes.RecipeLine, "recipe_lines"),
    Kept(glazes.Bucket, "buckets"),
    Kept(glazes.Batch, "batches"),
    Kept(glazes.BatchLine, "batch_lines"),
    Kept(glazes.BucketEvent, "bucket_events"),
    Kept(glazes.Reading, "readings"),
    Kept(ware.Form, "forms"),
    Kept(ware.FormPoint, "form_points"),
    Kept(ware.Board, "boards"),
    Kept(ware.Pot, "pots"),
    Kept(ware.PotPhoto, "pot_photos"),
    Kept(ware.Standing, "standings"),
    Kept(ware.BoardWeighing, "board_weighings"),
    Kept(ware.Weighing, "weighings"),
    Kept(ware.Coat, "coats"),
    Kept(ware.Decoration, "decorations"),
    Kept(ware.Mark, "marks"),
    Kept(ware.Hope, "hopes"),
    Kept(ware.Air, "air"),
    Kept(kiln.Kiln, "kilns"),
    Kept(kiln.Place, "places"),
    Kept(kiln.Load, "loads"),
    Kept(kiln.Placing, "placings"),
    Kept(kiln.Firing, "firings"),
    Kept(kiln.GoodFiring, "good_firings"),
    Kept(kiln.Moment, "moments"),
    Kept(kiln.LogLine, "log_lines"),
    Kept(kiln.ConeReading, "cone_readings"),
    Kept(kiln.FuelWeight, "fuel_weights"),
    Kept(kiln.ShelfPhoto, "shelf_photos"),
    Kept(shelf.Verdict, "verdicts"),
    Kept(shelf.Fault, "faults"),
    Kept(shelf.HopeAnswer, "hope_answers"),
)


def fields_of(model: type[models.Model]) -> "list[models.Field[Any, Any]]":
    """Give the fields that are handed out: id first, then as declared, then who and when."""
    last = ("remembered", "by", "kept_at", "together")
    fields = [f for f in model._meta.concrete_fields if f.name not in NOT_HANDED_OUT]
    own = [f for f in fields if f.name not in last and not f.primary_key]
    key = [f for f in fields if f.primary_key]
    return key + own + [f for name in last for f in fields if f.name == name]


def _kind(field: "models.Field[Any, Any]") -> Kind:
    kinds: tuple[tuple[type[models.Field[Any, Any]], Kind], ...] = (
        (models.BooleanField, "boolean"),
        (models.DateTimeField, "datetime"),
        (models.IntegerField, "integer"),
        (models.FloatField, "number"),
    )
    for cls, kind in kinds:
        if isinstance(field, cls):
            return kind
    return "string"


def _unit(field: "models.Field[Any, Any]") -> str:
    text = str(field.help_text)
    return text[text.rindex("[") + 1 : text.rindex("]")] if text.endswith("].") else ""


def column_of(model: type[models.Model], field: "models.Field[Any, Any]") -> Column:
    """Describe one field as a column."""
    names = {kept.model: kept.name for kept in KEPT}
    limits = range_of(model, field.name)
    return Column(
        name=field.name,
        kind=_kind(field),
        unit=_unit(field),
        description=str(field.help_text),
        required=not field.null and not field.blank,
        choices=tuple(str(value) for value, _ in field.choices or () if value != ""),
        refers_to=names.get(field.related_model) if field.related_model else None,
        minimum=limits[0] if limits else None,
        maximum=limits[1] if limits else None,
    )


@cache
def specs() -> tuple[TableSpec, ...]:
    """Describe all tables of a record folder."""
    return tuple(
        TableSpec(
            name=kept.name,
            title=str(kept.model._meta.verbose_name),
            description=(kept.model.__doc__ or "").strip().splitlines()[0],
            columns=tuple(column_of(kept.model, f) for f in fields_of(kept.model)),
        )
        for kept in KEPT
    )
