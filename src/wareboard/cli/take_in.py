"""``wareboard take-in``: take a record folder into the record."""

from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import (
    answer,
    chosen_folder,
    data_option,
    held_record,
    json_option,
    show,
)

EXAMPLE = "wareboard take-in my-record --only-look"


@click.command("take-in", epilog=f"Example: {EXAMPLE}")
@click.argument("path", type=click.Path(path_type=Path))
@click.option("--only-look", is_flag=True, help="Say what it would add, and add nothing.")
@data_option
@json_option
def command(*, path: Path, only_look: bool, data: Path | None, as_json: bool) -> None:
    """Take a record folder into the record: all of it, or nothing.

    PATH is a folder as hand-out writes it, or as a spreadsheet saved it. First
    it says what it will add. The studio must not be open meanwhile.
    """
    with held_record(chosen_folder(data)):
        from wareboard.records.keeping import first_run  # noqa: PLC0415 - needs Django
        from wareboard.records.keeping import take_in as taking  # noqa: PLC0415 - as above

        studio = first_run.owner().studio
        plan = taking.plan(path.absolute(), studio)
        new, known = sum(plan.adds.values()), sum(plan.has.values())
        lines = [f"{path}: {new} new entries, {known} that are here already."]
        if not only_look:
            if not as_json:
                click.echo(lines[0])
            studio = taking.put_in(plan)
            lines = [f"Taken into {studio.name}."]
    told = Told(
        answer({"added": not only_look, "adds": plan.adds, "has": plan.has, "studio": studio.name}),
        lines,
    )
    show("take-in", told, {"path": str(path)}, as_json=as_json)
