"""What the ware room holds, as a member may see it."""

from collections.abc import Sequence

from django.db.models import F, QuerySet

from wareboard.records.glazes.models import Bucket, Glaze
from wareboard.records.people.models import Member

from .models import Board, Coat, Form, Pot


def pots_for(member: Member) -> QuerySet[Pot]:
    """Give pots, newest first."""
    return Pot.objects.seen_by(member).select_related("form", "clay").order_by("-at")


def forms_for(member: Member) -> QuerySet[Form]:
    """Give forms by name."""
    return Form.objects.seen_by(member).order_by("name")


def boards_for(member: Member) -> QuerySet[Board]:
    """Give boards by name."""
    return Board.objects.seen_by(member).order_by("name")


def weighed_dips(member: Member, glaze: Glaze, *, last: int = 20) -> Sequence[Coat]:
    """Give the newest coats of a glaze that were weighed before and after."""
    return list(
        Coat.objects.current()
        .filter(
            studio=member.studio_id,
            bucket__glaze=glaze,
            before_g__isnull=False,
            after_g__gt=F("before_g"),
        )
        .select_related("pot__form", "bucket")
        .order_by("-at")[:last]
    )


def pots_dipped_in(bucket: Bucket) -> int:
    """Count the coats that came from a bucket."""
    return Coat.objects.current().filter(bucket=bucket).count()
