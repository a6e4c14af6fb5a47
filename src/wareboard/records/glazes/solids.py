"""The density of the powder of some batches, from what was weighed into them."""

from collections.abc import Sequence

from wareboard.core.answer import Answer
from wareboard.core.chemistry import Analysis
from wareboard.core.recipe import SolidDensity
from wareboard.records.stores.bridge import density_alone, newest_density

from .bridge import solid_answer_of
from .models import Batch, BatchLine


def solids_of(batches: Sequence[Batch]) -> dict[str, Answer[SolidDensity] | None]:
    """Work out the density of the powder of some batches; one query.

    Parameters
    ----------
    batches : sequence of Batch
        With the bases they were drawn from at hand.

    Returns
    -------
    dict
        By batch; None where nothing was weighed into it.
    """
    ids = {batch.pk for batch in batches} | {b.drawn_from_id for b in batches if b.drawn_from_id}
    rows = (
        BatchLine.objects.current()
        .filter(batch__in=ids)
        .select_related("material")
        .annotate(density_g_cm3=newest_density("material"))
    )
    lines: dict[str, list[BatchLine]] = {}
    densities: dict[str, Analysis] = {}
    for line in rows.order_by("batch", "position"):
        lines.setdefault(line.batch_id, []).append(line)
        densities[line.material_id] = density_alone(line.material, line.density_g_cm3)
    return {batch.pk: solid_answer_of(batch, lines, densities) for batch in batches}
