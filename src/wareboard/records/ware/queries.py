"""What the ware room holds, as a member may see it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import (
    BooleanField,
    CharField,
    Count,
    Exists,
    F,
    FloatField,
    Max,
    OuterRef,
    Q,
    QuerySet,
    Subquery,
    Value,
)
from django.db.models.functions import Coalesce

from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind, Glaze
from wareboard.records.glazes.queries import buckets_for
from wareboard.records.people.models import Member
from wareboard.records.stores.models import Lot, Material, MaterialKind

from .models import (
    Board,
    BoardWeighing,
    Coat,
    Decoration,
    Form,
    Hope,
    Mark,
    Pot,
    PotPhoto,
    Standing,
    Weighing,
)
from .words import ON_A_PAN, Side

MOST_ON_BOARDS = 120
FREE_SHOWN = 30


def pots_for(member: Member) -> QuerySet[Pot]:
    """Give pots, newest first."""
    return Pot.objects.seen_by(member).select_related("form", "clay").order_by("-at", "-pk")


def forms_for(member: Member) -> QuerySet[Form]:
    """Give forms by name."""
    return Form.objects.seen_by(member).order_by("name", "-at")


def forms_in_use(member: Member) -> QuerySet[Form]:
    """Give forms with how many pots they have, the one last made first."""
    standing = Q(pots__undone_at__isnull=True)
    forms: QuerySet[Form] = (
        Form.objects.seen_by(member)
        .annotate(last_made=Max("pots__at", filter=standing))
        .annotate(made=Count("pots", filter=standing))
        .order_by(F("last_made").desc(nulls_last=True), "name", "pk")
    )
    return forms


def boards_for(member: Member) -> QuerySet[Board]:
    """Give boards by name."""
    return Board.objects.seen_by(member).order_by("name", "pk")


def clays_for(member: Member) -> QuerySet[Material]:
    """Give clay bodies by name."""
    return Material.objects.seen_by(member).filter(kind=MaterialKind.CLAY).order_by("name")


def lots_for(member: Member) -> QuerySet[Lot]:
    """Give the lots one may decorate with: clay bodies left out, newest of each first."""
    return (
        Lot.objects.seen_by(member)
        .exclude(material__kind=MaterialKind.CLAY)
        .select_related("material")
        .order_by("material__name", "-at")
    )


def _moved_since() -> Exists:
    later = Q(at__gt=OuterRef("at")) | Q(at=OuterRef("at"), kept_at__gt=OuterRef("kept_at"))
    return Exists(Standing.objects.standing().filter(later, pot=OuterRef("pot")))


def standings_now(member: Member) -> QuerySet[Standing]:
    """Give which pot stands on which board now, in the order they were put there."""
    return (
        Standing.objects.seen_by(member)
        .filter(board__isnull=False, board__undone_at__isnull=True, pot__undone_at__isnull=True)
        .filter(~_moved_since())
        .select_related("pot__form", "pot__clay")
        .order_by("at", "kept_at", "pk")
    )


def pots_on(member: Member, board: Board) -> list[Pot]:
    """Give the pots that stand on a board."""
    return [one.pot for one in standings_now(member).filter(board=board)[:MOST_ON_BOARDS]]


def pots_by_board(member: Member) -> Mapping[str, list[Pot]]:
    """Give the pots that stand on each board; one query."""
    found: dict[str, list[Pot]] = {}
    for one in standings_now(member)[:MOST_ON_BOARDS]:
        found.setdefault(str(one.board_id), []).append(one.pot)
    return found


def board_of(member: Member, pot: Pot) -> Board | None:
    """Give the board a pot stands on, if it stands on one."""
    now = standings_now(member).filter(pot=pot).select_related("board").first()
    return now.board if now else None


def beside(member: Member, pot: Pot) -> list[Pot]:
    """Give all that stands on the board of a pot, itself too; one query."""
    board = standings_now(member).filter(pot=pot).order_by().values("board")
    return [one.pot for one in standings_now(member).filter(board__in=board)[:MOST_ON_BOARDS]]


def beside_without(member: Member, coat: Coat) -> list[Pot]:
    """Give the pots on the same board with fewer coats where this one lies; one query.

    A second layer is offered to those that have the first.
    """
    sides = {coat.side, Side.BOTH} if coat.side != Side.BOTH else set(Side.values)
    there = Coat.objects.current().filter(side__in=sides, extent=coat.extent).order_by()
    layers = there.values("pot").annotate(n=Count("pk")).values("n")
    board = standings_now(member).filter(pot=coat.pot).order_by().values("board")
    rows = (
        standings_now(member)
        .filter(board__in=board)
        .exclude(pot=coat.pot)
        .annotate(have=Coalesce(Subquery(layers.filter(pot=OuterRef("pot"))), 0))
        .filter(have__lt=Subquery(layers.filter(pot=coat.pot, at__lte=coat.at)))
    )
    return [one.pot for one in rows[:MOST_ON_BOARDS]]


def free_pots(member: Member, pots: QuerySet[Pot]) -> list[Pot]:
    """Give the newest of some pots that stand on no board."""
    on_a_board = standings_now(member).order_by().values("pot")
    return list(pots.exclude(pk__in=on_a_board)[:FREE_SHOWN])


def pot_ids_on(board: Board, when: datetime) -> set[str]:
    """Give which pots stood on a board at an instant."""
    later = Q(at__gt=OuterRef("at")) | Q(at=OuterRef("at"), kept_at__gt=OuterRef("kept_at"))
    moved = Standing.objects.standing().filter(later, pot=OuterRef("pot"), at__lte=when)
    there = Standing.objects.standing().filter(board=board, at__lte=when)
    there = there.filter(~Exists(moved), pot__undone_at__isnull=True)
    return set(there.values_list("pot_id", flat=True))


def last_moves(board: Board) -> list[Standing]:
    """Give what the last tap moved of the pots that stand or stood on a board: on it, or off."""
    ever = Standing.objects.standing().filter(board=board).values("pot")
    moves = list(
        Standing.objects.standing()
        .filter(pot__in=ever)
        .order_by("-kept_at", "-pk")[:MOST_ON_BOARDS]
    )
    last = moves[:1]
    if last and last[0].together:
        return [move for move in moves if move.together == last[0].together]
    return last


def board_weighings_of(board: Board, *, last: int = 8) -> Sequence[BoardWeighing]:
    """Give a board's current weighings, newest first."""
    rows = BoardWeighing.objects.current().filter(board=board)
    return list(rows.order_by("-at", "-kept_at")[:last])


