"""``wareboard why``: which changes go with a fault of a glaze."""

from datetime import date, datetime, time
from pathlib import Path
from typing import Any

import click

from wareboard.cli.answers import Told
from wareboard.cli.preparing import answer, chosen_folder, data_option, json_option, reading, show
from wareboard.core.errors import CoreError

EXAMPLE = "wareboard why limpet pinhole --until 2026-11-14"
COUNTS_ONLY = "These are counts; how probable each change is cannot be told from them yet."


class NotAsked(CoreError):
    """A glaze, a fault or a day that the record does not know."""


def _day(text: str | None) -> date | None:
    """Read the last day whose pieces count."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise NotAsked(
            f"until: {text!r} is no day; accepted is a day as 2026-11-14.",
            field="until",
            seen=text,
            accepted="a day as 2026-11-14",
        ) from None


def suspects(found: dict[str, Any]) -> list[dict[str, Any]]:
    """Give the counted changes as the contract has them."""
    return [
        {
            "attribute": change.attribute,
            "value": change.value,
            "probability": None,
            "faulty_with": change.faulty_with,
            "sound_with": change.sound_with,
            "faulty_without": change.faulty_without,
            "sound_without": change.sound_without,
            "same_as": [attribute for attribute, _value in change.same_as],
            "for": list(change.for_),
            "against": list(change.against),
            "plausible": None,
        }
        for change in found["changes"]
    ]


@click.command("why", epilog=f"Example: {EXAMPLE}")
@click.argument("glaze")
@click.argument("fault")
@click.option("--until", metavar="DATE", help="Last day whose pieces count, as 2026-11-14.")
@data_option
@json_option
def command(*, glaze: str, fault: str, until: str | None, data: Path | None, as_json: bool) -> None:
    """Say which changes go with a fault of a glaze.

    GLAZE is the glaze's id or name, FAULT one of the shelf's words. The studio
    may stay open meanwhile.
    """
    last = _day(until)
    with reading(chosen_folder(data)):
        from django.utils import timezone  # noqa: PLC0415 - needs Django

        from wareboard.records.glazes.queries import glazes_for  # noqa: PLC0415 - as above
        from wareboard.records.keeping import first_run  # noqa: PLC0415 - as above
        from wareboard.records.shelf.words import FaultWord  # noqa: PLC0415 - as above
        from wareboard.web.members import clock_of  # noqa: PLC0415 - as above
        from wareboard.web.pages.what_changed import compare  # noqa: PLC0415 - as above

        member = first_run.owner()
        timezone.activate(clock_of(member.studio))
        known = {one.pk: one for one in glazes_for(member)}
        named = known.get(glaze) or next(
            (one for one in known.values() if one.name.lower() == glaze.lower()), None
        )
        if named is None:
            raise NotAsked(
                f"glaze: there is no glaze {glaze!r} in this record.",
                field="glaze",
                seen=glaze,
                accepted=", ".join(sorted(known)) or "a glaze, once there is one",
            )
        if fault not in FaultWord.values:
            raise NotAsked(
                f"fault: {fault!r} is no fault the shelf knows.",
                field="fault",
                seen=fault,
                accepted=", ".join(FaultWord.values),
            )
        end = timezone.make_aware(datetime.combine(last, time.max)) if last else None
        found = compare(member, named, FaultWord(fault), end)
        told = _told(found)
    show("why", told, {"glaze": glaze, "fault": fault, "until": until}, as_json=as_json)


def _told(found: dict[str, Any]) -> Told:
    finding, said = found["finding"], found["answer"]
    result = {
        "faulty": finding.faulty,
        "sound": finding.sound,
        "suspects": suspects(found),
        "none_of_these": None,
        "verdict": finding.leaning.value,
        "say": f"{said.title} {said.text}",
        "next_test": {
            "make": [said.next_test] if said.next_test else [],
            "settles": [f"{c.attribute}: {c.value}" for c in finding.fitting]
            if said.next_test
            else [],
            "expected_bits": None,
        },
    }
    lines = [said.title, said.text, *([said.next_test] if said.next_test else [])]
    return Told(answer(result, cautions=(COUNTS_ONLY,)), lines)
