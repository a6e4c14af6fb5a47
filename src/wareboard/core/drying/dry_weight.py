"""What a pot weighs with no water in it, and how well that is known.

Only the pot's own weight, taken bone dry, can ever say go. The weight of the
form's earlier pots and the weight of the plastic clay are estimates: thrown
pots differ by five to ten per cent, far more than the water in question.

A weight taken white-dry on the shelf still holds that day's air. Too heavy a
dry weight makes a wet pot look dry, so the air's share is taken off and what
is not known of it counts against the pot.

Sources
-------
The scatter of thrown pots and the moisture of plastic clay are common
practice; the air stands in :mod:`wareboard.core.drying.air`. Leather-hard clay
holds about 15 % water; the least of it, 6 %, is the lowest critical moisture
that was found for clay dried slowly (Keey; Ford: from memory).
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from wareboard.core.answer import Answer
from wareboard.core.bounds import DOUBT_G, STEP_G, WEIGHED_G, within
from wareboard.core.doubt import NORMAL_90, around, reach, student_90
from wareboard.core.drying.air import CLAY_FACTOR, SOURCES, Air, AirWord, air_by_word, air_share
from wareboard.core.errors import WeighingError
from wareboard.core.units import PERCENT

SCALE_SD = 1.1
"""Standard deviation of one weighing of a raw pot, in steps of the scale."""

FORM_DOUBT = 0.05
"""Half width of a pot about its form's mean, at the least, as a share (common practice)."""

FORM_DOUBT_FEW = 0.10
"""The same with fewer than three pots of the form (common practice)."""

FEW = 3

LEAST_LEATHER_HARD = 0.06
"""Water that leather-hard clay holds at the least, of the dry clay; 0.15 is usual [ratio]."""

BEYOND_FORM = 2.33
"""Standard deviations above its form's weights where one asks: one pot in a hundred."""

PLASTIC_PERCENT_DOUBT = 2.0
"""Half width of the moisture of plastic clay [% of the wet weight] (common practice)."""

KEPT_DOUBT = 0.02
"""Half width of the share kept after trimming (common practice)."""

_MOISTURE = replace(
    PERCENT,
    name="moisture of the plastic clay",
    lowest=5.0,
    highest=50.0,
    words="per cent of the wet weight from 5 to 50, such as 21",
)
_DRY_CLAY = "weight of the dry clay"


class Standing(StrEnum):
    """Where a dry weight comes from."""

    OWN = "own"
    FORM = "form"
    PLASTIC = "plastic"


@dataclass(frozen=True)
class DryWeight:
    """Dry clay of a pot.

    Attributes
    ----------
    dry_clay_g : float
        Clay with no water in it [g].
    sd_g : float
        Standard deviation of that [g].
    standing : Standing
        Own, or estimated from the form or the plastic weight.
    """

    dry_clay_g: float
    sd_g: float
    standing: Standing


def checked(dry: DryWeight) -> DryWeight:
    """Give a dry weight back, or refuse it with a WeighingError."""
    within(dry.dry_clay_g, WEIGHED_G, field="dry-clay-g", name=_DRY_CLAY)
    within(dry.sd_g, DOUBT_G, field="dry-clay-sd-g", name="doubt of the dry clay")
    return dry


def _answer(dry: DryWeight, basis: str, working: str, *cautions: str) -> Answer[DryWeight]:
    return Answer(
        dry,
        doubt={"dry_clay_g": around(dry.dry_clay_g, NORMAL_90 * dry.sd_g, basis, lowest=0.0)},
        working=(working,),
        cautions=cautions,
        sources=SOURCES,
    )