def weighings_for(member: Member) -> QuerySet[Weighing]:
    """Give current weighings of single pots, newest first."""
    return (
        Weighing.objects.current()
        .filter(studio=member.studio_id)
        .exclude(state__in=ON_A_PAN)
        .select_related("pot__form", "pot__clay")
        .order_by("-at", "-kept_at")
    )


def weighings_of(pot: Pot, *, last: int = 12) -> Sequence[Weighing]:
    """Give what a pot itself weighed, the current ones, newest first."""
    rows = Weighing.objects.current().filter(pot=pot).exclude(state__in=ON_A_PAN)
    return list(rows.order_by("-at", "-kept_at")[:last])


def coats_for(member: Member) -> QuerySet[Coat]:
    """Give current coats with all that working them out needs, newest first."""
    return (
        Coat.objects.current()
        .filter(studio=member.studio_id)
        .select_related("bucket__glaze", "glaze", "pot__form", "pot__clay", "like")
        .order_by("-at", "-kept_at")
    )


def buckets_at_hand(member: Member, *, when: datetime | None = None) -> list[Bucket]:
    """Give the buckets with something in them, the one last dipped in first.

    Parameters
    ----------
    member : Member
        Who asks.
    when : datetime, optional
        At which moment; now where it is left out.
    """
    events = BucketEvent.objects.current().filter(
        bucket=OuterRef("pk"), kind__in=[BucketEventKind.FILLED, BucketEventKind.EMPTIED]
    )
    buckets = buckets_for(member)
    if when is not None:
        events, buckets = events.filter(at__lte=when), buckets.filter(at__lte=when)
    dips = Coat.objects.current().filter(bucket=OuterRef("pk")).order_by("-at")
    buckets = buckets.annotate(
        last_change=Subquery(events.order_by("-at", "-kept_at").values("kind")[:1]),
        last_dip=Subquery(dips.values("at")[:1]),
    )
    there = buckets.filter(Q(last_change=None) | Q(last_change=BucketEventKind.FILLED))
    return list(there.order_by(F("last_dip").desc(nulls_last=True), "name", "pk"))


