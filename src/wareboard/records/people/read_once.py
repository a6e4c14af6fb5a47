"""Rows with what they name, each named row made once.

Django's ``select_related`` reads all in one query too, but makes what a row
names anew for every row: for three hundred coats out of ten buckets, three
hundred buckets. Here a named row is made when it is first met, and handed to
every other row that names it.
"""

from dataclasses import dataclass
from typing import Any, TypeVar, cast

from django.db.models import ForeignKey, Model, QuerySet

Row = TypeVar("Row", bound=Model)


@dataclass(frozen=True)
class _Named:
    """Where the columns of one named model stand in a row.

    Attributes
    ----------
    field : ForeignKey
        The field that names it.
    owner : str
        Path of the model whose field that is; empty for the rows themselves.
    model : type
        What it names.
    columns : tuple of str
        Its columns, by their attribute names.
    start, key : int
        Place of its first column and of its key in a row.
    """

    field: "ForeignKey[Any, Any]"
    owner: str
    model: type[Model]
    columns: tuple[str, ...]
    start: int
    key: int


def _columns(model: type[Model]) -> tuple[str, ...]:
    return tuple(field.attname for field in model._meta.concrete_fields)


def _plan(model: type[Model], paths: tuple[str, ...]) -> dict[str, _Named]:
    """Lay out what the paths name: ``bucket__glaze`` names a bucket first."""
    models: dict[str, type[Model]] = {"": model}
    plan: dict[str, _Named] = {}
    start = len(_columns(model))
    for path in paths:
        owner = ""
        for field in path.split("__"):
            here = f"{owner}__{field}".removeprefix("__")
            if here not in models:
                foreign = cast("ForeignKey[Any, Any]", models[owner]._meta.get_field(field))
                named = foreign.related_model
                columns = _columns(named)
                key = start + columns.index(named._meta.pk.attname)
                models[here] = named
                plan[here] = _Named(foreign, owner, named, columns, start, key)
                start += len(columns)
            owner = here
    return plan


def read_once(rows: "QuerySet[Row]", *paths: str) -> list[Row]:
    """Read rows with what they name; one query.

    Parameters
    ----------
    rows : QuerySet
        Which rows, filtered, ordered, cut; annotations are lost.
    *paths : str
        What they name and is wanted, as for ``select_related``.
    """
    own = _columns(rows.model)
    plan = _plan(rows.model, paths)
    columns = [f"{path}__{name}" for path, named in plan.items() for name in named.columns]
    met: dict[tuple[type[Model], Any], Model] = {}
    found = []
    for values in rows.values_list(*own, *columns):
        row = rows.model.from_db(rows.db, own, values[: len(own)])
        here: dict[str, Model] = {"": row}
        for path, named in plan.items():
            owner = here.get(named.owner)
            if owner is None or named.field.is_cached(owner):
                continue
            key = values[named.key]
            if key is None:
                continue
            known = met.get((named.model, key))
            if known is None:
                end = named.start + len(named.columns)
                known = named.model.from_db(rows.db, named.columns, values[named.start : end])
                met[named.model, key] = known
            setattr(owner, named.field.name, known)
            here[path] = known
        found.append(row)
    return found
