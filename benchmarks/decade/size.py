"""How large a made-up record is."""

from dataclasses import dataclass
from typing import Self

MOST_WAITING = 120
MOST_ON_BOARDS = 40


@dataclass(frozen=True)
class Size:
    """How many there are of each thing.

    Attributes
    ----------
    pots, firings, materials, lots, glazes, batches, buckets, forms : int
        How many of each.
    log_lines : int
        Lines of each firing's log.
    """

    pots: int = 20_000
    firings: int = 300
    log_lines: int = 400
    materials: int = 40
    lots: int = 150
    glazes: int = 30
    batches: int = 600
    buckets: int = 60
    forms: int = 18

    @classmethod
    def scaled(cls, scale: float) -> Self:
        """Give a share of ten years.

        What happens again and again grows with the scale, what a studio has
        several of with its root: a tenth of the pots wants a third of the glazes.
        A log is as long as a firing, whatever the scale.

        Parameters
        ----------
        scale : float
            Share of the 20,000 pots.
        """
        whole, root = cls(), scale**0.5
        return cls(
            pots=round(whole.pots * scale),
            firings=max(2, round(whole.firings * scale)),
            materials=max(12, round(whole.materials * root)),
            lots=max(20, round(whole.lots * root)),
            glazes=max(5, round(whole.glazes * root)),
            batches=max(8, round(whole.batches * scale)),
            buckets=max(6, round(whole.buckets * root)),
            forms=max(4, round(whole.forms * root)),
        )

    @property
    def waiting(self) -> int:
        """Pots in the load that waits to be lit."""
        return min(MOST_WAITING, self.pots // 10)

    @property
    def on_boards(self) -> int:
        """Pots that stand on boards, not glazed yet."""
        return min(MOST_ON_BOARDS, self.pots // 20)
