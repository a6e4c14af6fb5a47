"""Handing out: the whole record into a folder, or nothing.

What is written here can be read again; a record that could not be is refused
with the row and the column at fault.
"""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from wareboard.exchange.record_folder import descriptor, disk, readme
from wareboard.exchange.record_folder.cells import is_line
from wareboard.exchange.record_folder.limits import USUAL, Limits
from wareboard.exchange.record_folder.originals import ROOMS, Original, digest_of
from wareboard.exchange.record_folder.problems import FolderNotWritten
from wareboard.exchange.record_folder.spec import ORIGINALS, Row, TableSpec, layout_of
from wareboard.exchange.record_folder.table_writing import TableWriter
from wareboard.exchange.record_folder.target import check_target
from wareboard.exchange.refusals import shown


def write_record_folder(
    path: Path,
    specs: Sequence[TableSpec],
    rows_by_table: Mapping[str, Iterable[Row]],
    originals: Iterable[Original],
    *,
    studio_title: str,
    program_version: str,
    overwrite: bool = False,
    limits: Limits = USUAL,
) -> None:
    """Write the record as a folder that a spreadsheet can read.

    The folder is made beside the target and takes its place when it is whole
    and on the disk: whatever happens, the target is the old folder or the new
    one. The same record gives the same bytes.

    Parameters
    ----------
    path : Path
        The folder to write. It may be missing or empty; with ``overwrite`` it
        may be an earlier record folder.
    specs : sequence of TableSpec
        The tables of the record.
    rows_by_table : mapping
        For each table its rows, in any order. Every row holds every column;
        what is not known is None, and so is an empty text. A table that is
        optional may be left out.
    originals : iterable of Original
        Photos and sounds that the tables refer to.
    studio_title : str
        Name of the studio.
    program_version : str
        Version of the program.
    overwrite : bool
        True to replace an earlier record folder.
    limits : Limits
        Nothing is written that reading with these limits would refuse.

    Raises
    ------
    FolderNotWritten
        If the target is something else, the record is at fault, or the disk
        is. What stood at the target stands there still.
    ValueError
        If the tables are declared wrongly, or rows are given for others.
    """
    layout = layout_of(specs)
    _check_titles(studio_title=studio_title, program_version=program_version)
    given = _given_tables(layout, rows_by_table)
    target = Path(path).resolve()
    try:
        disk.put_back(target)
        check_target(target, overwrite=overwrite)
        with disk.folder_in_place_of(target) as folder:
            sizes = _write_originals(folder, originals, limits)
            writer = TableWriter(given, limits)
            for spec in given.values():
                if spec.name == ORIGINALS:
                    rows: Iterable[Row] = (
                        {"path": name, "size_bytes": size} for name, size in sizes.items()
                    )
                else:
                    rows = rows_by_table[spec.name]
                with disk.new_file(folder / spec.file) as file:
                    writer.write(spec, rows, file)
            writer.check_references()
            _write_papers(folder, list(given.values()), studio_title, program_version)
    except OSError as error:
        raise FolderNotWritten(
            f"The folder {target.name} could not be written: {error.strerror or error}.",
            field="path",
            seen=str(target),
            accepted="a place on a disk that has room and can be written to",
        ) from error


def _check_titles(**titles: str) -> None:
    for name, text in titles.items():
        if not is_line(text):
            raise FolderNotWritten(
                f'"{shown(text)}" cannot stand in the folder as {name.replace("_", " ")}.',
                field=name,
                seen=shown(text),
                accepted="a text of one line",
            )


def _given_tables(
    layout: Mapping[str, TableSpec], rows_by_table: Mapping[str, Iterable[Row]]
) -> dict[str, TableSpec]:
    """Take the declared tables of which rows are given; all others must be optional."""
    if wrong := sorted(name for name in rows_by_table if name not in layout or name == ORIGINALS):
        raise ValueError(f"rows of tables that are not declared: {', '.join(wrong)}")
    given = {
        name: spec for name, spec in layout.items() if name in rows_by_table or name == ORIGINALS
    }
    for name, spec in layout.items():
        if name not in given and not spec.optional:
            raise ValueError(f"no rows of the table {name} are given")
    return given


def _write_originals(folder: Path, originals: Iterable[Original], limits: Limits) -> dict[str, int]:
    """Copy photos and sounds, each checked against its name; give their sizes by path."""
    sizes: dict[str, int] = {}
    rooms: set[str] = set()
    for original in originals:
        if original.path in sizes:
            continue
        if original.room not in rooms:
            disk.make_folder(folder / original.room)
            rooms.add(original.room)
        with disk.new_file(folder / original.path) as file:
            _copy(original, file, limits.original_bytes)
        sizes[original.path] = file.size_bytes
    for room in ROOMS:
        if room in rooms:
            disk.settle(folder / room)
    return sizes


def _copy(original: Original, file: disk.NewFile, longest: int) -> None:
    try:
        digest = digest_of(original.source, longest=longest, to=file.write)
    except (FileNotFoundError, disk.NotOrdinary):
        fault = "is missing from the store"
    else:
        if digest == original.sha256:
            return
        fault = "is not what it was when it was kept" if digest else f"has over {longest} bytes"
    raise FolderNotWritten(
        f"The original {original.path} {fault}, so the record cannot be handed out whole.",
        field="originals",
        seen=str(original.source),
        accepted="the file as it was kept",
    )


def _write_papers(
    folder: Path, tables: list[TableSpec], studio_title: str, program_version: str
) -> None:
    package = descriptor.descriptor_of(
        tables, studio_title=studio_title, program_version=program_version
    )
    page = readme.readme_of(tables, studio_title=studio_title, program_version=program_version)
    with disk.new_file(folder / descriptor.FILE) as file:
        file.write(descriptor.as_bytes(package))
    with disk.new_file(folder / readme.FILE) as file:
        file.write(page.encode())
