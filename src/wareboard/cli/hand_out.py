"""``wareboard hand-out``: write the whole record as a folder of tables and photos."""

from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import answer, chosen_folder, data_option, json_option, reading, show

EXAMPLE = "wareboard hand-out my-record"


@click.command("hand-out", epilog=f"Example: {EXAMPLE}")
@click.argument("path", type=click.Path(path_type=Path))
@click.option("--overwrite", is_flag=True, help="Replace a record folder that is there.")
@data_option
@json_option
def command(*, path: Path, overwrite: bool, data: Path | None, as_json: bool) -> None:
    """Write the whole record as a folder that needs no program to be read.

    PATH is the folder to make: one table a file, photos as they came, and a
    README. The studio may stay open meanwhile.
    """
    with reading(chosen_folder(data)):
        from wareboard.records.keeping import (  # noqa: PLC0415 - needs Django
            first_run,
            hand_out,
        )

        studio = first_run.owner().studio
        rows = hand_out.hand_out(path.absolute(), studio, overwrite=overwrite)
    told = Told(
        answer({"path": str(path), "studio": studio.name, "rows": rows}),
        [f"Handed out {sum(rows.values())} entries of {studio.name} to {path}."],
    )
    show("hand-out", told, {"path": str(path)}, as_json=as_json)
