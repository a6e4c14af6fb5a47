"""Buckets of the demo: what went into them, and what the full bottle weighed."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from demo.glazes import MIXED, solid_density_g_cm3
from demo.ledger import Ledger, when
from wareboard.core.slop import dry_fraction

BOTTLE_EMPTY_G = 212.0
BOTTLE_ML = 365.0
TUB_BOTTLE_EMPTY_G = 38.0
TUB_BOTTLE_ML = 100.0
TUBS = ("limpet-tub-a", "limpet-tub-b", "limpet-tub-c", "rill-tub-a", "rill-tub-b", "rill-tub-c")

# bucket, glaze, what is written on it, first in use
BUCKETS = (
    ("rill-bucket-1", "rill", "Rill, old bucket", "09-02 09:00"),
    ("rill-bucket-2", "rill", "Rill, new bucket", "10-06 09:00"),
    ("rosehip-bucket", "rosehip", "Rosehip", "09-09 13:00"),
    ("samphire-bucket", "samphire", "Samphire", "09-09 13:10"),
    ("limpet-bucket-1", "limpet", "Limpet, old bucket", "08-10 09:00"),
    ("limpet-bucket-2", "limpet", "Limpet, new bucket", "10-04 09:00"),
    ("rowan-bucket", "rowan", "Rowan", "09-01 09:00"),
    ("hedgelay-bucket", "hedgelay", "Hedgelay", "08-12 09:00"),
    ("limpet-tub-a", "limpet", "Limpet tiles, bag A", "11-11 08:30"),
    ("limpet-tub-b", "limpet", "Limpet tiles, bag B", "11-11 08:32"),
    ("limpet-tub-c", "limpet", "Limpet tiles, re-balanced", "11-11 08:34"),
    ("rill-tub-a", "rill", "Rill tiles, bag A", "11-11 08:36"),
    ("rill-tub-b", "rill", "Rill tiles, bag B", "11-11 08:38"),
    ("rill-tub-c", "rill", "Rill tiles, re-balanced", "11-11 08:40"),
)

# bucket, batch that filled it, SG it was made up to
FILLINGS = (
    ("limpet-bucket-1", "limpet-batch-3", 1.50),
    ("hedgelay-bucket", "hedgelay-batch-2", 1.46),
    ("rowan-bucket", "rowan-batch-7", 1.52),
    ("rill-bucket-1", "rill-batch-5", 1.46),
    ("rosehip-bucket", "rosehip-batch-2", 1.47),
    ("samphire-bucket", "samphire-batch-1", 1.48),
    ("limpet-bucket-2", "limpet-batch-4", 1.50),
    ("rill-bucket-2", "rill-batch-6", 1.46),
    ("hedgelay-bucket", "hedgelay-batch-3", 1.46),
    ("limpet-tub-a", "limpet-batch-5", 1.50),
    ("limpet-tub-b", "limpet-batch-6", 1.50),
    ("limpet-tub-c", "limpet-batch-7", 1.50),
    ("rill-tub-a", "rill-batch-7", 1.46),
    ("rill-tub-b", "rill-batch-8", 1.46),
    ("rill-tub-c", "rill-batch-9", 1.46),
)

# bucket, day, what was done, facts
OTHER_EVENTS: tuple[tuple[str, str, str, dict[str, Any]], ...] = (
    ("rill-bucket-1", "09-09 13:50", "drawn", {"amount_g": 8_400.0}),
    ("rill-bucket-1", "09-09 14:50", "drawn", {"amount_g": 5_600.0}),
    ("rill-bucket-1", "09-24 08:25", "water in", {"amount_ml": 200.0}),
    ("hedgelay-bucket", "10-15 16:00", "emptied", {}),
    ("limpet-bucket-1", "10-22 17:00", "emptied", {}),
    ("rowan-bucket", "11-12 08:10", "water in", {"amount_ml": 150.0}),
)

# Every glazing day: bucket, full bottle [g], slop in the bucket [l], how it hangs
READINGS: dict[str, tuple[tuple[str, float, float, str], ...]] = {
    "08-10 12:00": (("limpet-bucket-1", 759.0, 9.8, "as usual"),),
    "09-10 08:00": (
        ("rill-bucket-1", 745.0, 9.1, "as usual"),
        ("limpet-bucket-1", 759.0, 6.0, "as usual"),
        ("samphire-bucket", 752.0, 3.8, "as usual"),
        ("rowan-bucket", 767.0, 8.4, "as usual"),
    ),
    "09-24 08:00": (
        ("rosehip-bucket", 749.0, 5.8, "as usual"),
        ("limpet-bucket-1", 760.0, 4.4, "as usual"),
        ("rowan-bucket", 768.0, 7.1, "as usual"),
        ("hedgelay-bucket", 745.0, 5.0, "as usual"),
    ),
    "10-08 08:00": (
        ("rill-bucket-1", 746.0, 5.2, "as usual"),
        ("rill-bucket-2", 745.0, 13.4, "as usual"),
        ("rosehip-bucket", 749.0, 4.6, "as usual"),
        ("limpet-bucket-2", 760.0, 9.8, "as usual"),
        ("rowan-bucket", 767.0, 5.9, "as usual"),
    ),
    "10-22 08:00": (
        ("rill-bucket-1", 745.0, 3.6, "as usual"),
        ("rill-bucket-2", 744.0, 11.0, "as usual"),
        ("rosehip-bucket", 748.0, 3.5, "as usual"),
        ("samphire-bucket", 752.0, 2.6, "as usual"),
        ("limpet-bucket-1", 759.0, 2.4, "as usual"),
        ("limpet-bucket-2", 760.0, 8.2, "as usual"),
        ("hedgelay-bucket", 745.0, 6.6, "gelled"),
    ),
    "11-12 08:15": (
        ("rill-bucket-2", 745.0, 9.0, "as usual"),
        ("rowan-bucket", 767.0, 4.3, "as usual"),
    ),
    "11-17 08:15": (
        ("limpet-bucket-2", 748.0, 7.0, "runny"),
        ("rosehip-bucket", 750.0, 2.8, "as usual"),
    ),
}
TUB_READINGS = "11-12 08:30"
TUB_FULL_G = {"limpet": 188.0, "rill": 184.0}

MISTYPED = ("rill-bucket-1", "09-24 08:10", 754.0, 745.0, 7.2)
"""A reading with two digits the wrong way round, put right half an hour later."""


@dataclass(frozen=True)
class Slop:
    """What was in a bucket at some time: its SG and the density of its powder."""

    sg: float
    solid_g_cm3: float

    @property
    def dry_fraction(self) -> float:
        """Powder in it, by weight."""
        return dry_fraction(self.sg, self.solid_g_cm3)


def keep_buckets(ledger: Ledger) -> None:
    """Write buckets, what was done to them, and their readings."""
    for bucket, glaze, name, day in BUCKETS:
        empty_g, volume_ml = _bottle_of(bucket)
        ledger.entry(
            "buckets",
            bucket,
            when(day),
            glaze=glaze,
            name=name,
            bottle_empty_g=empty_g,
            bottle_ml=volume_ml,
        )
    for bucket, batch, sg in FILLINGS:
        made = ledger.find("batches", batch)
        solid = solid_density_g_cm3(batch)
        if made["drawn_from"]:
            litres = made["drawn_wet_g"] / made["drawn_sg"] / 1000
        else:
            litres = _dry_g(batch) / dry_fraction(sg, solid) / sg / 1000
        ledger.entry(
            "bucket_events",
            f"{bucket}-filled-{batch.rsplit('-', 1)[1]}",
            made["kept_at"],
            bucket=bucket,
            kind="filled",
            batch=batch,
            amount_ml=float(round(litres * 1000, -1)),
        )
    for number, (bucket, day, kind, facts) in enumerate(OTHER_EVENTS, start=1):
        ledger.entry(
            "bucket_events",
            f"{bucket}-event-{number}",
            when(day),
            bucket=bucket,
            kind=kind,
            **facts,
        )
    _keep_readings(ledger)


def _keep_readings(ledger: Ledger) -> None:
    for day, rows in READINGS.items():
        for bucket, full_g, litres, flow in rows:
            _read(ledger, f"{bucket}-{day[:5]}", when(day), bucket, full_g, litres, flow)
    for bucket in TUBS:
        full_g = TUB_FULL_G[bucket.split("-", 1)[0]]
        _read(ledger, f"{bucket}-11-12", when(TUB_READINGS), bucket, full_g, 0.25, "as usual")
    bucket, day, wrong_g, right_g, litres = MISTYPED
    wrong = _read(ledger, f"{bucket}-09-24", when(day), bucket, wrong_g, litres, "as usual")
    _read(
        ledger,
        f"{bucket}-09-24-again",
        when(day.replace(":10", ":30")),
        bucket,
        right_g,
        litres,
        "as usual",
        corrects=wrong,
    )


def _read(
    ledger: Ledger,
    reading: str,
    at: datetime,
    bucket: str,
    full_g: float,
    litres: float,
    flow: str,
    corrects: str | None = None,
) -> str:
    empty_g, volume_ml = _bottle_of(bucket)
    return ledger.entry(
        "readings",
        reading,
        at,
        bucket=bucket,
        full_g=full_g,
        empty_g=empty_g,
        volume_ml=volume_ml,
        in_bucket_l=litres,
        flow=flow,
        corrects=corrects,
    )


def _bottle_of(bucket: str) -> tuple[float, float]:
    if bucket in TUBS:
        return TUB_BOTTLE_EMPTY_G, TUB_BOTTLE_ML
    return BOTTLE_EMPTY_G, BOTTLE_ML


def _dry_g(batch: str) -> float:
    return next(mixed.dry_g for mixed in MIXED if mixed.batch == batch)


def slop_in(ledger: Ledger, bucket: str, at: datetime) -> Slop:
    """Say what a bucket held at a time, by its last filling and its last reading."""
    fillings = [
        row
        for row in ledger.rows["bucket_events"]
        if row["bucket"] == bucket and row["kind"] == "filled" and row["at"] <= at
    ]
    corrected = {row["corrects"] for row in ledger.rows["readings"]}
    readings = [
        row
        for row in ledger.rows["readings"]
        if row["bucket"] == bucket and row["at"] <= at and row["id"] not in corrected
    ]
    filling = max(fillings, key=lambda row: row["at"])
    reading = max(readings, key=lambda row: row["at"])
    sg = (reading["full_g"] - reading["empty_g"]) / reading["volume_ml"]
    return Slop(sg, solid_density_g_cm3(filling["batch"]))
