"""How tight a fired body is, and how much it shrank.

Three weighings of an unglazed piece, dry, hanging in water and soaked, tell
its pores; three lengths tell its shrinkage.

Sources
-------
[C373]_ names the three masses and the four numbers made from them.

.. [C373] ASTM C373, Standard test method for water absorption, bulk density,
   apparent porosity, and apparent specific gravity of fired whiteware
   products (scope and procedure read).
"""

from collections.abc import Callable
from dataclasses import dataclass

from wareboard.core.answer import Answer
from wareboard.core.bounds import STEP_G, WEIGHED_G, within
from wareboard.core.doubt import around, reach, together
from wareboard.core.errors import ShapeError, WeighingError
from wareboard.core.units import LENGTH_MM, PERCENT

SCALE_STEP_G = 0.1
"""A small scale, for a piece that hangs from it."""

SMALL = 1e-4
"""Step by which a weight is moved to see what follows, of the weight lost in water."""

RULER_MM = 0.5
"""Half width of a length read off a ruler (common practice)."""


@dataclass(frozen=True)
class Absorption:
    """Pores of a fired body.

    Attributes
    ----------
    absorption_percent : float
        Water it takes up, of its dry weight [%].
    apparent_porosity_percent : float
        Open pores, of its volume [%].
    apparent_sg : float
        Weight of what water cannot enter, against as much water.
    bulk_density_g_cm3 : float
        Dry weight over its volume, pores included [g/cm3].
    """

    absorption_percent: float
    apparent_porosity_percent: float
    apparent_sg: float
    bulk_density_g_cm3: float


@dataclass(frozen=True)
class Shrinkage:
    """Shrinkage of a body, along a line drawn on it.

    Attributes
    ----------
    drying_percent : float
        From wet to dry, of the wet length [%].
    firing_percent : float
        From dry to fired, of the dry length [%].
    total_percent : float
        From wet to fired, of the wet length [%].
    """

    drying_percent: float
    firing_percent: float
    total_percent: float


def _absorption_percent(dry: float, saturated: float) -> float:
    return 100.0 * (saturated - dry) / dry


def _porosity_percent(dry: float, suspended: float, saturated: float) -> float:
    return 100.0 * (saturated - dry) / (saturated - suspended)


def _apparent_sg(dry: float, suspended: float) -> float:
    return dry / (dry - suspended)


def _bulk_density(dry: float, suspended: float, saturated: float) -> float:
    return dry / (saturated - suspended)


def absorption(
    dry_g: float,
    suspended_g: float,
    saturated_g: float,
    *,
    scale_step_g: float = SCALE_STEP_G,
) -> Answer[Absorption]:
    """Pores of a fired, unglazed piece from three weighings.

    Parameters
    ----------
    dry_g : float
        Dry [g].
    suspended_g : float
        Soaked and hanging in water [g].
    saturated_g : float
        Soaked, wiped and back in air [g].
    scale_step_g : float
        Smallest difference the scale shows [g]; a reading is taken to be good
        to one step either way, nine times in ten.

    Returns
    -------
    Answer of Absorption
        The four numbers with their doubt.

    Raises
    ------
    WeighingError
        If the soaked piece is lighter than the dry one, or does not weigh
        less in water.

    Notes
    -----
    With D dry, S suspended, M saturated [C373]_: absorption ``(M - D) / D``,
    apparent porosity ``(M - D) / (M - S)``, apparent SG ``D / (D - S)``, bulk
    density ``D / (M - S)``; water is 1 g/cm3.
    """
    within(dry_g, WEIGHED_G, field="dry-g", name="dry weight")
    within(suspended_g, WEIGHED_G, field="suspended-g", name="weight in water")
    within(saturated_g, WEIGHED_G, field="saturated-g", name="soaked weight")
    within(scale_step_g, STEP_G, field="scale-g")
    if saturated_g < dry_g:
        raise WeighingError(
            f"Soaked it cannot weigh less, {saturated_g:g} g, than dry, {dry_g:g} g: a crumb is "
            "lost, or two weighings are exchanged.",
            field="saturated-g",
            seen=saturated_g,
            accepted=f"at least {dry_g:g} g",
        )
    if suspended_g >= dry_g:
        raise WeighingError(
            f"In water it must weigh less, not {suspended_g:g} g, than dry in air, {dry_g:g} g.",
            field="suspended-g",
            seen=suspended_g,
            accepted=f"less than {dry_g:g} g",
        )
    masses = {"dry": dry_g, "suspended": suspended_g, "saturated": saturated_g}
    small_g = SMALL * (dry_g - suspended_g)
    basis = f"scale to {scale_step_g:g} g"
    result = Absorption(
        _absorption_percent(dry_g, saturated_g),
        _porosity_percent(dry_g, suspended_g, saturated_g),
        _apparent_sg(dry_g, suspended_g),
        _bulk_density(dry_g, suspended_g, saturated_g),
    )
    uses: dict[str, tuple[Callable[..., float], tuple[str, ...]]] = {
        "absorption_percent": (_absorption_percent, ("dry", "saturated")),
        "apparent_porosity_percent": (_porosity_percent, ("dry", "suspended", "saturated")),
        "apparent_sg": (_apparent_sg, ("dry", "suspended")),
        "bulk_density_g_cm3": (_bulk_density, ("dry", "suspended", "saturated")),
    }
    return Answer(
        result,
        doubt={
            key: around(
                getattr(result, key),
                scale_step_g
                / small_g
                * reach(
                    work_out,
                    {name: masses[name] for name in names},
                    dict.fromkeys(names, small_g),
                ),
                basis,
                lowest=0.0,
            )
            for key, (work_out, names) in uses.items()
        },
        working=(
            f"({saturated_g:g} - {dry_g:g}) / {dry_g:g} = {result.absorption_percent:.2f} %.",
            f"Volume {saturated_g:g} - {suspended_g:g} = {saturated_g - suspended_g:.1f} cm3.",
        ),
        sources=("astm-c373",),
    )


