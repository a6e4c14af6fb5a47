"""What is in a bucket, as far as grams to add rest on it."""

from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.core.answer import Answer, Interval
from wareboard.core.coat.weighed import SOLID_G_CM3_WHERE_NOT_KNOWN
from wareboard.core.errors import DensityError
from wareboard.core.slop import Dose, dose
from wareboard.core.slop.bucket import LITRES_DOUBT
from wareboard.records.people.models import Member

from . import queries
from .bridge import density_of
from .level import ML_L, Level, level_of
from .models import Batch, Bucket, BucketEvent, BucketEventKind, Reading
from .solids import solids_of

SOLID_HALF_WHERE_NOT_KNOWN = 0.3
"""Half width of the density of a powder that nobody weighed out (general) [g/cm³]."""


@dataclass(frozen=True)
class InBucket:
    """What is in a bucket.

    Attributes
    ----------
    batch : Batch or None
        The one poured in last.
    level : Level
        Reading in force, what was done since, litres.
    readings, events : sequence
        The newest of the bucket, newest first.
    sg, sg_half : float or None
        Density of the slop and half of its 90 % interval; None before a reading.
    solid, solid_half : float
        Density of the powder and half of its 90 % interval [g/cm³].
    solid_known : bool
        Whether it comes from what was weighed into the batch.
    weighed_out_g : float or None
        Powder of the one batch in it and what was stirred in, as weighed [g]; None where
        more than one was poured, or where not all of it was weighed.
    """

    batch: Batch | None
    level: Level
    readings: Sequence[Reading]
    events: Sequence[BucketEvent]
    sg: float | None
    sg_half: float
    solid: float
    solid_half: float
    solid_known: bool
    weighed_out_g: float | None = None

    def more_than_weighed_out(self, dry_g: Interval) -> float | None:
        """Give what was weighed out [g] where more dry glaze than that is reckoned; else None."""
        if self.weighed_out_g is None or dry_g.low <= self.weighed_out_g:
            return None
        return self.weighed_out_g

    def weight_g(self, *, wet_g: float | None = None, litres: float | None = None) -> float | None:
        """Weigh so much of the slop, by its density where it was not weighed [g].

        Parameters
        ----------
        wet_g, litres : float or None
            As it was told [g, l]; all of it where neither is.

        Returns
        -------
        float or None
            None where it cannot be told.
        """
        if wet_g is not None:
            return wet_g
        volume_l = self.level.litres if litres is None else litres
        if not volume_l or self.sg is None:
            return None
        return volume_l * ML_L * self.sg

    def dose(
        self,
        percent: float,
        *,
        wet_g: float | None = None,
        litres: float | None = None,
        of: str = "base",
    ) -> Answer[Dose]:
        """Work out the grams that give so many per cent.

        Parameters
        ----------
        percent : float
            How much is wanted [%].
        wet_g : float or None
            Slop that was weighed [g].
        litres : float or None
            Slop by a mark, good to a twentieth [l]; the whole bucket where
            neither is told.
        of : str
            Per cent of the dry base, or of the finished glaze.

        Raises
        ------
        CoreError
            If the bucket was not weighed, or a number cannot be.
        """
        if self.sg is None:
            raise DensityError(
                "Weigh the full bottle of this bucket first: the grams rest on its density.",
                field="sg",
                seen="no reading",
                accepted="a reading since it was filled",
            )
        if self.level.since:
            raise DensityError(
                "Something went into this bucket since its last reading: weigh the full bottle "
                "again first.",
                field="sg",
                seen=self.level.since[-1].kind,
                accepted="a reading after it",
            )
        weight_g = self.weight_g(wet_g=wet_g, litres=litres)
        if weight_g is None:
            raise DensityError(
                "Nobody said how much is in this bucket: write its litres here.",
                field="wet-g",
                seen="no litres",
                accepted="litres, or a weight",
            )
        return dose(
            weight_g,
            self.sg,
            self.solid,
            percent,
            of="finished" if of == "finished" else "base",
            sg_doubt=self.sg_half,
            wet_doubt_g=LITRES_DOUBT * weight_g if wet_g is None else 0.0,
            solid_doubt=self.solid_half,
        )


def in_bucket(member: Member, bucket: Bucket) -> InBucket:
    """Read what is in a bucket; four queries."""
    step = member.studio.scale_step_g
    readings = queries.readings_of(bucket)
    events = queries.events_of(bucket, last=queries.EVENTS_READ)
    level = level_of(readings, events, scale_step_g=step)
    batch = queries.batch_with_base(member, bucket.last_batch_id)
    answer = solids_of([batch])[batch.pk] if batch is not None else None
    density = density_of(level.reading, scale_step_g=step) if level.reading else None
    solid, half = SOLID_G_CM3_WHERE_NOT_KNOWN, SOLID_HALF_WHERE_NOT_KNOWN
    if answer is not None:
        solid = answer.result.solid_density_g_cm3
        spread = answer.doubt["solid_density_g_cm3"]
        half = (spread.high - spread.low) / 2
    sg_spread = density.doubt["sg"] if density else None
    return InBucket(
        batch=batch,
        level=level,
        readings=readings,
        events=events,
        sg=density.result.sg if density else None,
        sg_half=(sg_spread.high - sg_spread.low) / 2 if sg_spread else 0.0,
        solid=solid,
        solid_half=half,
        solid_known=answer is not None,
        weighed_out_g=_weighed_out_g(batch, events),
    )


def _weighed_out_g(batch: Batch | None, events: Sequence[BucketEvent]) -> float | None:
    """Add up what was weighed for a bucket since it was filled, the newest event first [g]."""
    if batch is None or batch.weighed_g is None or batch.drawn_from_id is not None:
        return None
    total_g = batch.weighed_g
    for event in events:
        if event.kind == BucketEventKind.FILLED:
            return total_g if event.batch_id == batch.pk else None
        if event.kind == BucketEventKind.POWDER_IN and event.amount_g is not None:
            total_g += event.amount_g
        elif event.kind in {BucketEventKind.TOPPED_UP, BucketEventKind.POWDER_IN}:
            return None
    return None
