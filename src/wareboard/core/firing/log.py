"""A firing log: temperatures at hours, put in order once and trusted after.

Between two lines the temperature is taken as a straight line. Everything in
this room rests on that, so a line that lies on the straight between its
neighbours changes no result.
"""

from dataclasses import dataclass

from wareboard.core.arrays import ArrayLike, Floats, np
from wareboard.core.errors import LogError
from wareboard.core.units import TEMP_C

FEWEST_LINES = 2


@dataclass(frozen=True, eq=False)
class FiringLog:
    """Lines of a log in the order of time, each instant once.

    Attributes
    ----------
    hours : ndarray, shape (n,)
        Strictly rising [h], from whatever instant the caller counts.
    temp_c : ndarray, shape (n,)
        Temperature at each of them [°C].
    """

    hours: Floats
    temp_c: Floats

    @property
    def peak(self) -> int:
        """The last line at the highest temperature."""
        return int(self.temp_c.size - 1 - np.argmax(self.temp_c[::-1]))

    @property
    def peak_hours(self) -> float:
        """The last instant at the highest temperature [h]."""
        return float(self.hours[self.peak])

    @property
    def now_hours(self) -> float:
        """The instant of the last line [h]."""
        return float(self.hours[-1])

    @property
    def now_c(self) -> float:
        """The temperature of the last line [°C]."""
        return float(self.temp_c[-1])

    def temp_c_at(self, hours: float) -> float:
        """Read the straight line between the lines [°C]; outside, the nearest line."""
        return float(np.interp(hours, self.hours, self.temp_c))

    def shifted(self, offset_c: float) -> "FiringLog":
        """Give the log of a probe that reads so many degrees too low [°C]."""
        return FiringLog(self.hours, self.temp_c + offset_c) if offset_c else self

    def until(self, hours: float) -> "FiringLog":
        """Cut the log after an instant, which becomes its last line.

        Parameters
        ----------
        hours : float
            Where to cut [h]; from the first line to the last.

        Raises
        ------
        LogError
            If the log does not reach over that instant.
        """
        first, last = float(self.hours[0]), float(self.hours[-1])
        if not first <= hours <= last:
            raise LogError(
                f"Hour {hours:g} is outside the log, which runs from {first:g} h to {last:g} h.",
                field="shut_off",
                seen=hours,
                accepted=f"hours from {first:g} to {last:g}",
            )
        kept = int(np.searchsorted(self.hours, hours, side="left"))
        return FiringLog(
            np.append(self.hours[:kept], hours),
            np.append(self.temp_c[:kept], self.temp_c_at(hours)),
        )

    def since(self, hours: float) -> "FiringLog":
        """Cut the log before an instant within it, which becomes its first line."""
        kept = int(np.searchsorted(self.hours, hours, side="right"))
        return FiringLog(
            np.insert(self.hours[kept:], 0, hours),
            np.insert(self.temp_c[kept:], 0, self.temp_c_at(hours)),
        )


def firing_log(hours: ArrayLike, temp_c: ArrayLike) -> FiringLog:
    """Put the lines of a log in order and refuse what cannot be.

    Parameters
    ----------
    hours : array_like, shape (n,)
        Instants [h], in any order.
    temp_c : array_like, shape (n,)
        Temperature at each instant [°C].

    Returns
    -------
    FiringLog
        Sorted by time; lines that are equal in both numbers are one line.

    Raises
    ------
    LogError
        If the columns differ in length, a number is not finite, a temperature
        is outside -60 to 2000 °C, one instant has two temperatures, or fewer
        than two instants are left.
    """
    when = np.array(hours, dtype=np.float64).reshape(-1)
    warm = np.array(temp_c, dtype=np.float64).reshape(-1)
    if when.size != warm.size:
        raise LogError(
            f"The log has {when.size} times but {warm.size} temperatures.",
            field="temp_c",
            seen=int(warm.size),
            accepted="one temperature for each time",
        )
    _refuse_bad_numbers(when, warm)
    gaps = np.diff(when)
    if not np.all(gaps > 0):
        order = np.lexsort((warm, when))
        when, warm = when[order], warm[order]
        new = np.ones(when.size, dtype=np.bool_)
        new[1:] = (np.diff(when) != 0) | (np.diff(warm) != 0)
        when, warm = when[new], warm[new]
        _refuse_two_at_once(when, warm)
    if when.size < FEWEST_LINES:
        raise LogError(
            f"A log needs two lines at different times, and this one has {when.size}.",
            field="hours",
            seen=int(when.size),
            accepted="two lines or more",
        )
    return FiringLog(when, warm)


def _refuse_bad_numbers(hours: Floats, temp_c: Floats) -> None:
    """Refuse a time that is no number and a temperature that no kiln has."""
    bad = ~np.isfinite(hours)
    if bad.any():
        seen = float(hours[bad][0])
        raise LogError(
            f"The time {seen} is not a number of hours.",
            field="hours",
            seen=seen,
            accepted="a finite number of hours",
        )
    bad = ~((temp_c >= TEMP_C.lowest) & (temp_c <= TEMP_C.highest))
    if bad.any():
        seen = float(temp_c[bad][0])
        raise LogError(
            f"A temperature of {seen:g} °C is no kiln's: {TEMP_C.words} would do.",
            field="temp_c",
            seen=seen,
            accepted=TEMP_C.words,
        )


def _refuse_two_at_once(hours: Floats, temp_c: Floats) -> None:
    """Refuse two temperatures at one instant: no rule could choose between them."""
    twice = np.flatnonzero(np.diff(hours) == 0)
    if twice.size:
        at = int(twice[0])
        raise LogError(
            f"At {hours[at]:g} h the log has both {temp_c[at]:g} °C and {temp_c[at + 1]:g} °C.",
            field="hours",
            seen=float(hours[at]),
            accepted="one temperature for each time",
        )
