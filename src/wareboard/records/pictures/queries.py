"""Originals as a member may see them."""

from django.db import models

from wareboard.records.people.models import Member

from .kinds import has_views
from .models import Original


def originals_for(member: Member) -> models.QuerySet[Original]:
    """Give the studio's photos and spoken notes."""
    return Original.objects.seen_by(member)


def has_view(original: Original) -> bool:
    """Say whether a photo can be shown; of some kinds only the original is kept."""
    return original.kind == "photo" and has_views(original.suffix)
