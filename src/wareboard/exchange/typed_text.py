"""Names and notes as people type them.

One rule for forms, files and programs: text is kept exactly as typed, in the
composed form of Unicode (NFC), so that two ways of writing the same accent are
one name. Refused is what no keyboard of a potter makes on purpose and what
some storage cannot hold: the NUL character, other control characters,
characters that turn the writing direction, and halves of characters.
"""

import unicodedata

from wareboard.exchange.refusals import TextRefused, shown

LONGEST_NAME = 200
LONGEST_NOTE = 20_000
# The property Bidi_Control of the Unicode character database.
TURNING = frozenset(
    "\N{ARABIC LETTER MARK}\N{LEFT-TO-RIGHT MARK}\N{RIGHT-TO-LEFT MARK}"
    "\N{LEFT-TO-RIGHT EMBEDDING}\N{RIGHT-TO-LEFT EMBEDDING}\N{POP DIRECTIONAL FORMATTING}"
    "\N{LEFT-TO-RIGHT OVERRIDE}\N{RIGHT-TO-LEFT OVERRIDE}"
    "\N{LEFT-TO-RIGHT ISOLATE}\N{RIGHT-TO-LEFT ISOLATE}"
    "\N{FIRST STRONG ISOLATE}\N{POP DIRECTIONAL ISOLATE}"
)


def read_name(text: str, *, field: str, longest: int = LONGEST_NAME) -> str:
    """Tidy a text of one line.

    Parameters
    ----------
    text : str
        As typed.
    field : str
        Where it was typed.
    longest : int
        Most characters kept; more is refused, never cut.

    Returns
    -------
    str
        In the composed form, without blanks at the ends.

    Raises
    ------
    TextRefused
        If it cannot be kept as it is.
    """
    tidy = _kept(text, field=field, longest=longest, controls="")
    return tidy.strip()


def read_note(text: str, *, field: str, longest: int = LONGEST_NOTE) -> str:
    """Tidy a text of several lines; line ends become plain line feeds.

    Parameters, result and errors are those of :func:`read_name`.
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return _kept(lines, field=field, longest=longest, controls="\n\t").strip()


def _kept(text: str, *, field: str, longest: int, controls: str) -> str:
    if len(text) > longest:
        raise TextRefused(
            f"{field} has {len(text)} characters; at most {longest} are kept.",
            field=field,
            seen=shown(text),
            accepted=f"up to {longest} characters",
        )
    for place, character in enumerate(text, start=1):
        if (why := _why_not(character)) and character not in controls:
            raise TextRefused(
                f"{field} holds {why} (U+{ord(character):04X}) at character {place}: take it out.",
                field=field,
                seen=shown(text),
                accepted="letters, digits, signs and blanks",
            )
    return unicodedata.normalize("NFC", text)


def _why_not(character: str) -> str:
    if character == "\0":
        return "a NUL character"
    if character in TURNING:
        return "a character that turns the writing direction"
    category = unicodedata.category(character)
    if category == "Cs":
        return "half of a character"
    if category == "Cc":
        return "a control character"
    return ""
