"""A second law of heat-work, to see how much the first one is worth.

Each cone gets an activation energy of its own, fitted to its printed points:
``P = ∫ exp(-Q / R T) dt / W``. It is no better than the table turned round, but
it is another curve through the same points, so the gap between the two shows
the error that comes from the form of the law alone.
"""

from dataclasses import dataclass

from wareboard.core.arrays import Floats, np
from wareboard.core.firing.heatwork import NEARLY_FLAT_C
from wareboard.core.firing.log import FiringLog

GAS_KJ_MOL_K = 8.314462618e-3
"""Molar gas constant, exact in the present units (CODATA 2018)."""

KELVIN_C = 273.15
FRACTIONS = 25


@dataclass(frozen=True)
class OwnLaw:
    """The activation energy of one cone.

    Attributes
    ----------
    q_kj_mol : float
        Activation energy [kJ mol⁻¹].
    ln_w_hours : float
        Natural logarithm of the work done when the cone is down [ln h].
    """

    q_kj_mol: float
    ln_w_hours: float


def own_law_progress(law: OwnLaw, log: FiringLog) -> float:
    """How far along its fall a cone is after a log, by its own activation energy.

    Parameters
    ----------
    law : OwnLaw
        The cone.
    log : FiringLog
        The firing.

    Returns
    -------
    float
        0 before the fire, 1 when the cone is down.

    Notes
    -----
    Over a straight piece ``∫ exp(-E/T) dT = [T E₂(E/T)]`` with E₂ the exponential
    integral, taken from its continued fraction.
    """
    kelvin = log.temp_c + KELVIN_C
    climb, gaps = np.diff(kelvin), np.diff(log.hours)
    slow = np.abs(climb) < NEARLY_FLAT_C
    sums = _below(law, kelvin)
    mean = np.where(
        slow,
        _pace(law, (kelvin[:-1] + kelvin[1:]) / 2),
        np.diff(sums) / np.where(slow, 1.0, climb),
    )
    return float(mean @ gaps)


def _pace(law: OwnLaw, kelvin: Floats) -> Floats:
    """Progress per hour at a temperature."""
    pace: Floats = np.exp(-law.q_kj_mol / GAS_KJ_MOL_K / kelvin - law.ln_w_hours)
    return pace


def _below(law: OwnLaw, kelvin: Floats) -> Floats:
    """Pace summed over all temperatures below one [K h⁻¹]."""
    x = law.q_kj_mol / GAS_KJ_MOL_K / kelvin
    under = x + 2 * FRACTIONS + 2
    for step in range(FRACTIONS, 0, -1):
        under = x + 2 * step - step * (step + 1) / under
    below: Floats = kelvin * _pace(law, kelvin) / under
    return below
