"""Whole numbers that a slip of the hand turns into another one.

A pyrometer shows three or four digits, and a wet thumb loses one, swaps two, or
taps one twice. What was meant is guessed from what was written; whoever wrote it
says whether the guess is right.
"""

TEN = 10
LEAST_DIGITS = 2


def meant_by(written: int) -> tuple[tuple[int, ...], ...]:
    """Give what may have been meant, the likeliest slip first.

    Parameters
    ----------
    written : int
        What was written, 0 or more.

    Returns
    -------
    tuple of tuple of int
        For each slip what it explains: a last digit lost (its place filled with a
        nought), a first 1 lost, two neighbours swapped, one digit too many.

    Examples
    --------
    >>> meant_by(115)
    ((1150,), (1115,), (151,), (15, 11))
    """
    digits = str(written)
    places = range(len(digits))
    swapped = [digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :] for i in places[:-1]]
    dropped = [digits[:i] + digits[i + 1 :] for i in places if len(digits) >= LEAST_DIGITS]
    kinds = ([str(written * TEN)], [f"1{digits}"], swapped, dropped)
    return tuple(tuple(dict.fromkeys(n for n in map(int, kind) if n != written)) for kind in kinds)


def with_one_digit_changed(written: int) -> tuple[int, ...]:
    """Give every number of as many digits that differs from what was written in one.

    Parameters
    ----------
    written : int
        What was written, 0 or more.

    Examples
    --------
    >>> 455 in with_one_digit_changed(465)
    True
    """
    digits = str(written)
    return tuple(
        int(f"{digits[:place]}{digit}{digits[place + 1 :]}")
        for place in range(len(digits))
        for digit in "0123456789"
        if digit != digits[place] and (place > 0 or digit != "0")
    )
