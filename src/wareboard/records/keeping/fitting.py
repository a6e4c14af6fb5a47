"""Whether what comes in a folder fits: each cell, each row, and rows to each other.

Reading the folder has checked what any table may say; this is what ours may.
It asks the database little, so that a long record is still taken in quickly.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, cast

from django.core.exceptions import ValidationError
from django.db.models import UniqueConstraint

from wareboard.core.errors import CoreError
from wareboard.exchange.materials_csv import HIGHEST_TOTAL_PERCENT
from wareboard.exchange.record_folder import (
    EnoughProblems,
    Findings,
    FolderRefused,
    RecordFolder,
)
from wareboard.records.people.entry import Measurement
from wareboard.records.people.models import Member, Studio
from wareboard.records.pictures.storage import original_path
from wareboard.records.ware.board_forms import OutlineField
from wareboard.records.ware.drawn import Shape, draw_shape

from .cell_rules import cell_checks
from .row_rules import Row, rules
from .tables import Kept, fields_of

MOST_TOLD = 100
USUAL_WALL_MM = 5.0

Rows = list[dict[str, Any]]


@dataclass(frozen=True)
class Coming:
    """What a folder brings, and where it is to go.

    Attributes
    ----------
    folder : RecordFolder
        The folder, read.
    fresh : dict
        For each table the rows that are not here yet.
    studio : Studio or None
        The studio that takes them; None where the folder's own takes its place.
    leaving : Studio or None
        The empty studio that gives way to the folder's own.
    """

    folder: RecordFolder
    fresh: dict[Kept, Rows]
    studio: Studio | None
    leaving: Studio | None = None


class Fitting:
    """The problems of what comes, each with its place in the folder."""

    def __init__(self, coming: Coming) -> None:
        self.coming = coming
        self.findings = Findings(MOST_TOLD)
        self.rows: dict[str, Rows] = cast("dict[str, Rows]", coming.folder.rows_by_table)

    def say(self, table: str, row: Row, column: str, fault: str, accepted: str) -> None:
        """Keep one problem."""
        self.findings.add(
            f"{table}.csv",
            fault,
            row=self.coming.folder.numbers_by_table[table][row["id"]],
            column=column,
            seen=_as_written(row[column]),
            accepted=accepted,
        )

    def check_all(self) -> None:
        """Go through everything, ids first: what is not ours need not be looked at."""
        for kept, fresh in self.coming.fresh.items():
            if fresh:
                self.check_ids(kept, fresh)
        self.check_people()
        self.check_lines()
        for kept, fresh in self.coming.fresh.items():
            if fresh:
                self.check_cells(kept, fresh)
                self.check_once(kept, fresh)
                self.check_chains(kept, fresh)
        if not self.findings.problems:
            self.check_sheets()
            self.check_outlines()
            self.check_bases()
            self.check_originals()

    def check_ids(self, kept: Kept, fresh: Rows) -> None:
        """Find ids that the record holds already, where a new row cannot have them."""
        here = kept.model._base_manager.all()
        if kept.model is Studio and self.coming.leaving is not None:
            here = here.exclude(pk=self.coming.leaving.pk)
        elif kept.model is Member and self.coming.leaving is not None:
            here = here.exclude(studio=self.coming.leaving)
        elif kept.is_entry and self.coming.studio is not None:
            here = here.exclude(studio=self.coming.studio, undone_at__isnull=True)
        elif kept.is_part and self.coming.studio is not None:
            own = {f"{kept.owner}__studio": self.coming.studio}
            here = here.exclude(**own, **{f"{kept.owner}__undone_at__isnull": True})
        held = set(here.values_list("pk", flat=True))
        for row in fresh if held else ():
            if row["id"] in held:
                self.say(kept.name, row, "id", *self._held_by(kept, row["id"]))

    def _held_by(self, kept: Kept, pk: str) -> tuple[str, str]:
        studio = self.coming.studio
        mine = kept.is_entry and studio is not None
        if mine and kept.model._base_manager.filter(pk=pk, studio=studio).exists():
            return "was taken back in this record", "leave the row out, or give it another id"
        return "is held by another studio of this record", "give the row another id"

    def check_people(self) -> None:
        """Find entries by somebody who is not of the studio that takes them."""
        if self.coming.studio is None:
            return
        known = set(self.coming.studio.members.values_list("pk", flat=True))
        for kept, fresh in self.coming.fresh.items():
            for row in fresh if kept.is_entry else ():
                if row["by"] is not None and row["by"] not in known:
                    self.say(
                        kept.name,
                        row,
                        "by",
                        f"is nobody of {self.coming.studio.name}",
                        "leave it blank, or take the folder into an empty studio",
                    )

    def check_lines(self) -> None:
        """Find new lines of an entry that is here already: they would change what it says."""
        if self.coming.studio is None:
            return
        new = {kept.model: {row["id"] for row in rows} for kept, rows in self.coming.fresh.items()}
        for kept, fresh in self.coming.fresh.items():
            if not kept.is_part:
                continue
            owner = kept.model._meta.get_field(kept.owner).related_model
            ids = next(ids for model, ids in new.items() if model is owner)
            for row in fresh:
                if row[kept.owner] not in ids:
                    self.say(
                        kept.name,
                        row,
                        kept.owner,
                        "is here already, without this row",
                        "leave the row out, or give what it belongs to an id of its own",
                    )

    def check_cells(self, kept: Kept, fresh: Rows) -> None:
        """Find cells that no form would have kept, and rows that break a rule."""
        for field in fields_of(kept.model):
            name = field.name
            for bad, fault, accepted in cell_checks(field):
                for row in fresh:
                    value = row[name]
                    if value is not None and bad(value):
                        self.say(kept.name, row, name, fault, accepted)
        for rule in rules().get(kept.model, ()):
            for row in fresh:
                if rule.broken(row):
                    self.say(kept.name, row, rule.column, rule.fault, rule.accepted)

    def check_once(self, kept: Kept, fresh: Rows) -> None:
        """Find a second row where only one may stand."""
        names = {field.name for field in fields_of(kept.model)}
        for once in kept.model._meta.constraints:
            if not isinstance(once, UniqueConstraint) or not names.issuperset(once.fields):
                continue
            new = {row["id"] for row in fresh}
            seen: dict[Any, str] = {}
            old_first = sorted(self.rows[kept.name], key=lambda row: row["id"] in new)
            others = self._others_here(kept, once.fields) if self.coming.studio else ()
            seen.update(others)
            for row in old_first:
                first = seen.setdefault(tuple(row[name] or "" for name in once.fields), row["id"])
                if first != row["id"]:
                    same = " and ".join(once.fields)
                    self.say(
                        kept.name,
                        row,
                        once.fields[-1],
                        f'says the same of {same} as the row "{first}"',
                        "keep one of the two",
                    )

    def _others_here(self, kept: Kept, names: Iterable[str]) -> Iterator[tuple[Any, str]]:
        """Give what stands in the record and not in the folder."""
        standing = kept.model._base_manager.filter(
            studio=self.coming.studio, undone_at__isnull=True
        )
        for pk, *values in standing.values_list("pk", *names):
            yield tuple(value or "" for value in values), pk

    def check_chains(self, kept: Kept, fresh: Rows) -> None:
        """Find rows that lead back to themselves, and corrections of another thing."""
        own = [field for field in fields_of(kept.model) if field.related_model is kept.model]
        for field in own:
            links = {row["id"]: row[field.name] for row in self.rows[kept.name]}
            for row in fresh:
                if row[field.name] is not None and _leads_back(row["id"], links):
                    self.say(
                        kept.name,
                        row,
                        field.name,
                        "leads back to the row itself",
                        "name an earlier row, or leave it blank",
                    )
        if issubclass(kept.model, Measurement):
            self._check_corrections(kept, fresh)

    def _check_corrections(self, kept: Kept, fresh: Rows) -> None:
        subject = next(
            field.name
            for field in fields_of(kept.model)
            if field.related_model is not None and field.name not in {"corrects", "by"}
        )
        of = {row["id"]: row[subject] for row in self.rows[kept.name]}
        for row in fresh:
            if row["corrects"] is not None and of[row["corrects"]] != row[subject]:
                self.say(
                    kept.name,
                    row,
                    "corrects",
                    f"is of another {subject}",
                    f"name an earlier row of the same {subject}, or leave it blank",
                )

    def check_sheets(self) -> None:
        """Find analyses that name an oxide twice, or add up to what none does."""
        totals: dict[str, float] = defaultdict(float)
        once: set[tuple[str, str]] = set()
        for row in self.rows["sheet_oxides"]:
            totals[row["sheet"]] += row["percent"]
            if (row["sheet"], row["oxide"]) in once:
                self.say("sheet_oxides", row, "oxide", "stands twice on its sheet", "keep one")
            once.add((row["sheet"], row["oxide"]))
        for row in self.rows["sheets"]:
            total = totals[row["id"]] + (row["loss_percent"] or 0.0)
            if total > HIGHEST_TOTAL_PERCENT:
                self.say(
                    "sheets",
                    row,
                    "id",
                    f"adds up to {total:.1f} %, which no analysis does",
                    f"its oxides and its loss make at most {HIGHEST_TOTAL_PERCENT:.0f} %",
                )

    def check_outlines(self) -> None:
        """Find outlines that cannot be drawn, by the rule of the form where one is typed."""
        outlines: dict[str, Rows] = {}
        for row in self.rows["form_points"]:
            outlines.setdefault(row["form"], []).append(row)
        walls = {row["id"]: row["wall_mm"] for row in self.rows["forms"]}
        for form, points in outlines.items():
            points.sort(key=lambda row: row["position"])
            try:
                lines = [f"{row['r_cm']:.6f} {row['z_cm']:.6f}" for row in points]
                profile_cm = OutlineField().clean("\n".join(lines))
                draw_shape(Shape(profile_cm, walls[form] or USUAL_WALL_MM, own=True), "")
            except (ValidationError, CoreError) as refused:
                why = refused.messages[0] if isinstance(refused, ValidationError) else refused.say
                self.say(
                    "form_points",
                    points[0],
                    "form",
                    f"has an outline that cannot be drawn ({why.rstrip('.')})",
                    "write its points from the foot to the rim",
                )

    def check_bases(self) -> None:
        """Find glazes that rest on each other in a circle, by their newest recipes."""
        newest: dict[str, dict[str, Any]] = {}
        for row in self.rows["recipes"]:
            kept = newest.setdefault(row["glaze"], row)
            if row["version"] > kept["version"]:
                newest[row["glaze"]] = row
        links = {glaze: row["base"] for glaze, row in newest.items()}
        for glaze, row in newest.items():
            if row["base"] is not None and _leads_back(glaze, links):
                self.say(
                    "recipes",
                    row,
                    "base",
                    "rests on this glaze itself, by way of its own base",
                    "write another glaze, or leave it blank",
                )

    def check_originals(self) -> None:
        """Find pictures whose file is neither in the folder nor here, or is another size."""
        sizes = {f"{one.sha256}.{one.ending}": one.source for one in self.coming.folder.originals}
        for row in self.rows["pictures"]:
            name = f"{row['sha256']}.{row['suffix']}"
            source: Path = sizes.get(name) or original_path(name)
            if not source.is_file():
                fault, column = "is no photo or sound of this folder", "sha256"
                accepted = "write the name of a file in photos or sounds, without its ending"
            elif source.stat().st_size != row["size_bytes"]:
                fault, column = "is not the size of the file", "size_bytes"
                accepted = f"write {source.stat().st_size}"
            else:
                continue
            self.say("pictures", row, column, fault, accepted)


def check(coming: Coming) -> None:
    """Refuse what does not fit, with all that is wrong.

    Raises
    ------
    FolderRefused
        With file, row, column, value and what is accepted of every problem.
    """
    fitting = Fitting(coming)
    try:
        fitting.check_all()
    except EnoughProblems:
        raise FolderRefused(fitting.findings.problems, all_told=False) from None
    if fitting.findings.problems:
        raise FolderRefused(fitting.findings.problems)


def _leads_back(start: str, links: Mapping[str, str | None]) -> bool:
    """Say whether following the links from a row comes back to it."""
    seen = set()
    at = links.get(start)
    while at is not None and at not in seen:
        if at == start:
            return True
        seen.add(at)
        at = links.get(at)
    return False


def _as_written(value: object) -> str:
    if isinstance(value, datetime):
        return value.isoformat()
    if isinstance(value, bool):
        return str(value).lower()
    return "" if value is None else str(value)
