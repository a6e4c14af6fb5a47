"""What the counts say about a fault, in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.why import Change, Finding, Reason, Strand, one_time_in

LOT = "lot of "
COAT = "coat"
HEADS = {
    Strand.MIX: _("the new batch"),
    Strand.COAT: _("the coat"),
    Strand.PLACE: _("the place in the kiln"),
    Strand.FIRE: _("the firing"),
    Strand.CLAY: _("the clay"),
    Strand.FORM: _("the form"),
}


PAIRS = {
    Strand.MIX: _("Put one piece from each bucket side by side in the next load."),
    Strand.COAT: _("Dip one piece thin and one thick, and put them side by side in the next load."),
    Strand.PLACE: _("Put two pieces alike in both places in the next load."),
    Strand.FIRE: _("Put one more piece, dipped alike, in the next load."),
    Strand.CLAY: _("Put one piece of each clay, dipped alike, side by side in the next load."),
    Strand.FORM: _("Put one piece of each form, dipped alike, side by side in the next load."),
}


@dataclass(frozen=True)
class ChangeAnswer:
    """What stands on top of the page.

    Attributes
    ----------
    title : str
        The one sentence.
    text : str
        What it rests on.
    next_test : str
        What to put into the next load.
    """

    title: str
    text: str
    next_test: str


def said_pair(pair: tuple[str, str]) -> str:
    """Name an attribute and its value as a potter would."""
    attribute, value = pair
    if attribute.startswith(LOT):
        return _("%(material)s, lot %(lot)s") % {
            "material": attribute.removeprefix(LOT),
            "lot": value,
        }
    if attribute == COAT:
        return f"{attribute} {value}"
    return value if attribute in {"batch", "bucket", "firing"} else f"{attribute}: {value}"


def said(change: Change) -> str:
    """Name a change as a potter would."""
    return said_pair((change.attribute, change.value))


def _joined(names: Sequence[str]) -> str:
    """Name several as they are said; where their own names have commas, with semicolons."""
    if len(names) == 1:
        return names[0]
    if len(names) > 2 and any("," in name for name in names):  # noqa: PLR2004 - two need no list
        return "; ".join(names)
    return _("%(first)s and %(last)s") % {"first": ", ".join(names[:-1]), "last": names[-1]}


def cause(fitting: Sequence[Change]) -> Change:
    """Of changes that came together, give the one farthest up the chain.

    A lot comes before the batch it went into, a batch before its bucket.
    """
    return min(fitting, key=lambda c: (not c.attribute.startswith(LOT), c.attribute != "batch"))


def _by_chance(finding: Finding) -> str:
    """Say how often chance alone would make one of the differences looked at fit."""
    times = one_time_in(finding.chance_of_any)
    facts = {"n": finding.tried, "times": times}
    if times == 1:
        return _("Chance alone would look like this as often as not.")
    if finding.tried == 1:
        return _("Chance alone could look like this about 1 time in %(times)d.") % facts
    return (
        _("Chance alone could look like this about 1 time in %(times)d: ")
        + _("it could have fitted in %(n)d ways, and that is counted in.")
    ) % facts


def answer_for(
    finding: Finding, glaze: str, beside: tuple[str, ...] | None = None, *, differ: bool = True
) -> ChangeAnswer:
    """Say which single change fits all pieces, or why none can be named.

    Parameters
    ----------
    finding : Finding
        From the core.
    glaze : str
        Name of the glaze.
    beside : tuple of str or None
        Firing and place where a faulty and a sound piece stood together.
    differ : bool
        Whether the record knows any difference between the pieces.
    """
    counts = _("%(faulty)d with the fault, %(sound)d without.") % {
        "faulty": finding.faulty,
        "sound": finding.sound,
    }
    pair = " ".join(str(PAIRS[strand]) for strand in finding.strands or (Strand.MIX,))
    if finding.reason is Reason.NO_FAULTY:
        return ChangeAnswer(_("No %s has this fault yet.") % glaze, counts, "")
    if finding.reason is Reason.NO_SOUND:
        return ChangeAnswer(
            _("Cannot tell: there is no sound %s to hold the bad ones against.") % glaze,
            counts,
            pair,
        )
    if finding.reason is Reason.NONE_FITS and not differ:
        return ChangeAnswer(
            _("Cannot tell: the record knows no difference between the good and the bad ones."),
            counts,
            str(PAIRS[Strand.FIRE]),
        )
    if finding.reason is Reason.NONE_FITS:
        return ChangeAnswer(
            _("Cannot tell yet: no single change fits all pieces."),
            counts + " " + _("What parts them best stands below."),
            pair,
        )
    if finding.reason is Reason.SEVERAL:
        heads = _joined([HEADS[strand] for strand in finding.strands])
        return ChangeAnswer(
            _("Cannot tell yet: %s changed at the same time.") % heads,
            counts
            + " "
            + _("Each of these fits every piece: %s.")
            % _joined([said(c) for c in finding.fitting]),
            pair,
        )
    return _one_fits(finding, counts, pair, beside)


def _one_fits(
    finding: Finding, counts: str, pair: str, beside: tuple[str, ...] | None
) -> ChangeAnswer:
    """Say of the one change that fits all pieces how far that may be trusted."""
    first = cause(finding.fitting)
    if finding.reason is Reason.TOO_FEW:
        return ChangeAnswer(
            _("Cannot tell yet: %s fits, on too few pieces.") % said(first),
            f"{counts} {_by_chance(finding)}",
            pair,
        )
    if finding.reason is Reason.REMEMBERED:
        return ChangeAnswer(
            _("Cannot tell yet: %s fits, but partly from memory.") % said(first),
            counts
            + " "
            + ngettext(
                "One of these pieces is only remembered;",
                "%d of these pieces are only remembered;",
                finding.remembered,
            ).replace("%d", str(finding.remembered))
            + " "
            + _("those written down at the time are not enough alone."),
            pair,
        )
    others = [said(c) for c in finding.fitting if c is not first]
    together = (
        " " + _("It came together with %s, and cannot be told from that.") % _joined(others)
        if others
        else ""
    )
    return ChangeAnswer(
        _("Most likely %s.") % said(first),
        ngettext(
            "The one piece with it has the fault,",
            "All %(n)d pieces with it have the fault,",
            first.faulty_with,
        )
        % {"n": first.faulty_with}
        + " "
        + _("none of the %(n)d without it.") % {"n": first.sound_without}
        + together
        + " "
        + _by_chance(finding)
        + " "
        + (
            _(
                "One of each was fired side by side in %(firing)s (%(place)s). "
                "Even so, it is not certain."
            )
            % {"firing": beside[0], "place": beside[1]}
            if beside
            else _("It is not certain until one piece of each has been fired side by side.")
        ),
        "" if beside else pair,
    )


def counted(change: Change, total: int) -> str:
    """Say of a difference how many pieces have the fault with it, and how many without.

    Parameters
    ----------
    change : Change
        The difference.
    total : int
        All pieces that are compared.
    """
    say = _("With it %(f)d of %(n)d have the fault, without it %(g)d of %(m)d.") % {
        "f": change.faulty_with,
        "n": change.faulty_with + change.sound_with,
        "g": change.faulty_without,
        "m": change.faulty_without + change.sound_without,
    }
    if change.known == total:
        return say
    known = _("Known of %(known)d of the %(total)d pieces.")
    return f"{say} {known % {'known': change.known, 'total': total}}"
