"""The ``README.txt`` of a record folder: what is what, in plain words."""

import textwrap
from collections.abc import Sequence

from wareboard.exchange.record_folder.spec import ORIGINALS, Column, TableSpec

FILE = "README.txt"
WIDTH = 78

HOW_TO_READ = """\
Every file that ends in .csv is a table. Open it with any spreadsheet: say that it is UTF-8 text,
that commas stand between the columns, and, if you are asked, that every column is text. A text
editor opens it as well. The first row names the columns.

A blank cell means that nothing is known. Numbers have a point, not a comma. Days are written
year-month-day; times also carry their distance from universal time, so that
2026-11-25T14:03:00+01:00 is three minutes past two on a clock one hour ahead of it. Yes is true,
no is false.

An apostrophe in front of a text that begins with =, +, -, @, a tab or a line end keeps a
spreadsheet from running that text as a formula. It does not belong to the text, and the program
takes it off again.

Rows point at each other by their ids: the column pot_id of one table, say, holds an id of the
table of pots. Each table below says where its columns point.

Looking is safe. Before you change anything, copy the folder. A spreadsheet may rewrite days, long
numbers and ids that look like numbers when it saves. The program checks every cell when it takes
the folder in, names what it cannot read, and takes in all or nothing.

datapackage.json says the same as this page to other programs (Data Package, a public standard).
The folders photos and sounds hold the files as they came in, named by a sum of their content
(SHA-256), so that a damaged one is noticed; originals.csv lists them.
"""
KIND_WORDS = {
    "string": "text",
    "integer": "whole number",
    "number": "number",
    "boolean": "true or false",
    "date": "day",
    "datetime": "time",
}


def readme_of(tables: Sequence[TableSpec], *, studio_title: str, program_version: str) -> str:
    """Write the page.

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
    str
        The text, with a line end at its end.
    """
    title = f"The record of {studio_title}"
    lines = [title, "=" * len(title), ""]
    lines += _wrapped(
        "This folder holds the whole record of a pottery studio, to be read without the "
        f"program that wrote it (wareboard {program_version})."
    )
    lines += ["", "How to read it", "--------------"]
    for paragraph in HOW_TO_READ.split("\n\n"):
        lines += ["", *_wrapped(paragraph)]
    for spec in tables:
        heading = f"{spec.file}: {spec.title}"
        lines += ["", "", heading, "-" * len(heading), "", *_wrapped(spec.description), ""]
        for column in spec.columns:
            lines += _wrapped(_about(spec, column), first="  ", then="      ")
    return "\n".join(lines) + "\n"


def _about(spec: TableSpec, column: Column) -> str:
    """Say in a sentence or two what stands in a column."""
    kind = KIND_WORDS[column.kind] + (f" in {column.unit}" if column.unit else "")
    parts = [f"{column.name} ({kind}" + (", never blank)" if spec.needs(column) else ")")]
    if column.title or column.description:
        parts[0] += ":"
        parts += [_sentence(column.title), _sentence(column.description)]
    if column.choices:
        parts.append("One of " + ", ".join(column.choices) + ".")
    if column.refers_to == ORIGINALS:
        parts.append("Path of a file in this folder.")
    elif column.refers_to:
        parts.append(f"Points at a row of {column.refers_to}.csv.")
    return " ".join(part for part in parts if part)


def _sentence(text: str) -> str:
    return text if not text or text.endswith((".", "!", "?")) else f"{text}."


def _wrapped(text: str, *, first: str = "", then: str = "") -> list[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=then,
        break_long_words=False,
        break_on_hyphens=False,
    )
