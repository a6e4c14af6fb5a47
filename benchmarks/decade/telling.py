"""Ten years told firing by firing, then what waits on the last day."""

from datetime import datetime, timedelta
from pathlib import Path

from wareboard.records.people.models import Member
from wareboard.records.ware.models import Pot

from .book import Book
from .glazes import Filled, GlazeRoom
from .kiln import LEVELS, KilnRoom
from .pictures import keep_photo
from .size import Size
from .stores import keep_lots, keep_materials
from .ware import BOARDS, WareRoom

YEARS_DAYS = 3_652
SEED = 2026
PHOTOS = 20
A_BOARD = 6
THROWN, DRY, GLAZED, PLACED = (timedelta(days=d) for d in (12, 5, 3, 1))
OUT = timedelta(hours=36)


def tell(member: Member, size: Size, until: datetime, *, originals: Path) -> Book:
    """Put a record together.

    Parameters
    ----------
    member : Member
        Who kept it.
    size : Size
        How large it is.
    until : datetime
        Its last day: a load waits on it to be lit.
    originals : Path
        Folder for the photos.

    Returns
    -------
    Book
        All its rows, not kept yet.
    """
    book = Book(member, seed=SEED)
    first = until - timedelta(days=YEARS_DAYS)
    materials = keep_materials(book, size, first)
    lots = keep_lots(book, size, materials, first, until)
    glazes = GlazeRoom(book, size, materials, lots, first, until)
    clays = [material for material in materials if material.kind == "clay body"]
    ware = WareRoom(book, size, clays, first)
    kiln = KilnRoom(book, first, lines=size.log_lines)
    ware.air(first, until)
    for number in range(1, size.firings + 1):
        _one_firing(book, size, ware, kiln, glazes, number, until, originals)
    waiting = [ware.throw(until - THROWN) for _ in range(size.waiting)]
    _glaze_load(ware, waiting, glazes.palette(), until - timedelta(hours=2))
    kiln.load(size.firings + 1, until - timedelta(hours=20), waiting)
    for number in range(1, 2 * BOARDS + 1):
        ware.weigh_board(size.firings + number, until - timedelta(hours=12, minutes=-number))
    for number in range(size.on_boards):
        pot = ware.throw(until - timedelta(days=6, minutes=-number))
        ware.dry(pot, until - timedelta(days=2))
        ware.put_on_board(pot, until - timedelta(days=1), off=None)
    return book


def _one_firing(
    book: Book,
    size: Size,
    ware: WareRoom,
    kiln: KilnRoom,
    glazes: GlazeRoom,
    number: int,
    until: datetime,
    originals: Path,
) -> None:
    """Tell one load from the wheel to the shelf."""
    fired = size.pots - size.waiting - size.on_boards
    pots_now = fired * number // size.firings - fired * (number - 1) // size.firings
    apart = timedelta(days=YEARS_DAYS - 20) / size.firings
    lit = until - timedelta(days=4) - apart * (size.firings - number)
    pots = [ware.throw(lit - THROWN + timedelta(minutes=3 * place)) for place in range(pots_now)]
    _glaze_load(ware, pots, glazes.palette(), lit)
    load = kiln.load(number, lit - PLACED, pots)
    firing = kiln.fire(number, load, lit)
    if number % max(1, size.firings // 10) == 1:
        kiln.call_good(firing, lit + OUT)
    for pot in pots:
        ware.judge(pot, lit + OUT, glazes)
    ware.weigh_board(number, lit - GLAZED)
    if number > size.firings - PHOTOS:
        photo = keep_photo(book, originals, number, lit + OUT)
        if pots and number % 2:
            ware.show(pots[-1], photo)
        else:
            kiln.show(firing, LEVELS[number % len(LEVELS)], photo)


def _glaze_load(ware: WareRoom, pots: list[Pot], palette: list[Filled], lit: datetime) -> None:
    """Dry, glaze and weigh the pots of a load, a board at a time.

    Of every board one pot is weighed for the others of its form.
    """
    board: dict[str, Pot] = {}
    for place, pot in enumerate(pots):
        minutes = timedelta(minutes=2 * place)
        if place % A_BOARD == 0:
            board = {}
        model = board.setdefault(str(pot.form_id), pot)
        dry_g = ware.dry(pot, lit - DRY + minutes)
        like = model if model is not pot else None
        glazed_g = ware.glaze(pot, dry_g, lit - GLAZED + minutes, palette, like)
        ware.put_on_board(pot, lit - GLAZED + minutes, off=lit - PLACED)
        if ware.book.happens(0.7):
            wet_g = ware.book.chance.choice((2.0, 4.0, 6.0, 60.0 if place % 20 == 0 else 3.0))
            ware.weigh(pot, "glazed", lit - timedelta(hours=1), glazed_g + wet_g, "glazed")
