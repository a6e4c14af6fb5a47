"""Whole numbers that differ from what was written in one digit."""


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
