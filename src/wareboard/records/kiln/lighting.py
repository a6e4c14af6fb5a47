"""Before lighting: what the page says of a load, in sentences."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.drying import SLOW_START, SLOW_START_C, NextWeighing, Sign, load_statement
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown, rounded
from wareboard.records.ware.drawn import draw_pots, kind_of, name_of, names_of
from wareboard.records.ware.drying import Lit, judge_pots
from wareboard.records.ware.models import Air, Pot
from wareboard.records.ware.planks import made
from wareboard.records.ware.room_air import core_air

from .proofs import ProofsAsked, proofs_asked

SHOWN_ON_PLANK = 8
ORDER = (Sign.STOP, Sign.WAIT, Sign.CANNOT_TELL, Sign.GO)
CSS = {Sign.GO: "go", Sign.WAIT: "wait", Sign.STOP: "stop", Sign.CANNOT_TELL: "unknown"}


@dataclass(frozen=True)
class LoadBefore:
    """A load before lighting, as its page shows it.

    Attributes
    ----------
    title : str
        The one sentence.
    text : str
        What to do about the wettest pot.
    air : str
        What was counted for the air.
    rows : list of dict
        Every pot, the wettest first: name, sign, more, why, when it was weighed;
        those that say the same under one head.
    plank : list of dict
        Those that a page draws.
    never_weighed : str
        Those of which nothing can be told, by name and number; empty where none.
    proofs : ProofsAsked
        Those that two weighings would tell of, alone or together.
    cautions : tuple of str
        What the signs of its pots rest on, each said once.
    """

    title: str
    text: str
    air: str
    rows: list[dict[str, Any]]
    plank: list[dict[str, Any]]
    never_weighed: str
    proofs: ProofsAsked = field(default_factory=ProofsAsked)
    cautions: tuple[str, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether a pot of it says stop."""
        return any(row["sign"] == CSS[Sign.STOP] for row in self.rows)

    @property
    def unsure(self) -> bool:
        """Whether a pot of it is no go: it should wait, or nobody can tell."""
        return bool(self.never_weighed) or any(row["sign"] != CSS[Sign.GO] for row in self.rows)


def sign_of(lit: Lit) -> Sign:
    """Give a pot's sign; cannot tell where it was never weighed."""
    return lit.answer.result.sign if lit.answer else Sign.CANNOT_TELL


def urgency(lit: Lit) -> tuple[int, float, str, datetime, str]:
    """Sort pots as they are spoken of: those that stop the load first, of those the wettest."""
    over_g = lit.answer.result.over_air_g if lit.answer else None
    return (ORDER.index(sign_of(lit)), -(over_g or 0.0), kind_of(lit.pot), *made(lit.pot))


def last_weighed(lit: Lit) -> str:
    """Say when a pot was last on the scale, and how dry it was; empty where it never was."""
    if lit.weighed_at is None:
        return ""
    day = date_format(timezone.localtime(lit.weighed_at), "j M")
    return _("last weighed %(day)s, %(state)s") % {"day": day, "state": lit.weighed_as}


def _over(lit: Lit, shown: Shown) -> str:
    """Say how much a pot holds over what the air explains."""
    if lit.refused:
        return lit.refused
    if lit.answer is None:
        return ""
    result = lit.answer.result
    if result.over_air_g is None or result.over_percent is None:
        return str(result.next_weighing.value)
    if result.sign is Sign.GO and round(result.over_air_g) <= 0:
        return (
            _("nothing over what this air explains")
            if result.air_g
            else _("nothing over its dry weight")
        )
    over = _("%(g)s over") % {"g": shown.mass(max(result.over_air_g, 0.0))}
    spread = lit.answer.doubt.get("over_air_g")
    if spread is not None:
        over += f" ({rounded(max(spread.low, 0.0), 1)}–{rounded(max(spread.high, 0.0), 1)})"
    over += f", {shown.percent(_percent_of_shown(result.over_air_g, result.over_percent))}"
    if result.sign is not Sign.GO and result.next_weighing is not NextWeighing.NONE:
        over += f" · {result.next_weighing.value}"
    return over


def _percent_of_shown(over_g: float, over_percent: float) -> float:
    """Give the per cent of the clay that the grams as shown come to, so that both agree."""
    return float(rounded(over_g, 1)) * over_percent / over_g if over_g > 0 else 0.0


def _counted(lits: Sequence[Lit]) -> str:
    """Name pots that were never weighed, alike ones together: 6 × beaker."""
    counts = Counter(kind_of(lit.pot) for lit in lits)
    return ", ".join(f"{n} × {name}" if n > 1 else name for name, n in counts.items())


