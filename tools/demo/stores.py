"""Materials of the demo, what their sheets say, and the bags they came in.

The analyses are generic typicals made up for the demo; no supplier sells them.
"""

from typing import Any

from demo.ledger import Ledger, when

OXIDES = ("SiO2", "Al2O3", "Fe2O3", "CaO", "MgO", "K2O", "Na2O", "TiO2", "P2O5", "MnO")
OWN_FIGURES = "made up for the demo, generic"
FIRST_DAY = "03-02 09:00"

# name, library row, density, share of each oxide in the order above, loss on ignition
GLAZE_MATERIALS: dict[str, tuple[str, str, float, tuple[float, ...], float]] = {
    "soda-feldspar": (
        "soda feldspar", "feldspar_soda_ideal", 2.62,
        (68.0, 19.0, 0.1, 0.9, 0, 3.0, 8.5, 0, 0, 0), 0.4,
    ),
    "nepheline-syenite": (
        "nepheline syenite", "nepheline_syenite_studio", 2.6,
        (60.2, 23.5, 0.1, 0.3, 0, 5.0, 10.4, 0, 0, 0), 0.5,
    ),
    "whiting": (
        "whiting", "calcite_ideal", 2.71,
        (0.8, 0, 0, 55.2, 0.4, 0, 0, 0, 0, 0), 43.5,
    ),
    "dolomite": (
        "dolomite", "dolomite_ideal", 2.86,
        (0.7, 0, 0, 30.6, 21.3, 0, 0, 0, 0, 0), 47.2,
    ),
    "talc": (
        "talc", "talc_typical", 2.75,
        (61.0, 0.6, 0.7, 0.5, 31.0, 0, 0, 0, 0, 0), 5.5,
    ),
    "silica": (
        "silica", "quartz_ideal", 2.65,
        (99.5, 0.2, 0, 0, 0, 0, 0, 0, 0, 0), 0.0,
    ),
    "ball-clay": (
        "ball clay", "ball_clay_plastic", 2.55,
        (54.0, 30.0, 1.0, 0.3, 0.4, 2.2, 0.3, 1.2, 0, 0), 10.4,
    ),
    "kaolin": (
        "kaolin", "kaolin_primary_typical", 2.62,
        (47.0, 37.5, 0.7, 0, 0, 1.8, 0, 0, 0, 0), 12.7,
    ),
    "hedge-ash": (
        "hedge-trimmings ash, washed", "ash_mixed_washed_illustrative", 2.6,
        (12.0, 2.5, 1.4, 41.0, 6.0, 2.5, 0.5, 0, 4.0, 1.0), 29.0,
    ),
    "soda-ash": (
        "soda ash", "soda_ash", 2.53,
        (0, 0, 0, 0, 0, 0, 58.5, 0, 0, 0), 41.5,
    ),
}  # fmt: skip

# Both bags of potash feldspar have a sheet of their own.
FELDSPAR_DENSITY_G_CM3 = 2.56
FELDSPAR_SHEETS = {
    "potash-feldspar-a": ((66.5, 18.3, 0.1, 0.4, 0, 10.6, 3.0, 0, 0, 0), 0.4, "03-14 11:00"),
    "potash-feldspar-b": ((70.6, 16.6, 0.1, 0.6, 0, 7.6, 3.1, 0, 0, 0), 0.5, "10-03 10:00"),
}

COLOURANTS = {
    "copper-carbonate": ("copper carbonate", "copper_carbonate"),
    "tin-oxide": ("tin oxide", "tin_oxide"),
    "chrome-oxide": ("chrome oxide", "chromium_oxide"),
    "rutile": ("rutile", "rutile_typical"),
    "red-iron-oxide": ("red iron oxide", "iron_oxide_red_synthetic"),
}