def _shrunk_percent(longer: float, shorter: float) -> float:
    return 100.0 * (longer - shorter) / longer


def shrink(
    wet_mm: float, dry_mm: float, fired_mm: float, *, ruler_mm: float = RULER_MM
) -> Answer[Shrinkage]:
    """Shrinkage from three lengths of one line.

    Parameters
    ----------
    wet_mm, dry_mm, fired_mm : float
        The line when drawn, dry, and fired [mm].
    ruler_mm : float
        Half of the 90 % interval of a reading [mm].

    Returns
    -------
    Answer of Shrinkage
        Drying and total shrinkage of the wet length, firing shrinkage of the
        dry length; so the first two do not add up to the third.

    Raises
    ------
    ShapeError
        If a length cannot be, or the line grew.
    """
    within(wet_mm, LENGTH_MM, field="wet-mm", name="wet length", error=ShapeError)
    within(dry_mm, LENGTH_MM, field="dry-mm", name="dry length", error=ShapeError)
    within(fired_mm, LENGTH_MM, field="fired-mm", name="fired length", error=ShapeError)
    for field, before, after, when in (
        ("dry-mm", wet_mm, dry_mm, "dry"),
        ("fired-mm", dry_mm, fired_mm, "fired"),
    ):
        if after > before:
            raise ShapeError(
                f"The line cannot be longer {when}, {after:g} mm, than before, {before:g} mm: are "
                "two lengths exchanged?",
                field=field,
                seen=after,
                accepted=f"at most {before:g} mm",
            )
    pairs = {
        "drying_percent": (wet_mm, dry_mm),
        "firing_percent": (dry_mm, fired_mm),
        "total_percent": (wet_mm, fired_mm),
    }
    result = Shrinkage(**{key: _shrunk_percent(*pair) for key, pair in pairs.items()})
    return Answer(
        result,
        doubt={
            key: around(
                getattr(result, key),
                together([100.0 * ruler_mm / longer, 100.0 * ruler_mm * shorter / longer**2]),
                f"lengths to {ruler_mm:g} mm",
            )
            for key, (longer, shorter) in pairs.items()
        },
        working=(
            f"{wet_mm:g} to {dry_mm:g} mm is {result.drying_percent:.1f} % of the wet length.",
            f"{dry_mm:g} to {fired_mm:g} mm is {result.firing_percent:.1f} % of the dry length.",
        ),
    )


def wet_for_fired_mm(fired_mm: float, total_percent: float) -> float:
    """Length to make wet for a length wanted fired.

    Parameters
    ----------
    fired_mm : float
        Wanted after the fire [mm].
    total_percent : float
        Total shrinkage, of the wet length [%].

    Returns
    -------
    float
        To be made wet [mm]: ``fired / (1 - shrinkage)``.

    Raises
    ------
    ShapeError
        If the length or the shrinkage cannot be.
    """
    within(fired_mm, LENGTH_MM, field="fired-mm", name="fired length", error=ShapeError)
    within(total_percent, PERCENT, field="total-percent", name="shrinkage", error=ShapeError)
    if total_percent >= PERCENT.highest:
        raise ShapeError(
            "A body that shrinks by 100 % is not there any more.",
            field="total-percent",
            seen=total_percent,
            accepted="per cent from 0 to below 100, such as 12",
        )
    return fired_mm / (1.0 - total_percent / PERCENT.highest)
