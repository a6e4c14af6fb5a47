"""The demo's rows, as the script tells them, before any file is written."""

import sys
from collections import defaultdict
from functools import cached_property
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
FOLDER = ROOT / "src" / "wareboard" / "demo"
TOOLS = ROOT / "tools"


class Told:
    """The rows of the demo, found by what they belong to."""

    def __init__(self, rows):
        self.rows = rows

    def __getitem__(self, table):
        return self.rows[table]

    def by_id(self, table):
        return {row["id"]: row for row in self.rows[table]}

    def of(self, table, **facts):
        return [
            row for row in self.rows[table] if all(row[key] == fact for key, fact in facts.items())
        ]

    @cached_property
    def faults_by_surface(self):
        """Fault words by pot and surface; a judged surface without a fault has none."""
        words = defaultdict(set)
        for fault in self.rows["faults"]:
            words[fault["verdict"]].add(fault["word"])
        return {
            (verdict["pot"], verdict["surface"]): words[verdict["id"]]
            for verdict in self.rows["verdicts"]
        }

    def batch_of(self, coat):
        """The batch that was in a coat's bucket when it was dipped."""
        fillings = [
            event
            for event in self.of("bucket_events", bucket=coat["bucket"], kind="filled")
            if event["at"] <= coat["at"]
        ]
        return max(fillings, key=lambda event: event["at"])["batch"]

    def lots_of(self, batch_id):
        """Lot of each material in a batch, the base it was drawn from included."""
        base = self.by_id("batches")[batch_id]["drawn_from"]
        lots = self.lots_of(base) if base else {}
        own = {line["material"]: line["lot"] for line in self.of("batch_lines", batch=batch_id)}
        return lots | own

    def pieces(self, glaze):
        """Judged surfaces of fired pots that carry a glaze: (pot, side, batch)."""
        buckets = {row["id"] for row in self.of("buckets", glaze=glaze)}
        return [
            (coat["pot"], coat["side"], self.batch_of(coat))
            for coat in self.rows["coats"]
            if coat["bucket"] in buckets and (coat["pot"], coat["side"]) in self.faults_by_surface
        ]

    def level_of(self, pot):
        (placing,) = self.of("placings", pot=pot)
        return placing["load"], placing["place"]


@pytest.fixture(scope="session")
def told():
    sys.path.insert(0, str(TOOLS))
    try:
        from demo.telling import tell  # noqa: PLC0415 - the tools are not installed
    finally:
        sys.path.remove(str(TOOLS))
    ledger, _album = tell({})
    return Told(ledger.rows)
