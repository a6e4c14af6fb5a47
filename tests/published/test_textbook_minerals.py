"""Ideal minerals as textbooks of ceramics round them, from memory.

Older books count with rounded molecular weights (silica 60, alumina 102, lime
56, magnesia 40, soda 62, potash 94, water 18), so the last digit may be out by
up to 0.2 wt%.
"""

import pytest

from wareboard.core.chemistry import analysis_of

ROUNDED = [
    ("kaolinite_ideal", "Al2O3", 39.5),
    ("kaolinite_ideal", "SiO2", 46.5),
    ("kaolinite_ideal", "LOI", 14.0),
    ("feldspar_potash_ideal", "K2O", 16.9),
    ("feldspar_potash_ideal", "Al2O3", 18.4),
    ("feldspar_potash_ideal", "SiO2", 64.7),
    ("feldspar_soda_ideal", "Na2O", 11.8),
    ("feldspar_soda_ideal", "Al2O3", 19.4),
    ("feldspar_soda_ideal", "SiO2", 68.7),
    ("feldspar_lime_ideal", "CaO", 20.1),
    ("feldspar_lime_ideal", "Al2O3", 36.7),
    ("feldspar_lime_ideal", "SiO2", 43.2),
    ("calcite_ideal", "CaO", 56.0),
    ("calcite_ideal", "LOI", 44.0),
    ("dolomite_ideal", "CaO", 30.4),
    ("dolomite_ideal", "MgO", 21.9),
    ("dolomite_ideal", "LOI", 47.7),
    ("talc_ideal", "MgO", 31.9),
    ("talc_ideal", "SiO2", 63.4),
    ("talc_ideal", "LOI", 4.7),
    ("wollastonite_ideal", "CaO", 48.3),
    ("wollastonite_ideal", "SiO2", 51.7),
    ("colemanite", "CaO", 27.3),
    ("colemanite", "B2O3", 50.8),
    ("colemanite", "LOI", 21.9),
    ("borax", "Na2O", 16.3),
    ("borax", "B2O3", 36.5),
    ("borax", "LOI", 47.2),
    ("spodumene_ideal", "Li2O", 8.0),
    ("spodumene_ideal", "Al2O3", 27.4),
    ("spodumene_ideal", "SiO2", 64.6),
    ("petalite_ideal", "Li2O", 4.9),
    ("petalite_ideal", "Al2O3", 16.7),
    ("petalite_ideal", "SiO2", 78.4),
    ("bone_ash_tcp", "CaO", 54.2),
    ("bone_ash_tcp", "P2O5", 45.8),
]


@pytest.mark.published(
    "textbook-minerals", where="from memory: usual roundings of ideal minerals", agreement="0.1 wt%"
)
@pytest.mark.parametrize(("mineral", "column", "printed"), ROUNDED)
def test_an_ideal_mineral_agrees_with_the_textbooks(mineral, column, printed):
    analysis = analysis_of(mineral)

    found = analysis.loi_percent if column == "LOI" else analysis.oxides[column]

    assert found == pytest.approx(printed, abs=0.1)
