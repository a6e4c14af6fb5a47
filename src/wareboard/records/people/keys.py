"""One-time keys that open the studio from this machine, without a password."""

import hashlib
import secrets
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from .models import Member, SignInKey

KEY_LIFE = timedelta(minutes=10)


def make_key(member: Member) -> str:
    """Make a key for a member; only its hash is kept, and old keys go.

    Returns
    -------
    str
        The key, which stands nowhere else.
    """
    key = secrets.token_urlsafe(32)
    with transaction.atomic():
        SignInKey.objects.filter(made_at__lt=timezone.now() - KEY_LIFE).delete()
        SignInKey.objects.create(key_hash=key_hash(key), member=member)
    return key


def use_key(key: str) -> Member | None:
    """Use a key up; nothing for one that is unknown, used or too old."""
    now = timezone.now()
    used = SignInKey.objects.filter(
        key_hash=key_hash(key), used_at__isnull=True, made_at__gt=now - KEY_LIFE, made_at__lte=now
    ).update(used_at=now)
    if not used:
        return None
    member: Member = (
        SignInKey.objects.select_related("member__person").get(key_hash=key_hash(key)).member
    )
    return member if member.person is not None and member.person.is_active else None


def key_hash(key: str) -> str:
    """Give what is kept of a key."""
    return hashlib.sha256(key.encode()).hexdigest()
