"""What may be written on a bucket or a tub, so that nobody has to think of it."""

from collections.abc import Collection

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from wareboard.records.people.models import Member

from . import queries

NEXT_BUCKETS = (
    gettext_lazy("%s, second bucket"),
    gettext_lazy("%s, third bucket"),
    gettext_lazy("%s, fourth bucket"),
    gettext_lazy("%s, fifth bucket"),
)
NEXT_TUBS = (
    gettext_lazy("%s, tub"),
    gettext_lazy("%s, second tub"),
    gettext_lazy("%s, third tub"),
    gettext_lazy("%s, fourth tub"),
    gettext_lazy("%s, fifth tub"),
)


def name_for_bucket(member: Member, glaze_name: str) -> str:
    """Name a new bucket by its glaze: Limpet, then Limpet, second bucket."""
    taken = queries.bucket_names(member)
    names = [glaze_name, *(str(name) % glaze_name for name in NEXT_BUCKETS)]
    return _free(names, taken) or _numbered(_("%(name)s, bucket %(n)d"), glaze_name, taken)


def name_for_tub(member: Member, bucket_name: str) -> str:
    """Name a tub by the bucket that was drawn from: Limpet, tub."""
    taken = queries.bucket_names(member)
    names = [str(name) % bucket_name for name in NEXT_TUBS]
    return _free(names, taken) or _numbered(_("%(name)s, tub %(n)d"), bucket_name, taken)


def _free(names: list[str], taken: Collection[str]) -> str:
    """Give the first name that no bucket has; empty where all are taken."""
    return next((name for name in names if name.casefold() not in taken), "")


def _numbered(say: str, name: str, taken: Collection[str]) -> str:
    """Go on with numbers where words end: one more than there are buckets is always free."""
    first = len(NEXT_TUBS) + 1
    numbered = [say % {"name": name, "n": n} for n in range(first, first + len(taken) + 1)]
    return _free(numbered, taken)
