"""What to weigh of each powder for a batch, so that the grams shown add up."""

from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.records.people.shown import rounded

from .recipe_book import Powder

FINE_BELOW_G = 100.0
"""Below this a whole gram is more than one in a hundred, and a finer scale is worth its digit."""
WHOLE_G = 1.0
FINEST_G = 0.01
"""For what is less than one step of the studio's scale."""


@dataclass(frozen=True)
class WeighedOut:
    """The grams of a batch, as a scale can show them.

    Attributes
    ----------
    grams : tuple of float
        For each powder, in the order of the recipe [g].
    hundred_g : float
        What the hundred of the recipe adds up to, additions left out [g].
    whole_g : float
        What all of it adds up to [g].
    """

    grams: tuple[float, ...]
    hundred_g: float
    whole_g: float


def weigh_out(powders: Sequence[Powder], dry_g: float, *, scale_step_g: float) -> WeighedOut:
    """Share a dry weight out over a recipe: the hundred makes it up, additions come on top.

    That the hundred is the base and additions are counted on it is common
    practice. The lines of the hundred are rounded so that they add up to what
    was asked for: each lies within one step of the scale of its exact share.

    Parameters
    ----------
    powders : sequence of Powder
        What is weighed out.
    dry_g : float
        What the hundred is to weigh [g].
    scale_step_g : float
        Smallest step of the scale [g].
    """
    counted = [not powder.on_top for powder in powders]
    hundred = sum(
        powder.parts for powder, counts in zip(powders, counted, strict=True) if counts
    ) or sum(powder.parts for powder in powders)
    exact = [powder.parts * dry_g / hundred for powder in powders]
    main = [grams for grams, counts in zip(exact, counted, strict=True) if counts]
    shared = iter(in_steps(main, step_for(min(main, default=0.0), scale_step_g)))
    grams = tuple(
        next(shared) if counts else float(rounded(one, step_for(one, scale_step_g)))
        for one, counts in zip(exact, counted, strict=True)
    )
    kept = [one for one, counts in zip(grams, counted, strict=True) if counts]
    return WeighedOut(grams, tidy(sum(kept)), tidy(sum(grams)))


def step_for(mass_g: float, scale_step_g: float) -> float:
    """Give the step to which a weight is said [g]: never so coarse that nothing is left of it."""
    fine_g = min(scale_step_g, WHOLE_G)
    if 0 < mass_g < fine_g:
        return min(fine_g, FINEST_G)
    return fine_g if mass_g < FINE_BELOW_G else WHOLE_G


def in_steps(exact: Sequence[float], step: float) -> list[float]:
    """Round weights to steps so that their sum is rounded to a step too.

    Every weight is rounded down, and the steps still missing go to those that
    lost most.

    Examples
    --------
    >>> in_steps([33.4, 33.3, 33.3], 1.0)
    [34.0, 33.0, 33.0]
    """
    steps = [grams / step for grams in exact]
    down = [int(count + 1e-9) for count in steps]
    missing = round(sum(steps)) - sum(down)
    lost_most = sorted(range(len(exact)), key=lambda n: down[n] - steps[n])
    for n in lost_most[:missing]:
        down[n] += 1
    return [float(rounded(count * step, step)) for count in down]


def tidy(mass_g: float) -> float:
    """Take the noise of adding up off a sum of weights [g]."""
    return round(mass_g, 3)
