"""Pots: made, weighed, coated, put on boards, and judged when they come out."""

import csv
from collections import defaultdict
from datetime import datetime, timedelta
from pathlib import Path

import wareboard
from wareboard.core.pot.coated import coated_dm2
from wareboard.records.pictures.models import Original
from wareboard.records.shelf.models import Fault, HopeAnswer, Verdict
from wareboard.records.stores.models import Material
from wareboard.records.ware.models import (
    Air,
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

from .book import Book
from .glazes import Filled, GlazeRoom
from .size import Size

DEMO = Path(wareboard.__file__).parent / "demo"
WIPED_CM = 0.5
LIP_CM = 2.0
SURFACE = {"inside": "inside", "below the lip": "outside", "lip": "outside"}
FAULTS = ("crawl", "pinhole", "run", "craze", "specks", "dull", "blister", "pale")
SPOILT = "cloudy"
BOARDS = 12
PACKING = 0.5
G_DM2_IN_MM = 26.0 * PACKING
AIRS = ("crisp", "ordinary", "ordinary", "sticky", "fog")
WHOSE = ("Ann", "Ben", "Cal", "Dot")


class WareRoom:
    """Forms, boards and pots.

    Parameters
    ----------
    book : Book
        Where the rows go.
    size : Size
        How many forms.
    clays : list of Material
        The clay bodies.
    first : datetime
        First day.
    """

    def __init__(self, book: Book, size: Size, clays: list[Material], first: datetime) -> None:
        self.book, self.clays = book, clays
        self.made = 0
        self.on_pot: dict[str, list[Coat]] = defaultdict(list)
        self.forms: list[Form] = []
        self.dry_g: dict[str, float] = {}
        self.area_dm2: dict[tuple[str, str], float] = {}
        self._forms(size.forms, first)
        self.boards = [
            book.entry(Board, f"board-{n:02d}", first, name=f"board {n}", tare_g=1800.0 + 10 * n)
            for n in range(1, BOARDS + 1)
        ]

    def _forms(self, count: int, first: datetime) -> None:
        """Take the outlines of the demo's forms."""
        outlines: dict[str, list[tuple[float, float]]] = defaultdict(list)
        with (DEMO / "form_points.csv").open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                outlines[row["form"]].append((float(row["r_cm"]), float(row["z_cm"])))
        with (DEMO / "forms.csv").open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))[:count]
        for row in rows:
            wall_mm, outline = float(row["wall_mm"]), outlines[row["id"]]
            form = self.book.entry(
                Form, f"form-{row['id']}", first, name=row["name"], wall_mm=wall_mm
            )
            points = [{"r_cm": r_cm, "z_cm": z_cm} for r_cm, z_cm in outline]
            self.book.parts(FormPoint, "form", form, points)
            self.forms.append(form)
            self.dry_g[form.pk] = 90.0 * wall_mm
            self.area_dm2[form.pk, "inside"] = coated_dm2(outline, wall_mm, side="inside")
            self.area_dm2[form.pk, "below the lip"] = coated_dm2(
                outline, wall_mm, side="outside", extent="below the lip", depth_cm=WIPED_CM
            )
            self.area_dm2[form.pk, "lip"] = coated_dm2(
                outline, wall_mm, side="both", extent="lip", depth_cm=LIP_CM
            )

    def air(self, first: datetime, until: datetime) -> None:
        """Say every day how the air is."""
        for day in range((until - first).days + 1):
            word = self.book.chance.choice(AIRS)
            self.book.entry(Air, f"air-{day:05d}", first + timedelta(days=day, hours=2), word=word)

    def throw(self, at: datetime) -> Pot:
        """Make a pot and weigh it when it is bone dry."""
        self.made += 1
        form = self.book.chance.choice(self.forms)
        return self.book.entry(
            Pot,
            f"pot-{self.made:05d}",
            at,
            name=f"{form.name} {self.made}" if self.made % 10 == 0 else "",
            form=form,
            clay=self.book.chance.choice(self.clays),
            test_piece=self.made % 25 == 0,
            whose=self.book.chance.choice(WHOSE) if self.made % 20 == 0 else "",
            foot_gap_mm=float(self.book.chance.randrange(2, 9)),
        )

    def weigh(self, pot: Pot, occasion: str, at: datetime, weight_g: float, state: str) -> Weighing:
        """Put a pot on the scale."""
        weighing = self.book.entry(
            Weighing,
            f"{pot.pk}-{occasion}",
            at,
            pot=pot,
            weight_g=float(round(weight_g)),
            state=state,
        )
        if self.book.happens(0.005):
            right = self.book.entry(
                Weighing,
                f"{pot.pk}-{occasion}-again",
                at + timedelta(minutes=4),
                pot=pot,
                weight_g=float(round(weight_g)),
                state=state,
            )
            right.corrects = weighing
            weighing.weight_g += 90.0
        return weighing

    def dry(self, pot: Pot, at: datetime) -> float:
        """Weigh a pot leather-hard and bone dry; gives its dry weight [g]."""
        dry_g = self.dry_g[str(pot.form_id)] * self.book.chance.uniform(0.92, 1.08)
        if self.book.happens(0.5):
            leather = at - timedelta(days=4)
            self.weigh(pot, "leather-hard", leather, dry_g * 1.15, "leather-hard")
        self.weigh(pot, "bone-dry", at, dry_g, "bone dry")
        return dry_g

    def glaze(
        self, pot: Pot, dry_g: float, at: datetime, palette: list[Filled], like: Pot | None
    ) -> float:
        """Give a pot two or three coats; gives what it weighs then [g].

        A pot that is like another of its board is not weighed itself.
        """
        weight_g = dry_g * 1.01
        choose = self.book.chance.choice
        coats = [("inside", choose(palette), 0.45), ("below the lip", choose(palette), 0.6)]
        if self.book.happens(0.5):
            coats.append(("lip", choose(palette), 0.3))
        models = self.on_pot[like.pk] if like is not None else []
        for number, (where, filled, mm) in enumerate(coats):
            when = at + timedelta(hours=3 * number)
            coat = self.book.entry(
                Coat,
                f"{pot.pk}-coat-{number + 1}",
                when,
                pot=pot,
                bucket=filled.bucket,
                side={"inside": "inside", "lip": "both"}.get(where, "outside"),
                extent="whole" if where == "inside" else where,
                how="poured" if where == "inside" else "dipped",
                seconds=round(self.book.chance.uniform(1.5, 5.0) * 2) / 2,
                lip_cm={"below the lip": WIPED_CM, "lip": LIP_CM}.get(where),
                beneath="bone dry" if number == 0 else "just turning pale",
            )
            if number < len(models) and models[number].like_id is None:
                model = models[number]
                coat.bucket, coat.side, coat.extent = model.bucket, model.side, model.extent
                coat.how, coat.lip_cm, coat.like = model.how, model.lip_cm, model
            else:
                area_dm2 = self.area_dm2[str(pot.form_id), where]
                coat_g = area_dm2 * G_DM2_IN_MM * mm * self.book.chance.uniform(0.7, 1.3)
                wet_g = coat_g / filled.dry_fraction_at(when)
                coat.before_g = float(round(weight_g))
                coat.after_g = float(round(weight_g + wet_g))
                weight_g += coat_g
            self.on_pot[pot.pk].append(coat)
        self._decorate(pot, at + timedelta(hours=10))
        return weight_g

    def _decorate(self, pot: Pot, at: datetime) -> None:
        if self.book.happens(0.15):
            kind = self.book.chance.choice(("resist", "brushed", "banded", "trailed"))
            self.book.entry(
                Decoration, f"{pot.pk}-decoration", at, pot=pot, kind=kind, what="made up"
            )
        if self.book.happens(0.1):
            kind = self.book.chance.choice(("rubbed", "touched up", "kissed", "bare"))
            self.book.entry(Mark, f"{pot.pk}-mark", at, pot=pot, kind=kind, where="belly")
        if self.book.happens(0.03):
            self.book.entry(
                Hope, f"{pot.pk}-hope", at, pot=pot, kind="hoped", words="thick enough at last"
            )

    def put_on_board(self, pot: Pot, at: datetime, *, off: datetime | None) -> None:
        """Put a pot on a board, and take it off again where it left."""
        board = self.boards[self.made % BOARDS]
        self.book.entry(Standing, f"{pot.pk}-on-board", at, pot=pot, board=board)
        if off is not None:
            self.book.entry(Standing, f"{pot.pk}-off-board", off, pot=pot, board=None)

    def weigh_board(self, number: int, at: datetime) -> None:
        """Weigh a board with what stands on it."""
        board = self.boards[number % BOARDS]
        weight_g = float(round(self.book.chance.uniform(4_000, 9_000)))
        self.book.entry(
            BoardWeighing, f"{board.pk}-weighed-{number:04d}", at, board=board, weight_g=weight_g
        )

    def judge(self, pot: Pot, at: datetime, glazes: GlazeRoom) -> None:
        """Judge inside and outside; some verdicts are put right a day later."""
        if not self.book.happens(0.9):
            return
        bad_batch = (at.year + at.month // 7) % 4 == 0
        for surface in ("inside", "outside"):
            faulty = self.book.happens(0.12 if bad_batch else 0.06)
            spoilt = any(
                glazes.spoilt_at(coat.bucket, coat.at)
                for coat in self.on_pot[pot.pk]
                if coat.bucket is not None and coat.side in {surface, "both"}
            )
            verdict = self._verdict(pot, surface, at, faulty=faulty or spoilt, spoilt=spoilt)
            if self.book.happens(0.01):
                later = self._verdict(
                    pot,
                    surface,
                    at + timedelta(days=1),
                    faulty=spoilt,
                    spoilt=spoilt,
                    end="-again",
                )
                later.corrects = verdict
        hope = next((h for h in self.book.rows[Hope][-20:] if h.pot_id == pot.pk), None)
        if hope is not None:
            self.book.entry(
                HopeAnswer, f"{hope.pk}-answer", at, hope=hope, came_true=self.book.happens(0.5)
            )

    def _verdict(
        self,
        pot: Pot,
        surface: str,
        at: datetime,
        *,
        faulty: bool,
        spoilt: bool = False,
        end: str = "",
    ) -> Verdict:
        good = "up" if self.book.happens(0.85) else "sideways"
        verdict = self.book.entry(
            Verdict,
            f"{pot.pk}-{surface}{end}",
            at,
            pot=pot,
            surface=surface,
            thumb="down" if faulty else good,
            words="" if self.book.happens(0.7) else "made up",
        )
        if faulty:
            word = SPOILT if spoilt else self.book.chance.choice(FAULTS)
            self.book.parts(Fault, "verdict", verdict, [{"word": word, "where": "lip"}])
        return verdict

    def show(self, pot: Pot, original: Original) -> None:
        """Add the photo of a pot."""
        self.book.entry(PotPhoto, f"{pot.pk}-photo", original.at, pot=pot, original=original)