def _grouped(rows: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Put rows that say the same under one head, so that a load stays on a screen."""
    groups: dict[tuple[str, str, str], list[dict[str, Any]]] = {}
    for row in rows:
        groups.setdefault((row["sign"], row["more"], row["weighed"]), []).append(row)
    grouped = []
    for alike in groups.values():
        first = alike[0]
        head = first["name"] if len(alike) == 1 else _("%(n)d pots") % {"n": len(alike)}
        grouped.append({**first, "name": head, "each": alike if len(alike) > 1 else []})
    return grouped


def _title(lits: Sequence[Lit], shown: Shown) -> str:
    signs = [sign_of(lit) for lit in lits]
    stop, wait, unknown = (signs.count(s) for s in ORDER[:3])
    if not lits:
        return _("Nothing is in this load yet.")
    if stop:
        return ngettext(
            "One pot is too wet to light tonight.", "%(n)d pots are too wet to light tonight.", stop
        ) % {"n": stop}
    if wait:
        return ngettext("One pot should wait.", "%(n)d pots should wait.", wait) % {"n": wait}
    if unknown:
        return _untold(unknown)
    return _("Go, with the slow start below %s.") % shown.temperature(SLOW_START_C)


def _go(shown: Shown) -> str:
    return _("go, with the slow start below %s") % shown.temperature(SLOW_START_C)


def _untold(pots: int) -> str:
    say = ngettext("Of one pot it cannot be told.", "Of %(n)d pots it cannot be told.", pots)
    return say % {"n": pots}


def _spoken(pot: Pot) -> str:
    """Begin a sentence with a pot: the casserole, but mug 3."""
    name = name_of(pot)
    return _("The %s") % name if name == kind_of(pot) else f"{name[:1].upper()}{name[1:]}"


def holds(lit: Lit, shown: Shown) -> str:
    """Say what a pot that should wait holds, or may hold; empty where that is not known."""
    over_g = lit.answer.result.over_air_g if lit.answer else None
    if lit.answer is None or over_g is None:
        return ""
    spread = lit.answer.doubt.get("over_air_g")
    if round(over_g) > 0 or spread is None:
        say = (
            _("%(pot)s holds %(g)s more than this air explains.")
            if lit.answer.result.air_g
            else _("%(pot)s holds %(g)s over its dry weight.")
        )
        return say % {"pot": _spoken(lit.pot), "g": shown.mass(max(over_g, 0.0))}
    say = (
        _("%(pot)s may still hold up to %(g)s more than this air explains.")
        if lit.answer.result.air_g
        else _("%(pot)s may still hold up to %(g)s over its dry weight.")
    )
    return say % {"pot": _spoken(lit.pot), "g": shown.mass(max(spread.high, 1.0))}


def _text(worst: Lit | None, shown: Shown) -> str:
    """Say what the wettest pot holds, and what to do about it."""
    if worst is None or worst.answer is None:
        return ""
    result = worst.answer.result
    if result.sign not in {Sign.STOP, Sign.WAIT} or result.over_air_g is None:
        return ""
    say = holds(worst, shown)
    say += " " + _("Take it out, or hold the kiln below %s until it stops losing.") % (
        shown.temperature(SLOW_START_C)
    )
    if result.over_dry_g is None or not result.air_g:
        return say
    weighed = _("It is %(over)s over its dry weight; the air explains %(air)s of that.") % {
        "over": shown.mass(result.over_dry_g),
        "air": shown.mass(result.air_g),
    }
    return f"{say} {weighed}"


def _air(air: Air | None) -> str:
    """Say which air was counted with."""
    if air is None:
        return _("Nobody said how the air is today: all grams over the dry weight are counted.")
    over = _("Grams over are counted from what the air explains.")
    return f"{_air_counted(air)} {over}"


def _air_counted(air: Air) -> str:
    by_word = _("Counted with %s air.") % air.get_word_display()
    if air.rh_percent is None:
        return by_word
    percent = rounded(air.rh_percent, 1)
    if core_air(air).rh_percent != air.rh_percent:
        say = _("The hygrometer’s %s %% cannot be true, so it is not counted.") % percent
        return f"{by_word} {say}"
    return _("Counted with the hygrometer at %s %%.") % percent


def _cautions(lits: Sequence[Lit]) -> tuple[str, ...]:
    """Give the cautions of all pots once; the slow start stands in the title."""
    every = (say for lit in lits if lit.answer for say in lit.answer.cautions)
    return tuple(dict.fromkeys(say for say in every if say != SLOW_START))


def before_lighting_of(member: Member, pots: Sequence[Pot], when: datetime) -> LoadBefore:
    """Say of a load whether it may be lit.

    Parameters
    ----------
    member : Member
        Who asks.
    pots : sequence of Pot
        The load.
    when : datetime
        At which moment.
    """
    shown = Shown(member.studio)
    lits, air, coats = judge_pots(member, pots, when)
    lits.sort(key=urgency)
    on_plank = [lit for lit in lits if lit.answer or lit.refused][:SHOWN_ON_PLANK]
    drawings = draw_pots([lit.pot for lit in on_plank], coats, {})
    never = [lit for lit in lits if lit.answer is None and not lit.refused]
    names = names_of(pots)
    rows = [
        {
            "pot": lit.pot,
            "name": names[lit.pot.pk],
            "sign": CSS[sign_of(lit)],
            "more": _over(lit, shown),
            "weighed": last_weighed(lit),
            "why": list(lit.answer.result.reasons) if lit.answer else [],
            "reads": _go(shown) if sign_of(lit) is Sign.GO else "",
        }
        for lit in lits
        if lit not in never
    ]
    load = load_statement([lit.answer for lit in lits if lit.answer])
    text = _text(lits[0] if lits else None, shown)
    untold = sum(sign_of(lit) is Sign.CANNOT_TELL for lit in lits)
    if text and untold:
        text += " " + _untold(untold)
    if load.result.weighed:
        text += " " + ngettext(
            "The one pot with a known or usual dry weight is %(g)s %(span)s over it.",
            "The %(n)d pots with a known or usual dry weight are together %(g)s %(span)s over it.",
            load.result.weighed,
        ) % {
            "n": load.result.weighed,
            "g": shown.mass(max(load.result.over_dry_g, 0.0)),
            "span": shown.span(load.doubt.get("over_dry_g"), 1.0),
        }
    plank = [
        {**row, "drawing": mark_safe(drawings[lit.pot.pk])}  # noqa: S308 - our own drawing, every text in it escaped
        for row, lit in zip(rows, on_plank, strict=False)
    ]
    return LoadBefore(
        title=_title(lits, shown),
        text=text.strip(),
        air=_air(air),
        rows=_grouped(rows),
        plank=plank,
        never_weighed=_counted(never),
        proofs=proofs_asked(lits, names),
        cautions=_cautions(lits),
    )
