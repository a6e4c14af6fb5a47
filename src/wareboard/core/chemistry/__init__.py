"""Oxides, analyses and the unity formula.

`Analysis` says what a powder is made of, `amounts` counts molecules, `unity`
scales them to the fluxes. Formulas of minerals are in ``chemistry.formula``,
elements and their oxides in ``chemistry.elements``; a recipe does not need
them.
"""

from wareboard.core.chemistry.amounts import (
    amount_to_mass_percent,
    amounts,
    flux_sum,
    mass_to_amount_percent,
    masses,
    oxygen_ratio,
    to_hundred,
    unity,
)
from wareboard.core.chemistry.analysis import LOI, Analysis, analysis_of, known_oxide
from wareboard.refdata.loading import Standing

__all__ = [
    "LOI",
    "Analysis",
    "Standing",
    "amount_to_mass_percent",
    "amounts",
    "analysis_of",
    "flux_sum",
    "known_oxide",
    "mass_to_amount_percent",
    "masses",
    "oxygen_ratio",
    "to_hundred",
    "unity",
]
