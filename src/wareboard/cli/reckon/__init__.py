"""``wareboard reckon``: one calculation, without any record."""

import click

from wareboard.cli.lazy_group import LazyGroup

# One line a calculation: its name and the place of its command.
CALCULATIONS = {
    "unity": "wareboard.cli.reckon.unity:command",
    "solid": "wareboard.cli.reckon.solid:command",
    "slop": "wareboard.cli.reckon.slop:command",
    "water": "wareboard.cli.reckon.water:command",
    "dose": "wareboard.cli.reckon.dose:command",
    "coat": "wareboard.cli.reckon.coat:command",
    "pot": "wareboard.cli.reckon.pot:command",
    "cone": "wareboard.cli.reckon.cone:command",
    "absorption": "wareboard.cli.reckon.absorption:command",
    "shrink": "wareboard.cli.reckon.shrink:command",
}


@click.group(
    "reckon",
    cls=LazyGroup,
    places=CALCULATIONS,
    field="name",
    ask="what to reckon",
    invoke_without_command=True,
)
@click.pass_context
def command(context: click.Context) -> None:
    """Reckon one thing and show how.

    Needs no studio record. Numbers have a point as decimal sign; with --json
    the whole answer is one JSON object.
    """
    if context.invoked_subcommand is None:
        raise command.unnamed()
