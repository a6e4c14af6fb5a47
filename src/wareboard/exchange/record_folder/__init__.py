"""The record folder: the whole record as tables that a spreadsheet can read.

A folder of CSV files, one for each kind of thing, with the original photos
beside them and a description that other programs understand. It is written
whole or not at all, read whole or not at all, and the same record gives the
same bytes.

This package knows tables, columns, rows and files. What they mean is declared
by the rooms of the record above it.
"""

from wareboard.exchange.record_folder.limits import Limits
from wareboard.exchange.record_folder.originals import Original
from wareboard.exchange.record_folder.problems import (
    EnoughProblems,
    Findings,
    FolderNotWritten,
    FolderRefused,
    Problem,
)
from wareboard.exchange.record_folder.reading import RecordFolder, read_record_folder
from wareboard.exchange.record_folder.spec import (
    ORIGINALS,
    Column,
    Kind,
    Row,
    TableSpec,
    Value,
    layout_of,
)
from wareboard.exchange.record_folder.writing import write_record_folder

__all__ = [
    "ORIGINALS",
    "Column",
    "EnoughProblems",
    "Findings",
    "FolderNotWritten",
    "FolderRefused",
    "Kind",
    "Limits",
    "Original",
    "Problem",
    "RecordFolder",
    "Row",
    "TableSpec",
    "Value",
    "layout_of",
    "read_record_folder",
    "write_record_folder",
]
