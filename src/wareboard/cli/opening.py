"""Opening the studio: from the data folder to the first page."""

import gc
import multiprocessing
import os
import sys
import webbrowser
from functools import partial
from pathlib import Path

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import answer, chosen_folder, held_record, reading, show, tell
from wareboard.records.keeping import database, lock, places
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.refusals import KeepingError, PortTaken
from wareboard.web import listening, serving
from wareboard.web.listening import Place

ONCE = "(the address works once, within ten minutes, on this machine)"
NEW_PASSWORD = "WAREBOARD_NEW_PASSWORD"  # noqa: S105 - the name of a variable, not a password


def open_studio(
    *,
    demo: bool,
    data: Path | None,
    port: int | None,
    phones: bool,
    no_browser: bool,
    as_json: bool,
) -> None:
    """Prepare the folder, say where the studio is found, and serve it until it is stopped.

    Parameters
    ----------
    demo : bool
        Whether to open the demo studio.
    data : Path or None
        The data folder; the usual one where none is given.
    port : int or None
        The port; the usual one where none is given.
    phones : bool
        Whether to let phones in.
    no_browser : bool
        Whether to say the address only.
    as_json : bool
        Whether to say it as one JSON object.
    """
    folder = chosen_folder(data, demo=demo)
    given: dict[str, object] = {"demo": demo, "port": port, "phones": phones}
    running = lock.open_at(folder)
    if running:
        show_running(folder, running, given, quiet=no_browser or as_json, as_json=as_json)
        return
    place = free_place(port, phones=phones, ask=not as_json and sys.stdin.isatty())
    os.environ["WAREBOARD_PHONES"] = "1" if phones else "0"
    with held_record(folder, address=place.here):
        for doubt in places.doubts_about(folder):
            tell(doubt)
        address = place.here + prepare_studio(demo=demo, phones=phones)
        told = Told(
            answer(
                {
                    "address": address,
                    "network_address": place.on_network() or None,
                    "data": str(folder.path),
                },
                cautions=(listening.PLAIN_HTTP,) if phones else (),
            ),
            [
                f"Wareboard keeps its record in {folder.path}",
                f"Open {address}",
                ONCE,
                "Ctrl-C stops the studio.",
            ],
        )
        show("open", told, given | {"port": place.port}, as_json=as_json)
        if phones and not as_json:
            show_code(place)
        sys.stdout.flush()
        quiet = no_browser or as_json
        try:
            serving.serve(place, started=None if quiet else partial(webbrowser.open, address))
        finally:
            # So that whoever copies the one file by hand has all of it.
            database.fold_log_in(folder.record)


def show_running(
    folder: DataFolder, running: str, given: dict[str, object], *, quiet: bool, as_json: bool
) -> None:
    """Give another way into a studio that is open already.

    The key is made in the record itself: only who may write there can make one, and it
    opens the studio from this machine alone, like the one that was printed at its start.

    Parameters
    ----------
    folder : DataFolder
        The studio's folder.
    running : str
        Where the studio is found.
    given : dict of str to object
        What was asked, for the answer.
    quiet : bool
        Whether to open no browser.
    as_json : bool
        Whether to say it as one JSON object.
    """
    with reading(folder):
        from wareboard.records.keeping import first_run  # noqa: PLC0415 - needs Django
        from wareboard.records.people import keys  # noqa: PLC0415 - as above

        address = f"{running}sign-in/{keys.make_key(first_run.owner())}/"
    told = Told(
        answer({"address": address, "data": str(folder.path), "already_open": True}),
        [
            "The studio is open already, and stays open as it was started.",
            f"Open {address}",
            ONCE,
        ],
    )
    show("open", told, given, as_json=as_json)
    if not quiet:
        webbrowser.open(address)


def free_place(port: int | None, *, phones: bool, ask: bool) -> Place:
    """Choose where to listen; a port that is taken is never listened on as well.

    Raises
    ------
    PortTaken
        If another program listens there and nobody takes the next one.
    """
    place = Place(port or listening.USUAL_PORT, phones=phones)
    try:
        listening.refuse_taken(place)
    except PortTaken as taken:
        free = taken.accepted
        if ask and free.isdigit() and click.confirm(f"{taken.say} Use it?", default=True, err=True):
            return Place(int(free), phones=phones)
        raise
    return place


def prepare_studio(*, demo: bool, phones: bool) -> str:
    """Do what needs the record before anyone is served; give the way in.

    Every connection is closed at the end: the workers open their own.
    """
    from django.contrib.sessions.models import Session  # noqa: PLC0415 - needs Django
    from django.db import connections  # noqa: PLC0415 - as above
    from django.utils import timezone  # noqa: PLC0415 - as above

    from wareboard.records.keeping import first_run  # noqa: PLC0415 - as above
    from wareboard.records.people import keys  # noqa: PLC0415 - as above

    if demo:
        first_run.fill_with_demo(say=tell)
    owner = first_run.owner()
    if phones and owner.person is not None and not owner.person.has_usable_password():
        set_first_password(owner.person)
    Session.objects.filter(expire_date__lt=timezone.now()).delete()
    way_in = f"sign-in/{keys.make_key(owner)}/"
    connections.close_all()
    if multiprocessing.get_start_method() == "fork":
        serving.load_ahead()
    gc.freeze()
    gc.enable()
    return way_in


def set_first_password(person: object) -> None:
    """Ask for a password before anyone on the network may try one.

    Raises
    ------
    KeepingError
        If there is nobody to ask, or the password is easily guessed.
    """
    from django.contrib.auth.password_validation import (  # noqa: PLC0415 - needs Django
        validate_password,
    )
    from django.core.exceptions import ValidationError  # noqa: PLC0415 - as above

    from wareboard.records.people.models import Person  # noqa: PLC0415 - as above

    assert isinstance(person, Person)  # noqa: S101 - tells mypy, whose model is loaded late
    given = os.environ.pop(NEW_PASSWORD, "")
    if not given and not sys.stdin.isatty():
        raise KeepingError(
            "Phones are let in only with a password, and none is set. Run this in a terminal,"
            " which asks for one.",
            field="phones",
            seen="no password",
            accepted="a password, typed in a terminal",
        )
    tell(f'Phones sign in as "{person.username}" with a password. {listening.PLAIN_HTTP}')
    while True:
        password = given or click.prompt(
            "New password", hide_input=True, confirmation_prompt="Once more", err=True
        )
        try:
            validate_password(password, person)
        except ValidationError as error:
            if given:
                raise KeepingError(
                    " ".join(error.messages),
                    field="phones",
                    seen="a password that is easily guessed",
                    accepted="at least 8 signs that are no common password",
                ) from error
            tell(" ".join(error.messages))
        else:
            person.set_password(password)
            person.save(update_fields=["password"])
            return


def show_code(place: Place) -> None:
    """Print the address for phones, and its code to point a camera at."""
    address = place.on_network()
    if not address:
        click.echo("This machine is on no network now; phones cannot find it.")
        return
    import segno  # noqa: PLC0415 - only where phones are let in

    click.echo(f"Phones on the same network open {address} or point the camera here:\n")
    segno.make(address, micro=False).terminal(out=sys.stdout, compact=True)
    click.echo(listening.PLAIN_HTTP)
