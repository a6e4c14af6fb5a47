"""``wareboard manage``: Django's own commands, on the studio's data folder."""

import os
from pathlib import Path

import click

from wareboard.cli.preparing import chosen_folder, wake_django
from wareboard.records.keeping import data_folder
from wareboard.records.keeping.refusals import KeepingError

EXAMPLE = "wareboard manage changepassword potter"
# What `wareboard open` does safely, and what would serve or empty a record unsafely.
DATA = "--data"
NOT_HERE = {
    "migrate": "wareboard open brings the record up to date, on a copy and with a backup.",
    "runserver": "wareboard open serves the studio.",
    "flush": "Nothing empties a record; choose a new folder with --data.",
    "testserver": "wareboard open --demo serves a studio to try things in.",
}


def without_data(arguments: tuple[str, ...]) -> tuple[Path | None, tuple[str, ...]]:
    """Take the data folder out of the arguments: it may stand behind Django's command as well.

    Raises
    ------
    KeepingError
        If the option stands there without a folder.
    """
    left = list(arguments)
    for place, argument in enumerate(arguments):
        name, sign, folder = argument.partition("=")
        if name != DATA:
            continue
        given = [folder] if sign else list(arguments[place + 1 : place + 2])
        if not given or not given[0]:
            raise KeepingError(
                "--data needs a folder behind it.",
                field="data",
                seen=argument,
                accepted="the studio's data folder",
            )
        del left[place : place + (1 if sign else 2)]
        return Path(given[0]), tuple(left)
    return None, arguments


@click.command(
    "manage",
    epilog=f"Example: {EXAMPLE}",
    context_settings={"ignore_unknown_options": True, "allow_interspersed_args": False},
)
@click.option(
    "--data",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="The studio's data folder; ~/Wareboard where none is given.",
)
@click.argument("arguments", nargs=-1, type=click.UNPROCESSED)
def command(*, data: Path | None, arguments: tuple[str, ...]) -> None:
    """Run one of Django's own commands, for instance to set a password anew."""
    behind, arguments = without_data(arguments)
    data = data or behind
    if data is None and "WAREBOARD_DATA" in os.environ:
        data = Path(os.environ["WAREBOARD_DATA"])
    if arguments and arguments[0] in NOT_HERE:
        raise KeepingError(
            f"{arguments[0]} is not for a record. {NOT_HERE[arguments[0]]}",
            field="arguments",
            seen=arguments[0],
            accepted="another of Django's commands",
        )
    folder = chosen_folder(data)
    data_folder.closed_to_others()
    if data_folder.is_new(folder):
        raise data_folder.refused(folder, f"There is no record in {folder.path}.")
    wake_django(folder)
    from django.core.management import (  # noqa: PLC0415 - needs Django
        execute_from_command_line,
    )

    execute_from_command_line(["wareboard manage", *arguments])
