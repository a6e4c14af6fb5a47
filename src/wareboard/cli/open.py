"""Start the studio on this machine."""

import os
import webbrowser
from pathlib import Path

import click

from wareboard.web import serving
from .preparing import chosen_folder, data_option, held_record, tell


@click.command("open")
@click.option("--demo", is_flag=True, help="Open the demo studio instead of your own.")
@data_option
@click.option("--port", type=int, default=serving.USUAL_PORT)
@click.option("--phones", is_flag=True)
@click.option("--no-browser", is_flag=True)
def command(demo: bool, data: Path | None, port: int, phones: bool, no_browser: bool) -> None:
    """Start the studio on this machine."""
    folder = chosen_folder(data, demo=demo)
    place = serving.Place(port=port, phones=phones)
    serving.refuse_taken(place)
    with held_record(folder, address=place.here):
        from django.db import connections
        from wareboard.records.keeping import first_run
        from wareboard.records.people import keys

        address = f"{place.here}sign-in/{keys.make_key(first_run.owner())}/"
        connections.close_all()
        click.echo(f"Open {address}")

        def started() -> None:
            if not no_browser:
                webbrowser.open(address)

        serving.serve(place, started=started)


if __name__ == "__main__":
    command()
