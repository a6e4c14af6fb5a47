"""Every page of the program, each with a real example out of a record.

The addresses come from the resolver, so a new page is measured without being
named here, as long as what its address names is a row of the record. Where one
row is heavier than another, the heavy one is the example: the bucket most
dipped into, the load that waits, the newest firing.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

from django.apps import apps
from django.db.models import Count, Exists, OuterRef, QuerySet
from django.urls import URLPattern, URLResolver, get_resolver

from wareboard.records.glazes.models import BatchLine, Bucket, Recipe
from wareboard.records.kiln.models import Firing, Load
from wareboard.records.people.entry import Entry
from wareboard.records.people.models import Member
from wareboard.records.shelf.models import Verdict
from wareboard.records.ware.models import Coat, Form, Pot
from wareboard.records.ware.queries import pots_by_board

GAP = re.compile(r"<(?:\w+:)?(\w+)>|\(\?P<(\w+)>[^)]*\)")
# What is no page, and why; the key says how the route begins.
NO_PAGE = {
    "pictures/": "files, not pages",
    "sign-in/<str:key>/": "used up by looking at it",
    "health/": "for machines",
}
# What else a page may be asked; ids as in addresses.
ASKED = {
    "shelf/what-changed/": (
        "?glaze={glaze_id}&fault=crawl",
        "?glaze={spoilt_glaze}&fault=cloudy",
    ),
    "ware/": ("?q=beaker", "?q=alder", "?q=b%C3%A9aker+alder", "?after={pot_id}"),
    "shelf/": ("?q=crawled+beaker", "?q=firing+alder&after={pot_id}", "?after={verdict_id}"),
    "ware/pots/<slug:pot_id>/dip/": ("?bucket={bucket_id}&side=outside&extent=whole",),
    "ware/boards/<slug:board_id>/dip/": ("?bucket={bucket_id}&side=outside&extent=whole",),
    "kiln/": ("?after={firing_id}",),
    "kiln/loads/<slug:load_id>/": ("?again",),
    "stores/": ("?after={material_id}",),
    "stores/lots/<slug:lot_id>/": ("?after={batch_id}",),
    "glazes/": ("?after={glaze_id}",),
}
WORDS = {"kind": "pot", "size": "board", "light": "light", "level": "middle", "which": "shut-off"}
# Where an address calls a thing by a shorter name than the record does.
CALLED = {"line": "logline"}


# Where another example than the heaviest is wanted: a route, a gap of it, and which.
WANTED = {("glazes/glazes/<slug:glaze_id>/draw/", "glaze_id"): "child_glaze"}


class NoExample(Exception):
    """An address names something that the record has no example of."""


@dataclass(frozen=True)
class Address:
    """One page with an example.

    Attributes
    ----------
    route : str
        As the resolver spells it, with what is asked besides.
    path : str
        As a browser asks for it.
    """

    route: str
    path: str


def routes(resolver: URLResolver | None = None, before: str = "") -> Iterator[str]:
    """Give every route of the program."""
    for entry in (resolver or get_resolver()).url_patterns:
        route = before + str(entry.pattern)
        if isinstance(entry, URLResolver):
            yield from routes(entry, route)
        elif isinstance(entry, URLPattern):
            yield route


def addresses(member: Member) -> list[Address]:
    """Give every page with an example out of a member's record.

    Raises
    ------
    NoExample
        If an address names something of which there is none: teach
        ``Examples`` where to find one.
    """
    examples = Examples(member)
    found = []
    for route in sorted(set(routes())):
        if route.startswith(tuple(NO_PAGE)):
            continue
        path = "/" + GAP.sub(partial(filled, examples, route), route.strip("^$"))
        for asked in ("", *ASKED.get(route, ())):
            wanted = GAP_ASKED.sub(lambda gap: examples.find(gap[1]), asked)
            found.append(Address(route + asked, path + wanted))
    return found


def filled(examples: "Examples", route: str, gap: re.Match[str]) -> str:
    """Give what stands in one gap of a route."""
    name = gap[1] or gap[2]
    return examples.find(WANTED.get((route, name), name))


GAP_ASKED = re.compile(r"\{(\w+)\}")


class Examples:
    """Rows of a record to show pages of.

    Parameters
    ----------
    member : Member
        Whose record.
    """

    def __init__(self, member: Member) -> None:
        self.member = member
        self._known: dict[str, str] = dict(WORDS)
        self._heavy: dict[str, Callable[[], str | None]] = {
            "bucket_id": lambda: self._most_dipped("bucket"),
            "glaze_id": lambda: self._most_dipped("bucket__glaze"),
            "coat_id": self._newest_weighed_coat,
            "pot_id": self._longest_story,
            "entry_id": self._longest_story,
            "load_id": self._waiting_load,
            "firing_id": lambda: self._newest(Firing),
            "board_id": self._fullest_board,
            "form_id": self._most_made,
            "lot_id": self._most_weighed_out,
            "child_glaze": self._child_glaze,
            "spoilt_glaze": self._spoilt_glaze,
        }

    def find(self, gap: str) -> str:
        """Give an example for one gap of an address.

        Raises
        ------
        NoExample
            If there is none.
        """
        if gap not in self._known:
            heavy = self._heavy.get(gap)
            found = heavy() if heavy else self._newest(self._model_of(gap))
            if found is None:
                raise NoExample(f"the record has no example for <{gap}>")
            self._known[gap] = found
        return self._known[gap]

    def _model_of(self, gap: str) -> type[Entry]:
        """Give the model that a gap names: ``sheet_id`` names a sheet."""
        name = gap.removesuffix("_id").replace("_", "")
        name = CALLED.get(name, name)
        for model in apps.get_models():
            if issubclass(model, Entry) and model._meta.model_name == name:
                return model
        raise NoExample(f"nothing in the record is called <{gap}>")

    def _newest(self, model: type[Entry]) -> str | None:
        rows = model._base_manager.filter(studio=self.member.studio_id, undone_at__isnull=True)
        return rows.order_by("-at", "-pk").values_list("pk", flat=True).first()

    def _most_dipped(self, what: str) -> str | None:
        coats = Coat.objects.seen_by(self.member).filter(**{f"{what}__isnull": False})
        counted = coats.order_by().values(what).annotate(n=Count("pk")).order_by("-n", what)
        return next((str(row[what]) for row in counted[:1]), None)

    def _newest_weighed_coat(self) -> str | None:
        coats = Coat.objects.current().filter(studio=self.member.studio_id, like__isnull=True)
        return coats.order_by("-at", "-pk").values_list("pk", flat=True).first()

    def _most_weighed_out(self) -> str | None:
        lines = BatchLine.objects.current().filter(studio=self.member.studio_id, lot__isnull=False)
        counted = lines.order_by().values("lot").annotate(n=Count("pk")).order_by("-n", "lot")
        return next((str(row["lot"]) for row in counted[:1]), None)

    def _spoilt_glaze(self) -> str | None:
        spoilt = Verdict.objects.filter(faults__word="cloudy").values("pot")
        coats = Coat.objects.seen_by(self.member).filter(pot__in=spoilt, bucket__isnull=False)
        counted = coats.order_by().values("bucket__glaze").annotate(n=Count("pk"))
        return next((row["bucket__glaze"] for row in counted.order_by("-n")[:1]), None)

    def _child_glaze(self) -> str | None:
        children = Recipe.objects.seen_by(self.member).filter(base__isnull=False)
        return children.order_by("-at", "pk").values_list("glaze", flat=True).first()

    def _longest_story(self) -> str | None:
        judged = Exists(Verdict.objects.filter(pot=OuterRef("pk")))
        pots = Pot.objects.seen_by(self.member).filter(judged)
        newest = list(pots.order_by("-at", "-pk").values_list("pk", flat=True)[:40])
        told = Coat.objects.filter(pot__in=newest).order_by().values("pot")
        counted = told.annotate(n=Count("pk")).order_by("-n", "-pot")
        return next((str(row["pot"]) for row in counted[:1]), None)

    def _waiting_load(self) -> str | None:
        lit = Firing.objects.standing().filter(load=OuterRef("pk"))
        loads = Load.objects.seen_by(self.member).filter(~Exists(lit))
        return loads.order_by("-at").values_list("pk", flat=True).first()

    def _fullest_board(self) -> str | None:
        fullest = max(pots_by_board(self.member).items(), key=lambda found: len(found[1]))
        return fullest[0]

    def _most_made(self) -> str | None:
        forms = Form.objects.seen_by(self.member).annotate(n=Count("pots"))
        return next((form.pk for form in forms.order_by("-n", "pk")[:1]), None)


def written_to(member: Member) -> dict[str, list[str]]:
    """Give buckets, pots and firings that phones may write to without changing an example."""

    def ids(rows: QuerySet[Any]) -> list[str]:
        return list(rows.order_by("-at", "-pk").values_list("pk", flat=True)[20:40])

    return {
        "buckets": ids(Bucket.objects.seen_by(member)) or ids_of_all(Bucket, member),
        "pots": ids(Pot.objects.seen_by(member)),
        "firings": ids(Firing.objects.seen_by(member)) or ids_of_all(Firing, member),
    }


def ids_of_all(model: type[Entry], member: Member) -> list[str]:
    """Give the ids of a small kind."""
    rows = model._base_manager.filter(studio=member.studio_id)
    return list(rows.values_list("pk", flat=True))
