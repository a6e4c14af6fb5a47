"""``reckon cone``: which cone a firing came to."""

import click

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import OneOf, file_argument, number_option
from wareboard.core.units import CLOCK_HOURS
from wareboard.exchange.log_csv import read_log_csv

DEGREES_C = "\N{DEGREE SIGN}C"
CONES = ("self-supporting", "large", "iron-free self-supporting", "iron-free large")


@calculation("cone", example="firing.csv")
@file_argument("log", "a CSV file with the columns hours or time, and temp_c or temp_f")
@click.option(
    "--cones",
    type=OneOf(CONES),
    metavar="NAME",
    default=CONES[0],
    help=f"Cones in the pack: {', '.join(CONES)}. [{CONES[0]} where not given]",
)
@number_option("--shut-off", CLOCK_HOURS, "When the burners went out, in the hours of the log.")
def command(log: str, cones: str, shut_off: float | None) -> Told:
    """Reckon which cone a firing came to, at the peak and when cold.

    LOG.csv has the columns hours or time (ISO 8601) and temp_c or temp_f. Where
    it has time, hours count from its first line.
    """
    rows = read_log_csv(log)
    from wareboard.core.firing.cone import reckon_cone  # noqa: PLC0415 - loads numpy
    from wareboard.core.firing.log import firing_log  # noqa: PLC0415 - loads numpy
    from wareboard.core.firing.series import cone_series  # noqa: PLC0415 - loads numpy

    answer = reckon_cone(
        cone_series(cones), firing_log(rows.hours, rows.temp_c), shut_off_hours=shut_off
    )
    lines = []
    for words, key in (("At the peak", "at_peak"), ("When cold", "when_cold")):
        stage = getattr(answer.result, key)
        like = about(stage.equivalent_c, answer.doubt.get(f"{key}.equivalent_c"), DEGREES_C)
        lines.append(
            f"{words}: cone {stage.reading}, like {like} at 60 {DEGREES_C}/h."
            if stage.reading
            else f"{words}: no reading."
        )
    return Told(answer, lines, given={"lines": len(rows.hours)}, cautions=rows.cautions)
