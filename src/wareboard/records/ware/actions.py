"""What a potter does with pots: each is kept whole or not at all."""

from collections.abc import Iterable, Sequence
from typing import Any, TypeVar

from django.db import transaction
from django.utils import timezone

from wareboard.records.people.entry import Entry, keep, new_id, nth
from wareboard.records.people.models import Member
from wareboard.records.pictures.actions import keep_original
from wareboard.records.pictures.models import OriginalKind
from wareboard.records.pictures.storage import Incoming

from .models import (
    Board,
    BoardWeighing,
    Coat,
    Decoration,
    Form,
    FormPoint,
    Hope,
    Mark,
    Pot,
    PotPhoto,
    Standing,
    Weighing,
)

Done = TypeVar("Done", bound=Entry)

STAYS_UNSAID = (
    "pot",
    "at",
    "remembered",
    "bucket",
    "side",
    "extent",
    "how",
    "seconds",
    "before_g",
    "after_g",
    "dried_g",
    "lip_cm",
    "beneath",
)
"""What a coat keeps where it is put right and nothing is said of it."""


@transaction.atomic
def new_pot(
    member: Member,
    *,
    form: Form | None = None,
    test_piece: bool = False,
    photo: Incoming | None = None,
    entry_id: str = "",
    remembered: str = "",
) -> Pot:
    """Keep a new pot, and its photo where one came along: they are taken back together.

    Raises
    ------
    FileRefused
        If the file is no photo; then no pot is made either.
    """
    facts: dict[str, Any] = {"form": form, "test_piece": test_piece, "remembered": remembered}
    if photo is None:
        return keep(Pot, member, entry_id=entry_id, **facts)
    tap = entry_id or new_id()
    original = keep_original(member, photo, entry_id=nth(tap, 2), together=tap)
    pot = keep(Pot, member, entry_id=tap, together=tap, **facts)
    shows: dict[str, Any] = {"pot": pot, "original": original, "remembered": remembered}
    keep(PotPhoto, member, entry_id=nth(tap, 3), together=tap, **shows)
    return pot


@transaction.atomic
def new_pots(
    member: Member,
    *,
    how_many: int,
    form: Form | None = None,
    board: Board | None = None,
    entry_id: str = "",
    remembered: str = "",
) -> list[Pot]:
    """Keep several pots that are alike, on a board where one is given."""
    tap, now = entry_id or new_id(), timezone.now()
    shared: dict[str, Any] = {"together": tap, "at": now, "remembered": remembered}
    numbers = range(1, how_many + 1)
    pots = [keep(Pot, member, entry_id=nth(tap, n), form=form, **shared) for n in numbers]
    if board is not None:
        for number, pot in enumerate(pots, start=how_many + 1):
            keep(Standing, member, entry_id=nth(tap, number), pot=pot, board=board, **shared)
    return pots


def describe_pot(pot: Pot, **facts: Any) -> Pot:
    """Say what a pot is called, its form, its clay, whose it is.

    These are no measurements: what was said last counts.
    """
    for name, value in facts.items():
        setattr(pot, name, value)
    pot.full_clean(validate_unique=False)
    pot.save(update_fields=list(facts))
    return pot


def weigh(member: Member, pot: Pot, *, corrects: Weighing | None = None, **facts: Any) -> Weighing:
    """Keep what the scale said of a pot; or put an earlier weighing right.

    What is put right keeps its time, and how it is remembered where nothing else is said.
    """
    if corrects is not None:
        facts = {"remembered": corrects.remembered, **facts, "at": corrects.at}
    return keep(Weighing, member, pot=pot, corrects=corrects, **facts)


def dip(member: Member, pot: Pot, **facts: Any) -> Coat:
    """Keep one coat of a pot."""
    return keep(Coat, member, pot=pot, **facts)


def alike(one: Pot, other: Pot) -> bool:
    """Say whether one pot may be weighed for another: of one form, or entered as alike."""
    if one.form_id:
        return one.form_id == other.form_id
    return bool(one.together) and one.together == other.together