def buckets_for_coat(member: Member, coat: Coat) -> tuple[list[Bucket], list[Bucket]]:
    """Give the buckets a coat may have come from: the likely ones, and the others.

    Likely are the one that is written, first, and those of the same glaze with
    something in them then.
    """
    then = buckets_at_hand(member, when=coat.at)
    written = [coat.bucket] if coat.bucket is not None else []
    glaze_id = coat.bucket.glaze_id if coat.bucket is not None else coat.glaze_id
    likely = dict.fromkeys(written + [one for one in then if one.glaze_id == glaze_id])
    others = dict.fromkeys(then + buckets_at_hand(member))
    return list(likely), [one for one in others if one not in likely]


def likened_to(coat: Coat) -> Sequence[Coat]:
    """Give the coats that take this one's weighings for their own."""
    rows = Coat.objects.current().filter(like=coat).select_related("pot")
    return list(rows.order_by("at", "pk"))


def same_dip(coat: Coat) -> Sequence[Coat]:
    """Give the coats of other pots that went on with this one."""
    rows = Coat.objects.current().filter(
        studio=coat.studio_id,
        at=coat.at,
        bucket=coat.bucket,
        glaze=coat.glaze,
        side=coat.side,
        extent=coat.extent,
    )
    return list(rows.exclude(pk=coat.pk).order_by("kept_at", "pk"))


def how_many_like(coat_ids: Iterable[str]) -> Mapping[str, int]:
    """Count for some coats how many take their weighings for their own; one query."""
    rows = Coat.objects.current().filter(like__in=set(coat_ids)).values("like").order_by()
    return dict(rows.annotate(n=Count("pk")).values_list("like", "n"))


@dataclass(frozen=True)
class Doing:
    """One of the smaller things done to a pot.

    A board's name stands in ``more`` where a pot was put on one.

    Attributes
    ----------
    kind : str
        Short name of its model: weighing, decoration, mark, hope, potphoto, standing.
    id, at, kept_at, together
        Which, when it happened, when and with which tap it was entered.
    remembered : str
        How it is remembered; empty for a fact.
    word : str
        The word that was tapped, or the line that was typed.
    more : str
        Where on the pot, with what, or what is hoped.
    file : str
        The original of a photo or a spoken note; empty where there is none.
    weight_g : float or None
        For a weighing [g].
    flag : bool or None
        For a decoration whether it was found, for a mark whether it was meant.
    """

    kind: str
    id: str
    at: datetime
    kept_at: datetime
    together: str
    remembered: str
    word: str
    more: str
    file: str
    weight_g: float | None
    flag: bool | None


EMPTY = Value("", output_field=CharField())


def doings_of(pots: Iterable[Pot], *, last: int = 60) -> list[Doing]:
    """Give what was done to some pots besides their coats, newest first; one query."""
    pot_ids = [pot.pk for pot in pots]

    def lines(model: Any, kind: str, word: Any, more: Any, **other: Any) -> Any:
        manager = model.objects.current() if model is Weighing else model.objects.standing()
        return manager.filter(pot__in=pot_ids).values_list(
            Value(kind, output_field=CharField()),
            "id",
            "at",
            "kept_at",
            "together",
            "remembered",
            word,
            more,
            other.get("file", EMPTY),
            other.get("weight", Value(None, output_field=FloatField())),
            other.get("flag", Value(None, output_field=BooleanField())),
        )

    rows = lines(Weighing, "weighing", F("state"), EMPTY, weight=F("weight_g")).union(
        lines(Decoration, "decoration", F("kind"), F("what"), flag=F("found")),
        lines(Mark, "mark", F("kind"), F("where"), flag=F("meant")),
        lines(Hope, "hope", F("kind"), F("words"), file=Coalesce("spoken_id", EMPTY)),
        lines(PotPhoto, "potphoto", EMPTY, EMPTY, file=F("original_id")),
        lines(Standing, "standing", EMPTY, Coalesce("board__name", EMPTY)),
        all=True,
    )
    return [Doing(*row) for row in rows.order_by("-at", "-kept_at", "-id")[:last]]


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
