"""The unity formula of a recipe, its fired composition and its loss.

Sources
-------
Molar masses: table ``oxides__iupac2021``. The convention of the flux sum is
told in `wareboard.core.chemistry.amounts`.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from wareboard.core.answer import Answer, Interval
from wareboard.core.chemistry.amounts import amounts, flux_sum, to_hundred, unity
from wareboard.core.chemistry.analysis import LOI, Analysis
from wareboard.core.doubt import around
from wareboard.core.recipe.lines import Mixture, RecipeLine, mixture
from wareboard.core.recipe.spread import BASIS_OF_ANALYSES, percent_sd, ratio_half_width
from wareboard.refdata import oxides

_ADDS_UP_WITHIN = 2.5

_GASES_WITH_HARM = {
    "F": "gives off fluorine compounds in the fire: the kiln needs a strong vent",
    "SO3": "gives off sulphur oxides in the fire: the kiln needs a vent",
}


@dataclass(frozen=True)
class Unity:
    """A recipe seen by its molecules.

    Attributes
    ----------
    unity : mapping of str to float
        Unity formula: amount of each oxide where the fluxes add up to 1.
    fired_percent : mapping of str to float
        Fired glaze [weight per cent].
    loi_percent : float
        What leaves in the fire [per cent of the raw weight], fluorine and
        sulphur included.
    sio2_al2o3 : float or None
        Molecules of silica for one of alumina; None without alumina.
    total_parts : float
        Sum of the parts, additions included.
    """

    unity: Mapping[str, float]
    fired_percent: Mapping[str, float]
    loi_percent: float
    sio2_al2o3: float | None
    total_parts: float


def unity_formula(lines: Sequence[RecipeLine]) -> Answer[Unity]:
    """Work out the unity formula of a recipe.

    Parameters
    ----------
    lines : sequence of RecipeLine
        In any order.

    Returns
    -------
    Answer of Unity
        The doubt is keyed ``loi_percent``, ``sio2_al2o3``, and ``unity.K2O``
        or ``fired_percent.K2O`` for each oxide.

    Raises
    ------
    CompositionError
        If all parts are 0, or if there is no flux.

    Notes
    -----
    Fluorine and sulphur trioxide leave with the gases. A blank loss on
    ignition counts as 0, with a caution.

    Examples
    --------
    >>> from wareboard.core.chemistry import analysis_of
    >>> lines = [RecipeLine(m, p, False, analysis_of(m))
    ...          for m, p in (("feldspar_potash_ideal", 40.0), ("quartz_ideal", 30.0),
    ...                       ("calcite_ideal", 20.0), ("kaolinite_ideal", 10.0))]
    >>> {oxide: round(x, 2) for oxide, x in unity_formula(lines).result.unity.items()}
    {'K2O': 0.26, 'CaO': 0.74, 'Al2O3': 0.41, 'SiO2': 3.71}
    """
    mixed = mixture(lines)
    kept = kept_percent(mixed)
    moles = amounts(kept)
    formula = unity(moles)
    alumina = moles.get("Al2O3", 0.0)
    result = Unity(
        unity=formula,
        fired_percent=to_hundred(kept),
        loi_percent=fsum(share * analysis.loss_percent for analysis, share in mixed.shares),
        sio2_al2o3=moles.get("SiO2", 0.0) / alumina if alumina else None,
        total_parts=mixed.total_parts,
    )
    fluxes = " + ".join(
        f"{n:.3f} {oxide}" for oxide, n in formula.items() if oxide in oxides.FLUXES
    )
    return Answer(
        result=result,
        doubt=_doubt(mixed, result, moles, fsum(kept.values())),
        working=(f"{fluxes} = 1; {result.loi_percent:.1f} % of the weight leave in the fire.",),
        cautions=_cautions(mixed, formula),
        sources=(oxides.TABLE, *mixed.sources),
    )


def kept_percent(mixed: Mixture) -> dict[str, float]:
    """Add up what stays in the glaze.

    Parameters
    ----------
    mixed : Mixture
        A recipe as shares of its powders.

    Returns
    -------
    dict of str to float
        Oxides, gases left out [per cent of the raw weight].
    """
    found: dict[str, list[float]] = {}
    for analysis, share in mixed.shares:
        for oxide, percent in analysis.kept.items():
            found.setdefault(oxide, []).append(share * percent)
    return {oxide: fsum(found[oxide]) for oxide in oxides.all_oxides() if oxide in found}


def _doubt(
    mixed: Mixture, result: Unity, moles: Mapping[str, float], fired: float
) -> dict[str, Interval]:
    """Carry the doubt of the analyses through to every result."""

    def interval(
        value: float,
        below: float,
        above_weight: Callable[[str], float],
        below_weight: Callable[[str], float],
    ) -> Interval:
        entries = [
            (share * above_weight(oxide), share * below_weight(oxide), percent_sd(analysis, oxide))
            for analysis, share in mixed.shares
            for oxide in analysis.kept
        ]
        half = ratio_half_width(value, below, entries)
        return around(value, half, BASIS_OF_ANALYSES, lowest=0.0)

    def molecules_of(wanted: Sequence[str]) -> Callable[[str], float]:
        return lambda oxide: 1.0 / oxides.molar_mass_g_mol(oxide) if oxide in wanted else 0.0

    def percent_of(wanted: str) -> Callable[[str], float]:
        return lambda oxide: 100.0 if oxide == wanted else 0.0

    def everything(_: str) -> float:
        return 1.0

    fluxes = molecules_of(oxides.FLUXES)
    doubt = {
        f"unity.{oxide}": interval(value, flux_sum(moles), molecules_of((oxide,)), fluxes)
        for oxide, value in result.unity.items()
    }
    for oxide, percent in result.fired_percent.items():
        doubt[f"fired_percent.{oxide}"] = interval(percent, fired, percent_of(oxide), everything)
    if result.sio2_al2o3 is not None:
        doubt["sio2_al2o3"] = interval(
            result.sio2_al2o3, moles["Al2O3"], molecules_of(("SiO2",)), molecules_of(("Al2O3",))
        )
    losses = [(share, 0.0, percent_sd(analysis, LOI)) for analysis, share in mixed.shares]
    doubt["loi_percent"] = around(
        result.loi_percent, ratio_half_width(result.loi_percent, 1.0, losses), BASIS_OF_ANALYSES
    )
    return doubt


def _cautions(mixed: Mixture, formula: Mapping[str, float]) -> tuple[str, ...]:
    """Say what has to be shown beside the result."""
    said = [caution for analysis, _ in mixed.shares for caution in _cautions_of(analysis)]
    if "PbO" in formula:
        said.append("This recipe holds lead: for checking old recipes only, not for use.")
    return tuple(said)


def _cautions_of(analysis: Analysis) -> list[str]:
    """Say what has to be shown for one powder."""
    said = []
    if analysis.loi_percent is None:
        said.append(f"No loss on ignition is given for {analysis.called}: counted as 0.")
    elif abs(analysis.total_percent - 100.0) > _ADDS_UP_WITHIN:
        said.append(f"The analysis of {analysis.called} adds up to {analysis.total_percent:.1f} %.")
    said.extend(
        f"{analysis.called} {harm}."
        for gas, harm in _GASES_WITH_HARM.items()
        if analysis.oxides.get(gas, 0.0) > 0.0
    )
    return said