# lot, material, label, container, opened, anything else
LOTS: tuple[tuple[str, str, str, str, str, dict[str, Any]], ...] = (
    ("potash-feldspar-a", "potash-feldspar", "A", "bag", "03-14 11:00",
     {"sheet": "potash-feldspar-a", "jar_kept": True,
      "note": "Finished on 2 September; the jar is on the shelf above the scale."}),
    ("potash-feldspar-b", "potash-feldspar", "B", "bag", "10-03 10:00",
     {"sheet": "potash-feldspar-b",
      "note": "The same name on the bag as A. The sheet that came with it differs."}),
    ("hedge-ash-1", "hedge-ash", "1", "sack", "04-18 15:00",
     {"remembered": "about spring", "note": "Used up before anything was written down."}),
    ("hedge-ash-2", "hedge-ash", "2", "sack", "08-08 15:00",
     {"fineness": "through 80 mesh", "note": "Washed three times."}),
    ("hedge-ash-3", "hedge-ash", "3", "sack", "10-12 15:00",
     {"fineness": "through 80 mesh", "note": "Washed only once: it thickens the bucket."}),
    ("soda-feldspar-1", "soda-feldspar", "1", "bag", "03-14 11:10", {}),
    ("nepheline-syenite-1", "nepheline-syenite", "1", "bag", "03-14 11:15", {}),
    ("whiting-1", "whiting", "1", "bag", "03-14 11:20", {}),
    ("dolomite-1", "dolomite", "1", "bag", "03-14 11:25", {}),
    ("talc-1", "talc", "1", "bag", "03-14 11:30", {}),
    ("silica-1", "silica", "1", "bag", "03-14 11:35", {}),
    ("ball-clay-1", "ball-clay", "1", "bag", "03-14 11:40", {}),
    ("kaolin-1", "kaolin", "1", "bag", "03-14 11:45", {}),
    ("soda-ash-1", "soda-ash", "1", "jar", "03-14 11:50", {}),
    ("copper-carbonate-1", "copper-carbonate", "1", "jar", "03-14 12:00", {}),
    ("tin-oxide-1", "tin-oxide", "1", "jar", "03-14 12:02", {}),
    ("chrome-oxide-1", "chrome-oxide", "1", "jar", "03-14 12:04", {}),
    ("rutile-1", "rutile", "1", "jar", "03-14 12:06", {}),
    ("red-iron-oxide-1", "red-iron-oxide", "1", "jar", "03-14 12:08", {}),
    ("wax-1", "wax", "1", "jar", "03-14 12:10", {}),
    ("oyster-shell-1", "oyster-shell", "the creek, August", "jar", "08-15 17:00",
     {"fineness": "pounded, like coarse salt"}),
)  # fmt: skip

# What was left in the six bins at two counts [g]; the ball clay lasts three weeks more.
BINS = {
    "potash-feldspar-b": (17_600, 17_300),
    "whiting-1": (7_600, 7_450),
    "silica-1": (9_800, 9_000),
    "ball-clay-1": (4_000, 1_500),
    "talc-1": (6_100, 6_020),
    "dolomite-1": (5_200, 5_100),
}
COUNTED = ("10-12 17:00", "11-16 17:00")


def keep_stores(ledger: Ledger) -> None:
    """Write materials, sheets, lots and counts."""
    first = when(FIRST_DAY)
    for material, (name, library_id, density, shares, loss) in GLAZE_MATERIALS.items():
        ledger.entry("materials", material, first, name=name, library_id=library_id)
        _sheet(ledger, f"{material}-typical", material, "typical", density, shares, loss, FIRST_DAY)
    ledger.entry(
        "materials",
        "potash-feldspar",
        first,
        name="potash feldspar",
        other_names="potash spar",
        library_id="feldspar_potash_grade1",
    )
    for sheet, (shares, loss, day) in FELDSPAR_SHEETS.items():
        _sheet(
            ledger,
            sheet,
            "potash-feldspar",
            "supplier's sheet",
            FELDSPAR_DENSITY_G_CM3,
            shares,
            loss,
            day,
        )
    for material, (name, library_id) in COLOURANTS.items():
        ledger.entry(
            "materials", material, first, name=name, kind="colourant", library_id=library_id
        )
    ledger.entry(
        "materials",
        "buff-stoneware",
        first,
        name="buff stoneware",
        kind="clay body",
        shrinkage_percent=12.0,
    )
    ledger.entry("materials", "wax", first, name="wax", kind="resist")
    ledger.entry("materials", "oyster-shell", first, name="oyster shell", kind="found")
    for lot, material, label, container, day, more in LOTS:
        ledger.entry(
            "lots", lot, when(day), material=material, label=label, container=container, **more
        )
    for lot, counts in BINS.items():
        for number, (day, left_g) in enumerate(zip(COUNTED, counts, strict=True), start=1):
            ledger.entry(
                "counts", f"{lot}-count-{number}", when(day), lot=lot, left_g=float(left_g)
            )


def _sheet(
    ledger: Ledger,
    sheet: str,
    material: str,
    standing: str,
    density: float,
    shares: tuple[float, ...],
    loss: float,
    day: str,
) -> None:
    ledger.entry(
        "sheets",
        sheet,
        when(day),
        material=material,
        standing=standing,
        source=OWN_FIGURES,
        loss_percent=loss,
        density_g_cm3=density,
    )
    ledger.parts(
        "sheet_oxides",
        "sheet",
        sheet,
        (
            {"oxide": oxide, "percent": share}
            for oxide, share in zip(OXIDES, shares, strict=True)
            if share
        ),
    )
