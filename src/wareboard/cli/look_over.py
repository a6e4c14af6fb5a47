"""``wareboard look-over``: check the record, the photos and the last backup."""

from dataclasses import asdict
from datetime import UTC, datetime
from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import answer, chosen_folder, data_option, json_option, show
from wareboard.records.keeping.look_over import look_over

EXAMPLE = "wareboard look-over"
SOMETHING_WRONG = 1


@click.command("look-over", epilog=f"Example: {EXAMPLE}")
@data_option
@json_option
def command(*, data: Path | None, as_json: bool) -> int:
    """Check the record, every photo and the last backup.

    Ends with 0 where all is well and with 1 where something is wrong.
    """
    folder = chosen_folder(data)
    now = datetime.now(UTC)
    found = look_over(folder, now=now)
    backup = found.backup
    told = Told(
        answer(
            {
                "sound": not found.faults,
                "faults": [asdict(fault) for fault in found.faults],
                "originals": found.originals,
                "journal": found.journal or None,
                "last_backup": None
                if backup is None
                else {
                    "path": str(backup.path),
                    "made_at": backup.made_at.isoformat(timespec="seconds"),
                    "age_h": backup.age_days(now) * 24,
                    "at_hand": backup.path.is_file(),
                },
            },
            cautions=found.cautions,
        ),
        [fault.say for fault in found.faults]
        or [f"The record and {found.originals} photos and sounds are whole."],
    )
    show("look-over", told, {"data": str(folder.path)}, as_json=as_json)
    return SOMETHING_WRONG if found.faults else 0
