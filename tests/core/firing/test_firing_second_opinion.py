"""The second law: its integral, and that it stands near the printed points."""

from math import exp

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.firing.log import firing_log
from wareboard.core.firing.second_opinion import OwnLaw, own_law_progress
from wareboard.core.firing.series import cone_series
from wareboard.refdata.loading import load

LAWS = cone_series().laws
CONE_9 = LAWS["9"]
GAS = 8.314462618e-3


def fitted_ends() -> list[tuple[str, float, float]]:
    """Where the fit says each cone falls: printed temperature plus the fit's own miss."""
    return [
        (row["cone"], rate, float(row[temp]) + float(row[miss]))
        for row in load("cone_heatwork__wareboard2026").rows
        for rate, temp, miss in (
            (60.0, "t60_c", "own_q_resid60_c"),
            (150.0, "t150_c", "own_q_resid150_c"),
        )
    ]


@pytest.mark.parametrize(("cone", "rate_c_h", "end_c"), fitted_ends())
def test_each_cone_falls_where_its_fit_says(cone, rate_c_h, end_c):
    log = firing_log([0.0, (end_c - 20.0) / rate_c_h], [20.0, end_c])

    # The table keeps the miss to 0.05 °C and Q to 0.05 kJ/mol: each is up to 0.7 % of P.
    assert own_law_progress(LAWS[cone], log) == pytest.approx(1.0, abs=0.014)


@given(
    q_kj_mol=st.floats(250, 1600),
    temp_c=st.lists(st.floats(300, 1400), min_size=2, max_size=5),
)
def test_the_closed_form_is_the_quadrature(q_kj_mol, temp_c):
    log = firing_log(np.arange(len(temp_c)) * 2.0, temp_c)
    law = OwnLaw(q_kj_mol, -q_kj_mol / GAS / 1500.0)
    nodes, weights = np.polynomial.legendre.leggauss(40)
    cuts = np.linspace(0, log.now_hours, 40 * (len(temp_c) - 1) + 1)
    half = np.diff(cuts)[:, np.newaxis] / 2
    kelvin = np.interp((cuts[:-1, np.newaxis] + half) + half * nodes, log.hours, log.temp_c)
    paces = np.exp(-q_kj_mol / GAS / (kelvin + 273.15) - law.ln_w_hours)

    summed = float(np.sum(paces * weights * half))

    # A piece that climbs by a ten-thousandth of a degree keeps seven digits.
    assert own_law_progress(law, log) == pytest.approx(summed, rel=1e-7)


def test_a_hold_counts_its_hours_times_the_pace():
    log = firing_log([0.0, 0.5], [1260.0, 1260.0])

    pace = exp(-CONE_9.q_kj_mol / GAS / (1260.0 + 273.15) - CONE_9.ln_w_hours)

    assert own_law_progress(CONE_9, log) == pytest.approx(0.5 * pace, rel=1e-12)


@given(share=st.floats(0.001, 0.999))
def test_a_line_put_in_between_changes_nothing(share):
    log = firing_log([0.0, 20.0], [20.0, 1260.0])
    fuller = firing_log([0.0, 20.0 * share, 20.0], [20.0, 20.0 + 1240.0 * share, 1260.0])

    assert own_law_progress(CONE_9, fuller) == pytest.approx(
        own_law_progress(CONE_9, log), rel=1e-9
    )
