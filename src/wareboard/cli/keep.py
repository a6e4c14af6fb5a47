"""``wareboard keep``: make a backup that was tried out."""

from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import answer, chosen_folder, data_option, json_option, show
from wareboard.records.keeping.backup import keep

EXAMPLE = 'wareboard keep "/media/blue stick"'


@click.command("keep", epilog=f"Example: {EXAMPLE}")
@click.argument("path", type=click.Path(path_type=Path))
@data_option
@json_option
def command(*, path: Path, data: Path | None, as_json: bool) -> None:
    """Make a backup: one file with the record and every photo.

    PATH is the file to make, or a folder to make it in. The backup is tried
    out before it gets its name. The studio may stay open meanwhile.
    Whoever has the file can read the record: keep it as you keep your keys.
    """
    kept = keep(chosen_folder(data), path)
    entries = sum(kept.manifest.rows.values())
    originals = len(kept.manifest.files) - 1
    told = Told(
        answer(
            {
                "path": str(kept.backup.path),
                "size_bytes": kept.backup.size_bytes,
                "sha256": kept.backup.sha256,
                "made_at": kept.backup.made_at.isoformat(timespec="seconds"),
                "rows": dict(kept.manifest.rows),
                "originals": originals,
                "missing": list(kept.manifest.missing),
                "damaged": list(kept.manifest.damaged),
            },
            working=(f"Tried out: {entries} rows, {originals} photos and sounds, all whole.",),
            cautions=kept.cautions,
        ),
        [f"Kept in {kept.backup.path} ({kept.backup.size_bytes / 1e6:.1f} MB)."],
    )
    show("keep", told, {"path": str(path)}, as_json=as_json)
