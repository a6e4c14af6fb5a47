"""What every command that touches the record does first."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

import click

from wareboard.cli.answers import Told, as_lines, as_object
from wareboard.core.answer import Answer
from wareboard.records.keeping import data_folder, lock, swapping
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.refusals import FolderRefused

Command = TypeVar("Command", bound=Callable[..., Any])

data_option = click.option(
    "--data",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="The studio's data folder; ~/Wareboard where none is given.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Answer with one JSON object.")


def tell(sentence: str) -> None:
    """Say something to the person at the terminal, apart from the answer."""
    click.echo(sentence, err=True)


def show(name: str, told: Told, given: dict[str, object], *, as_json: bool) -> None:
    """Give a command's answer."""
    if as_json:
        click.echo(as_object(name, told, given))
    else:
        for line in as_lines(told):
            click.echo(line)


def answer(result: dict[str, object], **rest: tuple[str, ...]) -> Answer[Any]:
    """Put together what a command found."""
    return Answer(result=result, **rest)  # type: ignore[arg-type] # the rest are working, cautions, sources


def chosen_folder(data: Path | None, *, demo: bool = False) -> DataFolder:
    """Give the folder that a command works on."""
    if data is None:
        return data_folder.default_folder(demo=demo)
    return DataFolder(data.expanduser().absolute())


def wake_django(folder: DataFolder) -> None:
    """Set Django up on a folder; once a process."""
    os.environ["WAREBOARD_DATA"] = str(folder.path)
    os.environ["DJANGO_SETTINGS_MODULE"] = "wareboard.web.settings"
    import django  # noqa: PLC0415 - slow to load; only where a command needs it

    django.setup()


@contextmanager
def held_record(folder: DataFolder, *, address: str = "") -> Iterator[None]:
    """Hold a folder whose record is there, whole and of this version.

    A new folder gets an empty record; an older record is brought up to date.

    Parameters
    ----------
    folder : DataFolder
        The folder.
    address : str
        Where the studio is to be found while it is open.
    """
    swapping.finish_swap(folder)
    data_folder.prepare(folder)
    elsewhere = lock.left_open_elsewhere(folder)
    with lock.holding(folder, address=address):
        if elsewhere:
            tell(f"This folder was not closed on {elsewhere}: see that it is not open there too.")
        new = data_folder.is_new(folder)
        data_folder.sweep(folder)
        wake_django(folder)
        from wareboard.records.keeping import (  # noqa: PLC0415 - needs Django
            first_run,
            migrating,
        )

        if new:
            migrating.make_new(folder)
        else:
            migrating.bring_up_to_date(folder, say=tell)
        data_folder.mark(folder)
        first_run.owner()
        yield


@contextmanager
def reading(folder: DataFolder) -> Iterator[None]:
    """Read a folder's record, also while the studio is open.

    A record that is not there, or not of this version, is refused: bringing it
    up to date is left to who holds it alone.
    """
    if data_folder.is_new(folder):
        raise FolderRefused(
            f"There is no record in {folder.path} yet.",
            field="data",
            seen=str(folder.path),
            accepted="a folder with a record in it",
        )
    wake_django(folder)
    from wareboard.records.keeping import migrating  # noqa: PLC0415 - needs Django

    migrating.refuse_unless_current(folder)
    yield