def _like(
    member: Member,
    coat: Coat,
    pot: Pot,
    *,
    entry_id: str,
    together: str,
    corrects: Coat | None = None,
) -> Coat:
    """Keep on a pot the coat another one got; weighed only if the two are alike."""
    return keep(
        Coat,
        member,
        entry_id=entry_id,
        together=together,
        corrects=corrects,
        at=coat.at,
        pot=pot,
        bucket=coat.bucket,
        glaze=coat.glaze,
        side=coat.side,
        extent=coat.extent,
        how=coat.how,
        seconds=coat.seconds,
        lip_cm=coat.lip_cm,
        beneath=coat.beneath,
        like=coat if coat.after_g is not None and alike(coat.pot, pot) else None,
        remembered=corrects.remembered if corrects is not None else None,
    )


@transaction.atomic
def dip_others(
    member: Member, given: Iterable[tuple[Coat, Sequence[Pot]]], *, entry_id: str = ""
) -> list[Coat]:
    """Keep coats of one pot on others of its board, weighed by it where they are alike.

    Parameters
    ----------
    member : Member
        Who dipped them.
    given : iterable of (Coat, sequence of Pot)
        Its coats in order, each with the pots that lack it.
    entry_id : str
        Of the tap.
    """
    tap = entry_id or new_id()
    every = [(coat, pot) for coat, pots in given for pot in pots]
    return [
        _like(member, coat, pot, entry_id=nth(tap, number), together=tap)
        for number, (coat, pot) in enumerate(every, start=1)
    ]


@transaction.atomic
def dip_all(
    member: Member,
    pots: Sequence[Pot],
    *,
    weighed: Pot | None = None,
    before_g: float | None = None,
    after_g: float | None = None,
    entry_id: str = "",
    **facts: Any,
) -> list[Coat]:
    """Keep one coat on every pot of a board; one of them may have been weighed for the rest.

    Returns
    -------
    list of Coat
        That of the weighed pot first.
    """
    tap = entry_id or new_id()
    first = weighed or pots[0]
    coat = keep(
        Coat,
        member,
        entry_id=nth(tap, 0),
        together=tap,
        pot=first,
        before_g=before_g if weighed else None,
        after_g=after_g if weighed else None,
        **facts,
    )
    others = [pot for pot in pots if pot.pk != first.pk]
    return [coat] + [
        _like(member, coat, pot, entry_id=nth(tap, number), together=tap)
        for number, pot in enumerate(others, start=1)
    ]


@transaction.atomic
def correct_coat(
    member: Member, coat: Coat, likes: Sequence[Coat], *, entry_id: str = "", **facts: Any
) -> Coat:
    """Put a coat right: a second one names the first and keeps its time.

    What is not said anew stays as it was. Coats that were weighed by it follow.
    """
    tap = entry_id or new_id()
    same = {name: getattr(coat, name) for name in STAYS_UNSAID}
    facts = {**same, **facts}
    if facts["bucket"] is None:
        facts["glaze"] = coat.glaze
    if facts["after_g"] is None:
        facts["like"] = coat.like
    right = keep(
        Coat,
        member,
        entry_id=nth(tap, 0),
        together=tap,
        corrects=coat,
        **facts,
    )
    for number, other in enumerate(likes, start=1):
        _like(member, right, other.pot, entry_id=nth(tap, number), together=tap, corrects=other)
    return right


def _each(
    member: Member, model: type[Done], pots: Sequence[Pot], entry_id: str, facts: dict[str, Any]
) -> list[Done]:
    """Keep the same fact of one pot or of several."""
    tap = entry_id or new_id()
    if len(pots) == 1:
        return [keep(model, member, entry_id=tap, pot=pots[0], **facts)]
    return [
        keep(model, member, entry_id=nth(tap, number), together=tap, pot=pot, **facts)
        for number, pot in enumerate(pots, start=1)
    ]


