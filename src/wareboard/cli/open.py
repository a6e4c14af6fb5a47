"""``wareboard open``: start the studio on this machine."""

import gc
from pathlib import Path
from typing import Any

import click

from wareboard.cli.preparing import data_option, json_option
from wareboard.exchange.refusals import shown
from wareboard.records.keeping.refusals import KeepingError
from wareboard.web.listening import LAST_PORT, USUAL_PORT

EXAMPLE = "wareboard open --demo"


class Port(click.ParamType[int]):
    """The number of a port, in plain digits."""

    name = "number"
    accepted = f"a number from 1 to {LAST_PORT}"

    def convert(
        self,
        value: Any,
        param: click.Parameter | None,  # noqa: ARG002 - click's signature
        ctx: click.Context | None,  # noqa: ARG002 - click's signature
    ) -> int:
        """Read the number, or refuse it."""
        text = str(value)
        if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= LAST_PORT):
            raise KeepingError(
                f"{shown(text)} is no port: give {self.accepted}.",
                field="port",
                seen=shown(text),
                accepted=self.accepted,
            )
        return int(text)


@click.command("open", epilog=f"Example: {EXAMPLE}")
@click.option("--demo", is_flag=True, help="Open the demo studio instead of your own.")
@data_option
@click.option(
    "--port",
    type=Port(),
    help=f"Where the browser finds the studio; {USUAL_PORT} where none is given.",
)
@click.option("--phones", is_flag=True, help="Let phones on the studio's network in.")
@click.option("--no-browser", is_flag=True, help="Only say the address; open no browser.")
@json_option
def command(
    *,
    demo: bool,
    data: Path | None,
    port: int | None,
    phones: bool,
    no_browser: bool,
    as_json: bool,
) -> None:
    """Start the studio on this machine.

    The record lies in a folder of its own, which is made where it is missing.
    The studio answers on this machine alone, until phones are let in. Where it
    is open already, another address that lets you in is printed.
    """
    # Loading makes a great many things that stay: looking through them for litter again
    # and again takes a tenth of the time until the first page. Turned on before serving.
    gc.disable()
    from wareboard.cli.opening import open_studio  # noqa: PLC0415 - loads the whole program

    open_studio(
        demo=demo, data=data, port=port, phones=phones, no_browser=no_browser, as_json=as_json
    )
