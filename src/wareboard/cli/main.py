"""``wareboard``: the program, from the arguments to the exit code."""

import os
import sys
from collections.abc import Sequence

import click

from wareboard.cli.failures import fail, from_click, own_fault
from wareboard.cli.lazy_group import LazyGroup
from wareboard.core.errors import CoreError

INTERRUPTED = 130
BROKEN_PIPE = 1

# One line a verb: its name and the place of its command.
VERBS = {
    "open": "wareboard.cli.open:command",
    "why": "wareboard.cli.why:command",
    "take-in": "wareboard.cli.take_in:command",
    "hand-out": "wareboard.cli.hand_out:command",
    "keep": "wareboard.cli.keep:command",
    "bring-back": "wareboard.cli.bring_back:command",
    "look-over": "wareboard.cli.look_over:command",
    "manage": "wareboard.cli.manage:command",
    "reckon": "wareboard.cli.reckon:command",
}


@click.group(
    "wareboard",
    cls=LazyGroup,
    places=VERBS,
    field="verb",
    ask="what to do",
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(package_name="wareboard", message="%(prog)s %(version)s")
@click.pass_context
def program(context: click.Context) -> None:
    """Remembers and reckons for the potter."""
    if context.invoked_subcommand is None:
        click.echo(context.get_help())


def main(arguments: Sequence[str]) -> int:
    """Do what the arguments say.

    Parameters
    ----------
    arguments : sequence of str
        Without the name of the program.

    Returns
    -------
    int
        Exit code: 0, or 2 for bad input.
    """
    as_json = any(argument.partition("=")[0] == "--json" for argument in arguments)
    try:
        code = program.main(list(arguments), prog_name="wareboard", standalone_mode=False)
    except CoreError as error:
        return fail(error, as_json=as_json)
    except click.ClickException as error:
        return fail(from_click(error, arguments), as_json=as_json)
    except (click.Abort, KeyboardInterrupt):
        return INTERRUPTED
    except Exception as error:  # noqa: BLE001 - the last place: nobody is shown a traceback
        return own_fault(error, as_json=as_json)
    return code if isinstance(code, int) else 0


def run() -> None:
    """Run as the program itself."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        code = main(sys.argv[1:])
    except BrokenPipeError:
        # Whoever read the pipe has gone: leave as click does, without a word.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = BROKEN_PIPE
    sys.exit(code)
