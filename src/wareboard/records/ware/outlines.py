"""The outline of a form that was kept by its name alone, typed later."""

from collections.abc import Sequence

from django.db import transaction
from django.utils.translation import gettext as _

from wareboard.records.people.entry import EntryRefused, check, id_under

from .models import Form, FormPoint


@transaction.atomic
def draw_form(
    form: Form, *, outline: Sequence[tuple[float, float]], wall_mm: float | None = None
) -> Form:
    """Keep the outline of a form that has none, foot to rim; nothing is overwritten.

    Raises
    ------
    EntryRefused
        If it has another one already.
    """
    kept = list(form.points.order_by("position").values_list("r_cm", "z_cm"))
    if kept and kept != list(outline):
        raise EntryRefused(_("This form is drawn already. Type another shape as a new form."))
    if kept:
        return form
    for number, (r_cm, z_cm) in enumerate(outline, start=1):
        key = id_under(form.pk, f"{number:03d}")
        point = FormPoint(id=key, form=form, position=number, r_cm=r_cm, z_cm=z_cm)
        check(point)
        point.save(force_insert=True)
    if wall_mm is not None:
        form.wall_mm = wall_mm
        form.save(update_fields=["wall_mm"])
    return form