def dry_from_tray(weight_g: float, *, scale_step_g: float = 1.0) -> Answer[DryWeight]:
    """Own dry weight of a pot weighed bone dry and still warm from a tray.

    Parameters
    ----------
    weight_g : float
        The raw, unglazed pot [g].
    scale_step_g : float
        Smallest difference the scale shows [g].

    Returns
    -------
    Answer of DryWeight
        Standing: own.

    Raises
    ------
    WeighingError
        If the weight or the step cannot be.
    """
    within(weight_g, WEIGHED_G, field="dry-clay-g", name=_DRY_CLAY)
    within(scale_step_g, STEP_G, field="scale-g")
    return _answer(
        DryWeight(weight_g, SCALE_SD * scale_step_g, Standing.OWN),
        f"scale to {scale_step_g:g} g",
        f"{weight_g:g} g, weighed warm and bone dry.",
    )


def dry_from_shelf(
    weight_g: float, air_then: Air, *, scale_step_g: float = 1.0
) -> Answer[DryWeight]:
    """Own dry weight of a pot weighed white-dry on the shelf, less the air of that day.

    Parameters
    ----------
    weight_g : float
        The raw, unglazed pot [g].
    air_then : Air
        The air it stood in; ``AIR_NOT_KNOWN`` where nobody wrote it down.
    scale_step_g : float
        Smallest difference the scale shows [g].

    Returns
    -------
    Answer of DryWeight
        Standing: own. Always lighter than what was weighed.

    Raises
    ------
    WeighingError
        If the weight or the step cannot be.

    Notes
    -----
    ``dry = weight / (1 + share)``. A clay that holds more than the rule holds
    more on the day of lighting too, so the clay's own doubt counts only for
    the part that crisp air would not explain as well.
    """
    within(weight_g, WEIGHED_G, field="dry-clay-g", name="weight of the white-dry pot")
    within(scale_step_g, STEP_G, field="scale-g")
    share = air_share(air_then.rh_percent)
    dry_g = weight_g / (1.0 + share)
    humidity = (air_share(air_then.high_percent) - air_share(air_then.low_percent)) / 2.0
    crisp = air_share(air_by_word(AirWord.CRISP).rh_percent)
    clay = (CLAY_FACTOR - 1.0) * max(share - crisp, 0.0)
    air_sd_g = dry_g * math.hypot(humidity, clay) / NORMAL_90
    return _answer(
        DryWeight(dry_g, math.hypot(air_sd_g, SCALE_SD * scale_step_g), Standing.OWN),
        f"{air_then.basis}, the clay, scale to {scale_step_g:g} g",
        f"{weight_g:g} g white-dry less the {100.0 * share:.1f} % that air of "
        f"{air_then.rh_percent:g} % keeps: {dry_g:.1f} g.",
        "White-dry is as dry as the shelf allowed; a warm tray tells more.",
    )


def dry_from_form(weights_g: Sequence[float]) -> Answer[DryWeight]:
    """Estimated dry weight of a pot from earlier pots of its form.

    Parameters
    ----------
    weights_g : sequence of float, at least one
        Bone-dry weights of earlier pots [g].

    Returns
    -------
    Answer of DryWeight
        Standing: form. Doubted by 5 % or by the pots' own scatter, whichever
        is more; by 10 % with fewer than three pots.

    Raises
    ------
    WeighingError
        If there is no weight, or one of them cannot be.
    """
    if not weights_g:
        raise WeighingError(
            "No pot of this form was ever weighed bone dry.",
            field="form-g",
            seen=(),
            accepted="the bone-dry weight of at least one pot of the form",
        )
    for weight in weights_g:
        within(weight, WEIGHED_G, field="form-g", name="weight of an earlier pot")
    count = len(weights_g)
    mean_g = statistics.fmean(weights_g)
    if count < FEW:
        half_g = FORM_DOUBT_FEW * mean_g
    else:
        scatter_g = statistics.stdev(weights_g, mean_g) * math.sqrt(1.0 + 1.0 / count)
        half_g = max(FORM_DOUBT * mean_g, student_90(count - 1) * scatter_g)
    return _answer(
        DryWeight(mean_g, half_g / NORMAL_90, Standing.FORM),
        f"usual ({count}), this form",
        f"{count} earlier pot{'s' if count > 1 else ''} of this form, {mean_g:.0f} g on average.",
        "An estimated dry weight can say wait or stop, never go.",
    )


