"""Materials, their sheets, and ten years of bags."""

from datetime import datetime, timedelta

from wareboard.records.stores.models import Count, Lot, Material, Sheet, SheetOxide
from wareboard.refdata.materials import material as library_row

from .book import Book
from .size import Size

# What a recipe cannot do without comes first, so that a small record has it too.
GLAZE_MATERIALS = (
    ("potash feldspar", "feldspar_potash_grade1"),
    ("whiting", "calcite_ideal"),
    ("silica", "quartz_ideal"),
    ("ball clay", "ball_clay_plastic"),
    ("talc", "talc_typical"),
    ("nepheline syenite", "nepheline_syenite_studio"),
    ("dolomite", "dolomite_ideal"),
    ("kaolin", "kaolin_primary_typical"),
    ("red iron oxide", "iron_oxide_red_synthetic"),
    ("soda feldspar", "feldspar_soda_bcs375"),
    ("mixed ash, washed", "ash_mixed_washed_illustrative"),
    ("cornish stone", "cornish_stone_typical"),
    ("wollastonite", "wollastonite_typical"),
    ("siliceous ball clay", "ball_clay_siliceous"),
    ("calcined kaolin", "kaolin_calcined_typical"),
    ("spodumene", "spodumene_typical"),
    ("bone ash", "bone_ash_apatite"),
    ("zinc oxide", "zinc_oxide"),
    ("strontium carbonate", "strontium_carbonate"),
    ("calcium borate frit", "frit_calcium_borate_illustrative"),
    ("alkaline frit", "frit_alkaline_illustrative"),
    ("red clay", "red_clay_typical"),
    ("rice husk ash", "ash_rice_husk_typical"),
    ("light magnesium carbonate", "magnesium_carbonate_light"),
)
COLOURANTS = (
    ("rutile", "rutile_typical"),
    ("tin oxide", "tin_oxide"),
    ("copper carbonate", "copper_carbonate"),
    ("cobalt carbonate", "cobalt_carbonate"),
    ("chromium oxide", "chromium_oxide"),
    ("manganese dioxide", "manganese_dioxide"),
    ("black iron oxide", "iron_oxide_black_ideal"),
    ("ilmenite", "ilmenite_ideal"),
    ("titanium dioxide", "titanium_dioxide"),
    ("yellow ochre", "yellow_ochre_typical"),
    ("zircon", "zirconium_silicate"),
    ("nickel oxide", "nickel_oxide"),
)
CLAYS = ("buff stoneware", "speckled stoneware", "white stoneware", "crank")


def keep_materials(book: Book, size: Size, first: datetime) -> list[Material]:
    """Add materials, each with a sheet of its own; clay bodies come last."""
    clays = max(2, size.materials // 10)
    others = size.materials - clays
    colourants = min(len(COLOURANTS), others // 3)
    chosen = [(name, row, "glaze material") for name, row in GLAZE_MATERIALS[: others - colourants]]
    chosen += [(name, row, "colourant") for name, row in COLOURANTS[:colourants]]
    chosen += [(name, "", "clay body") for name in CLAYS[:clays]]
    made = []
    for number, (name, row, kind) in enumerate(chosen):
        material = book.entry(
            Material,
            f"material-{number:03d}",
            first,
            name=name,
            kind=kind,
            library_id=row,
            shrinkage_percent=12.0 if kind == "clay body" else None,
        )
        made.append(material)
        if row:
            _keep_sheet(book, material, first)
    return made


def _keep_sheet(book: Book, material: Material, first: datetime) -> None:
    known = library_row(material.library_id)
    facts = {"material": material, "standing": "supplier's sheet", "source": "made up"}
    wrong = None
    if material.pk.endswith("0"):
        wrong = book.entry(Sheet, f"{material.pk}-first", first, loss_percent=99.0, **facts)
    sheet = book.entry(
        Sheet,
        f"{material.pk}-sheet",
        first,
        loss_percent=known.loi_percent or 0.0,
        density_g_cm3=known.density_g_cm3,
        corrects=wrong,
        **facts,
    )
    book.parts(
        SheetOxide,
        "sheet",
        sheet,
        [
            {"oxide": oxide, "percent": percent}
            for oxide, percent in known.oxides.items()
            if percent > 0
        ],
    )


def keep_lots(
    book: Book, size: Size, materials: list[Material], first: datetime, until: datetime
) -> dict[str, list[Lot]]:
    """Add bags over the years, each counted now and then; gives them by material, oldest first."""
    found: dict[str, list[Lot]] = {material.pk: [] for material in materials}
    rounds = -(-size.lots // len(materials))
    span = (until - first) / rounds
    for number in range(size.lots):
        material = materials[number % len(materials)]
        opened = number // len(materials)
        at = first + span * opened + timedelta(hours=number % len(materials))
        lot = book.entry(
            Lot,
            f"lot-{number:04d}",
            at,
            material=material,
            label=chr(ord("A") + opened),
            container="bag",
            supplier=book.chance.choice(("the merchant", "the other merchant")),
            jar_kept=book.happens(0.3),
        )
        found[material.pk].append(lot)
        for month in range(1, 5):
            book.entry(
                Count,
                f"{lot.pk}-count-{month}",
                at + span * month / 5,
                lot=lot,
                left_g=float(round(25_000 * (1 - month / 5))),
            )
    return found


def lot_at(lots: list[Lot], when: datetime) -> Lot | None:
    """Give the bag that was open at a time."""
    open_then = [lot for lot in lots if lot.at <= when]
    return open_then[-1] if open_then else None
