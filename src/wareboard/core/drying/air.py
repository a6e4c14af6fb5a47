"""How much water the room's air alone keeps in dry clay.

A pot left in damp air never gets drier than the air: in fog "dry" clay still
holds a few per cent of water that no waiting takes out. That share is taken
off before a pot is called wet.

Sources
-------
The form is Oswin's, ``a (r / (1 - r)) ** b``; [Karoglou]_ fits it to bricks
and plasters for relative humidities of 3 to 90 %. The two numbers, 0.008 and
0.42, are general for throwing clay, and a clay may hold 1.6 times as much or
as little. The rule was tried on simulated damp studios up to 98 %.

.. [Karoglou] M. Karoglou et al., "Water sorption isotherms of some building
   materials", Drying Technology 23 (2005) 289 (abstract read).
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from wareboard.core.answer import Answer, Interval
from wareboard.core.bounds import WEIGHED_G, within
from wareboard.core.errors import WeighingError
from wareboard.core.units import Quantity, Slip

SHARE = 0.008
"""Water in dry clay at a relative humidity of one half [g/g] (general)."""

POWER = 0.42
"""How steeply it grows with r / (1 - r) (general)."""

CLAY_FACTOR = 1.6
"""Nine clays in ten hold between this part and this many times the rule (general)."""

TRIED_TO_PERCENT = 98.0
"""Above this the rule was not tried; damper air is counted as this."""

HYGROMETER_PERCENT = 4.0
"""Half width of a studio hygrometer [% relative humidity]."""

WORD_PERCENT = 8.0
"""Half width of a word for the air [% relative humidity]."""

SOURCES = ("karoglou2005", "general")

RH_TOP_PERCENT = 100.0

RH_PERCENT = Quantity(
    "relative humidity",
    "percent",
    5.0,
    RH_TOP_PERCENT,
    "per cent from 5 to 100, such as 80",
    usual=(20.0, RH_TOP_PERCENT),
    slips=(Slip(0.01), Slip(10.0)),
)


class AirWord(StrEnum):
    """The air of a workshop in one word."""

    CRISP = "crisp"
    ORDINARY = "ordinary"
    STICKY = "sticky"
    FOG = "fog"


WORD_RH_PERCENT = {
    AirWord.CRISP: 50.0,
    AirWord.ORDINARY: 65.0,
    AirWord.STICKY: 80.0,
    AirWord.FOG: 92.0,
}
"""What each word stands for [% relative humidity] (general)."""


@dataclass(frozen=True)
class Air:
    """How damp the air of a room is.

    Attributes
    ----------
    rh_percent : float
        Relative humidity [%], mean of the last day.
    low_percent, high_percent : float
        Its 90 % interval [%].
    basis : str
        Where it comes from, in words.
    """

    rh_percent: float
    low_percent: float
    high_percent: float
    basis: str

    def __post_init__(self) -> None:
        """Refuse an interval that does not hold its own middle."""
        if not 0.0 < self.low_percent <= self.rh_percent <= self.high_percent <= RH_TOP_PERCENT:
            raise WeighingError(
                f"Air of {self.rh_percent:g} % cannot lie between {self.low_percent:g} and "
                f"{self.high_percent:g} %.",
                field="rh-percent",
                seen=self.rh_percent,
                accepted=RH_PERCENT.words,
            )


AIR_NOT_KNOWN = Air(75.0, 40.0, TRIED_TO_PERCENT, "air of that day not known")
"""For a weight that was taken in air nobody wrote down."""


@dataclass(frozen=True)
class AirShare:
    """What the air explains.

    Attributes
    ----------
    air_g : float
        Water the air keeps in the pot [g].
    air_percent : float
        The same, of the dry clay [%].
    """

    air_g: float
    air_percent: float


def air_by_word(word: AirWord | str) -> Air:
    """Humidity of the air from a word: crisp, ordinary, sticky or fog.

    Parameters
    ----------
    word : AirWord or str
        How the air feels.

    Returns
    -------
    Air
        With an interval of 8 % either way.

    Raises
    ------
    WeighingError
        If the word is none of the four.
    """
    try:
        known = AirWord(word)
    except ValueError:
        raise WeighingError(
            f"{word!r} is no word for the air: crisp, ordinary, sticky or fog would do.",
            field="air",
            seen=word,
            accepted="crisp, ordinary, sticky or fog",
        ) from None
    rh = WORD_RH_PERCENT[known]
    return Air(
        rh, rh - WORD_PERCENT, min(rh + WORD_PERCENT, RH_TOP_PERCENT), f"by feel, {known.value}"
    )


def air_by_hygrometer(rh_percent: float) -> Air:
    """Humidity of the air from a studio hygrometer.

    Parameters
    ----------
    rh_percent : float
        What it reads [% relative humidity].

    Returns
    -------
    Air
        With an interval of 4 % either way.

    Raises
    ------
    WeighingError
        If the reading cannot be.
    """
    rh = within(rh_percent, RH_PERCENT, field="rh-percent")
    high = min(rh + HYGROMETER_PERCENT, RH_TOP_PERCENT)
    return Air(rh, rh - HYGROMETER_PERCENT, high, "hygrometer")


def air_share(rh_percent: float) -> float:
    """Water that air keeps in a gram of dry clay, for numbers that were checked before.

    Parameters
    ----------
    rh_percent : float
        Relative humidity [%].

    Returns
    -------
    float
        Grams of water to a gram of dry clay; above 98 % that of 98 %.
    """
    rh = min(rh_percent, TRIED_TO_PERCENT) / 100.0
    return SHARE * math.pow(rh / (1.0 - rh), POWER)


def air_share_interval(air: Air) -> tuple[float, float]:
    """Give the 90 % interval of :func:`air_share`, humidity and clay together."""
    mid = air_share(air.rh_percent)
    clay = math.log(CLAY_FACTOR)
    below = math.log(mid / air_share(air.low_percent))
    above = math.log(air_share(air.high_percent) / mid)
    return mid * math.exp(-math.hypot(below, clay)), mid * math.exp(math.hypot(above, clay))


def air_explains(dry_clay_g: float, air: Air) -> Answer[AirShare]:
    """Water that the room's air keeps in a pot, however long it stands.

    Parameters
    ----------
    dry_clay_g : float
        Dry clay of the pot [g].
    air : Air
        The air of the last day.

    Returns
    -------
    Answer of AirShare
        With the doubt of the humidity and of the clay; a caution above 98 %.

    Raises
    ------
    WeighingError
        If the weight cannot be.

    Notes
    -----
    ``water = dry clay x 0.008 (r / (1 - r)) ** 0.42``.
    """
    within(dry_clay_g, WEIGHED_G, field="dry-clay-g", name="weight of the dry clay")
    share = air_share(air.rh_percent)
    low, high = air_share_interval(air)
    basis = f"{air.basis}, {air.low_percent:g} to {air.high_percent:g} %, and the clay"
    too_damp = f"Air above {TRIED_TO_PERCENT:g} % is counted as {TRIED_TO_PERCENT:g} %."
    return Answer(
        AirShare(dry_clay_g * share, 100.0 * share),
        doubt={
            "air_g": Interval(dry_clay_g * low, dry_clay_g * high, basis),
            "air_percent": Interval(100.0 * low, 100.0 * high, basis),
        },
        working=(
            f"Air of {air.rh_percent:g} % ({air.basis}) keeps {100.0 * share:.1f} % in dry clay.",
            f"In {dry_clay_g:g} g that is {dry_clay_g * share:.1f} g.",
        ),
        cautions=(too_damp,) if air.rh_percent > TRIED_TO_PERCENT else (),
        sources=SOURCES,
    )
