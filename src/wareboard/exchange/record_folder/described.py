"""What a folder says of itself, checked before anything else is believed.

The description comes from outside, so it is held against a list of what may
stand in it before the library for Data Packages sees it: no entry of it can
name a file outside the folder or an address to fetch.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wareboard.exchange.record_folder import disk
from wareboard.exchange.record_folder.cells import is_line
from wareboard.exchange.record_folder.descriptor import (
    DIALECT,
    FILE,
    LAYOUT,
    PACKAGE_NAME,
    PACKAGE_PROFILE,
)
from wareboard.exchange.record_folder.limits import Limits
from wareboard.exchange.record_folder.problems import Findings
from wareboard.exchange.record_folder.shapes import ANYTHING, NUMBER, Exactly, Members, misfits
from wareboard.exchange.record_folder.spec import NAME, TableSpec
from wareboard.exchange.refusals import shown

FIELD = Members(
    needed={"name": str, "type": str},
    allowed={
        "title": str,
        "description": str,
        "unit": str,
        "trueValues": [str],
        "falseValues": [str],
        "constraints": Members(
            needed={},
            allowed={"required": bool, "enum": [str], "minimum": NUMBER, "maximum": NUMBER},
        ),
    },
)
FOREIGN_KEY = Members(
    needed={
        "fields": [str],
        "reference": Members(needed={"fields": [str]}, allowed={"resource": str}),
    }
)
SCHEMA = Members(
    needed={"fields": [FIELD], "missingValues": Exactly([""]), "primaryKey": [str]},
    allowed={"foreignKeys": [FOREIGN_KEY]},
)
RESOURCE = Members(
    needed={
        "name": ANYTHING,  # name and path are looked at with their own sentence
        "path": ANYTHING,
        "type": Exactly("table"),
        "format": Exactly("csv"),
        "mediatype": Exactly("text/csv"),
        "encoding": Exactly("utf-8"),
        "dialect": Exactly(DIALECT),
        "schema": SCHEMA,
    },
    allowed={"title": str, "description": str},
)
PACKAGE = Members(
    needed={
        "$schema": Exactly(PACKAGE_PROFILE),
        "name": Exactly(PACKAGE_NAME),
        "title": str,
        "recordFolder": Members(needed={"layout": Exactly(LAYOUT), "programVersion": str}),
        "resources": [RESOURCE],
    },
    allowed={"description": str},
)
AS_WRITTEN = "use the file as the program wrote it"


@dataclass(frozen=True, slots=True)
class Described:
    """What a folder says of itself.

    Attributes
    ----------
    studio_title, program_version : str
        As written into it.
    columns : dict
        For each table in it the names of its columns.
    """

    studio_title: str
    program_version: str
    columns: dict[str, tuple[str, ...]]


class _Odd(Exception):
    """The description cannot be followed any further."""

    def __init__(self, fault: str, *, seen: object = "", accepted: str = AS_WRITTEN) -> None:
        super().__init__(fault)
        self.fault = fault
        self.seen = seen if isinstance(seen, str) else json.dumps(seen, ensure_ascii=False)
        self.accepted = accepted


def read_description(
    folder: Path, layout: Mapping[str, TableSpec], limits: Limits, findings: Findings
) -> Described | None:
    """Read and check ``datapackage.json``.

    Parameters
    ----------
    folder : Path
        The record folder.
    layout : mapping
        The declared tables, by name.
    limits : Limits
        How big it may be.
    findings : Findings
        Takes what is wrong.

    Returns
    -------
    Described or None
        None if it cannot be followed; what is wrong is then among the findings.
    """
    try:
        package = _package(folder / FILE, limits)
        resources = _resources(package)
        _check_by_library(package)
    except _Odd as odd:
        findings.add(FILE, odd.fault, seen=odd.seen, accepted=odd.accepted)
        return None
    columns: dict[str, tuple[str, ...]] = {}
    for name, resource in resources.items():
        spec = layout.get(name)
        if spec is None:
            findings.add(
                FILE,
                "is a table that this program does not know",
                seen=name,
                accepted="use the program that wrote the folder, or a newer one",
            )
            continue
        columns[name] = _compare(spec, resource["schema"], findings)
    for name, spec in layout.items():
        if name not in resources and not spec.optional:
            findings.add(FILE, f"has no table {name}", accepted=AS_WRITTEN)
    about = package["recordFolder"]
    return Described(package["title"], about["programVersion"], columns)


def _package(path: Path, limits: Limits) -> dict[str, Any]:
    """Read the file and make sure that it describes a record folder of ours."""
    package = _json(path, limits)
    if not isinstance(package, dict) or package.get("name") != PACKAGE_NAME:
        raise _Odd(
            "describes something other than a record", accepted="choose a folder of the program"
        )
    about = package.get("recordFolder")
    layout = about.get("layout") if isinstance(about, dict) else None
    if isinstance(layout, int) and layout > LAYOUT:
        raise _Odd(
            f"says that the folder has layout {layout}, and this program reads layout {LAYOUT}",
            accepted="use a newer program",
        )
    for misfit in misfits(package, PACKAGE):
        raise _Odd(f"is not as the program writes it ({shown(misfit)})")
    if not is_line(package["title"]) or not is_line(package["recordFolder"]["programVersion"]):
        raise _Odd("does not say whose record it is and which program wrote it")
    return package


def _json(path: Path, limits: Limits) -> object:
    """Read a file as JSON that has one meaning."""
    try:
        with disk.opened(path) as file:
            raw = file.read(limits.descriptor_bytes + 1)
    except FileNotFoundError:
        raise _Odd("is missing", accepted="choose a folder that the program handed out") from None
    except disk.NotOrdinary:
        raise _Odd("is a link or no file at all", accepted="put the file itself there") from None
    if len(raw) > limits.descriptor_bytes:
        raise _Odd("is too large", accepted=f"at most {limits.descriptor_bytes} bytes are read")
    try:
        package: object = json.loads(
            raw.decode(), object_pairs_hook=_once, parse_constant=_no_constant
        )
    except UnicodeDecodeError:
        raise _Odd("is not written in UTF-8") from None
    except (ValueError, RecursionError):
        raise _Odd("is no JSON that can be read") from None
    return package


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) != len(pairs):
        raise ValueError
    return members


def _no_constant(name: str) -> None:
    raise ValueError(name)


def _resources(package: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """Take the tables by their names, each at its own path and no other."""
    resources: dict[str, dict[str, Any]] = {}
    for resource in package["resources"]:
        name, path = resource["name"], resource["path"]
        if not isinstance(name, str) or not NAME.fullmatch(name) or path != f"{name}.csv":
            raise _Odd(
                "is no path of a table in this folder",
                seen=path,
                accepted="a table lies beside datapackage.json, as its name with .csv",
            )
        if name in resources:
            raise _Odd("is listed twice", seen=path)
        resources[name] = resource
    return resources


def _check_by_library(package: dict[str, Any]) -> None:
    """Have the description checked against the standard.

    The list of entries above lets no address through, and a standard profile
    is built into the library, so nothing is fetched.
    """
    from frictionless import (  # noqa: PLC0415 - slow to load, and few commands take a folder in
        FrictionlessException,
        Package,
    )

    try:
        # A copy, because the library tidies what it is given.
        Package.from_descriptor(json.loads(json.dumps(package)))
    except FrictionlessException as refusal:
        reasons: Iterable[Any] = refusal.reasons or [refusal.error]
        note = "; ".join(dict.fromkeys(reason.note for reason in reasons))
        raise _Odd(f"breaks the rules of Data Packages ({note})") from None


def _compare(spec: TableSpec, schema: dict[str, Any], findings: Findings) -> tuple[str, ...]:
    """Hold the described columns against the declared ones."""
    fields = {field["name"]: field for field in schema["fields"]}
    for name, field in fields.items():
        if name not in spec.column_names:
            findings.add(
                FILE,
                f"is a column of {spec.name} that this program does not know",
                seen=name,
                accepted="use the program that wrote the folder, or a newer one",
            )
            continue
        column = spec.column(name)
        for entry, value in (("type", column.kind), ("unit", column.unit)):
            seen = field.get(entry, "")
            if seen != value:
                findings.add(
                    FILE,
                    f"is the {entry} of the column {name} of {spec.name}",
                    seen=str(seen) or "nothing",
                    accepted=f"this program keeps {value or 'no ' + entry} there",
                )
    for column in spec.columns:
        if column.name not in fields and spec.needs(column):
            findings.add(FILE, f"has no column {column.name} in {spec.name}", accepted=AS_WRITTEN)
    if schema["primaryKey"] != list(spec.key):
        findings.add(
            FILE,
            f"does not tell the rows of {spec.name} apart by {' and '.join(spec.key)}",
            accepted=AS_WRITTEN,
        )
    return tuple(name for name in fields if name in spec.column_names)