def was_damp(weight_g: float, leather_hard_g: float) -> bool:
    """Tell whether a pot that was called dry cannot have been, by what it weighed leather-hard.

    Parameters
    ----------
    weight_g : float
        What it weighed when it was called dry [g].
    leather_hard_g : float
        What the same pot weighed before, leather-hard [g].

    Returns
    -------
    bool
        True where it lost less than the least water that leather-hard clay holds.

    Raises
    ------
    WeighingError
        If a weight cannot be.
    """
    within(weight_g, WEIGHED_G, field="dry-clay-g", name=_DRY_CLAY)
    within(leather_hard_g, WEIGHED_G, field="leather-hard-g", name="leather-hard weight")
    return weight_g * (1.0 + LEAST_LEATHER_HARD) > leather_hard_g


def beyond_form_g(weight_g: float, weights_g: Sequence[float]) -> float:
    """Give how far a pot called dry lies above the dry pots of its form, where that is to be asked.

    Parameters
    ----------
    weight_g : float
        What it weighed when it was called dry [g].
    weights_g : sequence of float, at least one
        Bone-dry weights of earlier pots of its form [g].

    Returns
    -------
    float
        Grams over their mean; 0 where one such pot in a hundred is as heavy.

    Raises
    ------
    WeighingError
        If a weight cannot be.
    """
    within(weight_g, WEIGHED_G, field="dry-clay-g", name=_DRY_CLAY)
    form = dry_from_form(weights_g).result
    over_g = weight_g - form.dry_clay_g
    return over_g if over_g > BEYOND_FORM * form.sd_g else 0.0


def dry_from_plastic(
    plastic_g: float,
    moisture_percent: float,
    *,
    kept: float = 1.0,
    moisture_doubt_percent: float = PLASTIC_PERCENT_DOUBT,
) -> Answer[DryWeight]:
    """Estimated dry weight of a pot from the plastic clay it was thrown of.

    Parameters
    ----------
    plastic_g : float
        Plastic clay [g].
    moisture_percent : float
        Its moisture [% of the wet weight].
    kept : float
        Share left after trimming [ratio].
    moisture_doubt_percent : float
        Half of the 90 % interval of `moisture_percent` [%].

    Returns
    -------
    Answer of DryWeight
        Standing: plastic.

    Raises
    ------
    WeighingError
        If a number cannot be.
    """
    within(plastic_g, WEIGHED_G, field="plastic-g", name="weight of the plastic clay")
    within(moisture_percent, _MOISTURE, field="moisture-percent")
    within(
        moisture_doubt_percent,
        PERCENT,
        field="moisture-doubt-percent",
        name="doubt of the moisture",
    )
    if not 0.0 < kept <= 1.0:
        raise WeighingError(
            f"The share kept after trimming cannot be {kept:g}: above 0 and up to 1 would do.",
            field="kept",
            seen=kept,
            accepted="a number above 0 and up to 1, such as 0.86",
        )

    def dry_clay(moisture: float, kept: float) -> float:
        return plastic_g * kept * (1.0 - moisture / 100.0)

    dry_g = dry_clay(moisture_percent, kept)
    half_g = reach(
        dry_clay,
        {"moisture": moisture_percent, "kept": kept},
        {
            "moisture": moisture_doubt_percent,
            "kept": KEPT_DOUBT if kept < 1.0 else 0.0,
        },
    )
    return _answer(
        DryWeight(dry_g, half_g / NORMAL_90, Standing.PLASTIC),
        f"moisture to {moisture_doubt_percent:g} points",
        f"{plastic_g:g} g plastic x {kept:g} kept x (1 - {moisture_percent:g} %) = {dry_g:.0f} g.",
        "An estimated dry weight can say wait or stop, never go.",
    )
