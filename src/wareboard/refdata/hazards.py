"""What can hurt the potter, and the limits that three authorities set.

Limits change and differ from place to place. What is said here is a reason to
look up the local rule and the supplier's safety sheet, not a replacement for
either, and many of the values are from memory: each one says so.

Sources
-------
The table ``hazards__osha_niosh_hse`` and its provenance file.
"""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from wareboard.refdata.loading import Standing, load

TABLE = "hazards__osha_niosh_hse"

_AUTHORITIES = (("OSHA", "PEL"), ("NIOSH", "REL"), ("HSE", "WEL"))


class ExposureLimit(NamedTuple):
    """What one authority allows in the air of a workplace.

    Attributes
    ----------
    authority, kind : str
        OSHA PEL, NIOSH REL or HSE WEL.
    limit : str
        The limit with its unit, in words.
    standing : Standing
        How far it can be trusted.
    source : str
        Where it was read.
    """

    authority: str
    kind: str
    limit: str
    standing: Standing
    source: str


class Hazard(NamedTuple):
    """One group of materials that harm in the same way.

    Attributes
    ----------
    materials : str
        The group, in words.
    harm : str
        What it does.
    limits : tuple of ExposureLimit
        One for each authority.
    protection : str
        What to wear and how to clean.
    firing : str
        What comes off in the kiln.
    release_advice : str
        What to have tested on ware for food; never a pass.
    """

    materials: str
    harm: str
    limits: tuple[ExposureLimit, ...]
    protection: str
    firing: str
    release_advice: str


@cache
def all_hazards() -> tuple[Hazard, ...]:
    """Give every group of the table.

    Returns
    -------
    tuple of Hazard
        In the order of the table.
    """
    return tuple(_hazard(row) for row in load(TABLE).rows)


def _hazard(row: Mapping[str, str]) -> Hazard:
    """Build a group from its row."""
    return Hazard(
        materials=row["material"],
        harm=row["hazard_GHS_type"],
        limits=tuple(
            ExposureLimit(
                authority=authority,
                kind=kind,
                limit=row[f"{authority}_{kind}"],
                standing=Standing.of(row[f"{authority}_source"]),
                source=row[f"{authority}_source"],
            )
            for authority, kind in _AUTHORITIES
        ),
        protection=row["PPE"],
        firing=row["firing_and_ventilation"],
        release_advice=row["leach_test_advice"],
    )
