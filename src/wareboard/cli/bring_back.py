"""``wareboard bring-back``: put a backup back."""

from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import (
    answer,
    chosen_folder,
    data_option,
    json_option,
    show,
    tell,
    wake_django,
)
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.restore import bring_back

EXAMPLE = 'wareboard bring-back "/media/blue stick/wareboard 2026-11-25 1830.zip"'


@click.command("bring-back", epilog=f"Example: {EXAMPLE}")
@click.argument("path", type=click.Path(path_type=Path))
@data_option
@json_option
def command(*, path: Path, data: Path | None, as_json: bool) -> None:
    """Put a backup back: all of it, or nothing.

    Every byte is checked before the studio's folder is touched. The folder as
    it was is kept beside the new one, under a name with today's date.
    """
    folder = chosen_folder(data)
    brought = bring_back(path, folder, bring_up_to_date=bring_up_to_date)
    found = brought.manifest
    entries, originals = sum(found.rows.values()), len(found.files) - 1
    lines = [
        f"Brought back to {folder.path}: {entries} rows, {originals} photos and sounds, all whole."
    ]
    if brought.kept is not None:
        lines.append(f"As it was before, the studio is kept in {brought.kept}")
    told = Told(
        answer(
            {
                "data": str(folder.path),
                "made_at": found.made_at,
                "rows": dict(found.rows),
                "originals": originals,
                "kept": str(brought.kept) if brought.kept else None,
            },
            working=(f"The backup was made {found.made_at} by version {found.written_by}.",),
        ),
        lines,
    )
    show("bring-back", told, {"path": str(path)}, as_json=as_json)


def bring_up_to_date(coming: DataFolder) -> None:
    """Bring an older record to this version; refuse a newer one."""
    wake_django(coming)
    from wareboard.records.keeping import migrating  # noqa: PLC0415 - needs Django

    migrating.bring_up_to_date(coming, say=tell)
