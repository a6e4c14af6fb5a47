"""The description of a record folder for other programs: ``datapackage.json``.

It follows the Data Package standard, version 2: a package of tables, each with
its dialect of CSV and its Table Schema. What the standard has no word for
stands beside it: the unit of a column, and the layout of the folder.
"""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from wareboard.exchange.record_folder.spec import Column, TableSpec

FILE = "datapackage.json"
LAYOUT = 1
"""Version of the layout; grows when an older program could not read the folder."""

PACKAGE_NAME = "wareboard-record"
PACKAGE_PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
DIALECT: dict[str, Any] = {
    "$schema": "https://datapackage.org/profiles/2.0/tabledialect.json",
    "delimiter": ",",
    "doubleQuote": True,
    "header": True,
    "lineTerminator": "\n",
    "quoteChar": '"',
    "skipInitialSpace": False,
}
DESCRIPTION = (
    "The whole record of a pottery studio: one CSV file for each kind of thing, the original "
    "photos and sounds in folders beside them. README.txt says in plain words what is what."
)


def descriptor_of(
    tables: Sequence[TableSpec], *, studio_title: str, program_version: str
) -> dict[str, Any]:
    """Describe a record folder.

    Parameters
    ----------
    tables : sequence of TableSpec
        The tables that are in the folder, the table of originals included.
    studio_title : str
        Name of the studio.
    program_version : str
        Version of the program that writes the folder.

    Returns
    -------
    dict
        The package, ready to be written as JSON.
    """
    by_name = {spec.name: spec for spec in tables}
    return {
        "$schema": PACKAGE_PROFILE,
        "name": PACKAGE_NAME,
        "title": studio_title,
        "description": DESCRIPTION,
        "recordFolder": {"layout": LAYOUT, "programVersion": program_version},
        "resources": [_resource(spec, by_name) for spec in tables],
    }


def as_bytes(descriptor: dict[str, Any]) -> bytes:
    """Write a description so that the same one gives the same bytes."""
    text = json.dumps(descriptor, ensure_ascii=False, sort_keys=True, indent=2, allow_nan=False)
    return (text + "\n").encode()


def _resource(spec: TableSpec, by_name: Mapping[str, TableSpec]) -> dict[str, Any]:
    schema: dict[str, Any] = {
        "fields": [_field(spec, column) for column in spec.columns],
        "missingValues": [""],
        "primaryKey": list(spec.key),
    }
    foreign = [
        _foreign_key(spec, column, by_name[column.refers_to])
        for column in spec.columns
        if column.refers_to is not None and column.refers_to in by_name
    ]
    if foreign:
        schema["foreignKeys"] = foreign
    return {
        "name": spec.name,
        "type": "table",
        "path": spec.file,
        "title": spec.title,
        "description": spec.description,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": DIALECT,
        "schema": schema,
    }


def _field(spec: TableSpec, column: Column) -> dict[str, Any]:
    constraints: dict[str, Any] = {}
    if spec.needs(column):
        constraints["required"] = True
    if column.choices:
        constraints["enum"] = list(column.choices)
    if column.minimum is not None:
        constraints["minimum"] = column.minimum
    if column.maximum is not None:
        constraints["maximum"] = column.maximum
    field: dict[str, Any] = {"name": column.name, "type": column.kind}
    if column.kind == "boolean":
        field["trueValues"] = ["true", "True", "TRUE"]
        field["falseValues"] = ["false", "False", "FALSE"]
    words = {"title": column.title, "description": column.description, "unit": column.unit}
    field |= {name: text for name, text in words.items() if text}
    if constraints:
        field["constraints"] = constraints
    return field


def _foreign_key(spec: TableSpec, column: Column, target: TableSpec) -> dict[str, Any]:
    reference: dict[str, Any] = {"fields": list(target.key)}
    if target.name != spec.name:  # the standard leaves the name out where a table means itself
        reference["resource"] = target.name
    return {"fields": [column.name], "reference": reference}