@transaction.atomic
def decorate(
    member: Member, pots: Sequence[Pot], *, entry_id: str = "", **facts: Any
) -> list[Decoration]:
    """Keep what was drawn on, put on or cut into one pot or several."""
    return _each(member, Decoration, pots, entry_id, facts)


@transaction.atomic
def mark(member: Member, pots: Sequence[Pot], *, entry_id: str = "", **facts: Any) -> list[Mark]:
    """Keep what a hand did to the raw coat of one pot or of several."""
    return _each(member, Mark, pots, entry_id, facts)


@transaction.atomic
def hope(
    member: Member,
    pot: Pot,
    *,
    spoken: Incoming | None = None,
    entry_id: str = "",
    **facts: Any,
) -> Hope:
    """Keep what is hoped or feared of a pot, typed or spoken.

    Raises
    ------
    FileRefused
        If the file is no sound recording.
    """
    if spoken is None:
        return keep(Hope, member, entry_id=entry_id, pot=pot, **facts)
    tap = entry_id or new_id()
    original = keep_original(
        member, spoken, entry_id=nth(tap, 2), kind=OriginalKind.SOUND, together=tap
    )
    return keep(Hope, member, entry_id=nth(tap, 1), together=tap, pot=pot, spoken=original, **facts)


@transaction.atomic
def add_photo(
    member: Member, pot: Pot, photo: Incoming, *, entry_id: str = "", **facts: Any
) -> PotPhoto:
    """Keep a photo of a pot.

    Raises
    ------
    FileRefused
        If the file is no photo.
    """
    tap = entry_id or new_id()
    original = keep_original(member, photo, entry_id=nth(tap, 2), together=tap)
    return keep(
        PotPhoto, member, entry_id=nth(tap, 1), together=tap, pot=pot, original=original, **facts
    )


def stand(member: Member, pot: Pot, *, board: Board | None, **facts: Any) -> Standing:
    """Keep that a pot stands on a board from now on; on none, where none is given."""
    return keep(Standing, member, pot=pot, board=board, **facts)


@transaction.atomic
def arrange(
    member: Member,
    board: Board,
    *,
    there: Sequence[Pot],
    wanted: Sequence[Pot],
    entry_id: str = "",
) -> list[Standing]:
    """Put pots on a board and take others off, so that the wanted ones stand on it."""
    tap, now = entry_id or new_id(), timezone.now()
    here, stay = {pot.pk for pot in there}, {pot.pk for pot in wanted}
    moves: list[tuple[Pot, Board | None]] = [(pot, None) for pot in there if pot.pk not in stay]
    moves += [(pot, board) for pot in wanted if pot.pk not in here]
    return [
        keep(
            Standing,
            member,
            entry_id=nth(tap, number),
            together=tap,
            at=now,
            pot=pot,
            board=goes_to,
        )
        for number, (pot, goes_to) in enumerate(moves, start=1)
    ]


def new_board(member: Member, **facts: Any) -> Board:
    """Keep a plank, with its tare where it was weighed."""
    return keep(Board, member, **facts)


def weigh_empty(board: Board, tare_g: float) -> Board:
    """Keep what a plank weighs empty; what was said last counts."""
    board.tare_g = tare_g
    board.save(update_fields=["tare_g"])
    return board


def weigh_board(member: Member, board: Board, **facts: Any) -> BoardWeighing:
    """Keep a board weighed with all that stands on it."""
    return keep(BoardWeighing, member, board=board, **facts)


def new_form(member: Member, *, outline: Sequence[tuple[float, float]] = (), **facts: Any) -> Form:
    """Keep a form with its outline, foot to rim, where one was measured."""
    points = tuple(FormPoint(r_cm=r_cm, z_cm=z_cm) for r_cm, z_cm in outline)
    return keep(Form, member, owner="form", parts=points, **facts)
