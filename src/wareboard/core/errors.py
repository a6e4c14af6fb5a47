"""What can be wrong with a number, said so that a potter can mend it.

::

    CoreError                a value that cannot be, or cannot be used here
    ├── CompositionError     an analysis or a recipe
    ├── DensityError         a slop, its water or its powder
    ├── WeighingError        two or more weighings that do not fit each other
    ├── LogError             a firing log
    └── ShapeError           a pot's outline, wall or length

Each carries what a form or a command needs to point at the place: ``field``
(the column or the argument), ``seen`` (what was given) and ``accepted`` (what
would do). The text is one sentence.
"""


class CoreError(ValueError):
    """A value that cannot be, or cannot be used here.

    Parameters
    ----------
    say : str
        One sentence for a potter: quantity, value, why not.
    field : str
        The column or argument at fault, as the caller knows it.
    seen : object
        The value that was given.
    accepted : str
        What would have been accepted, in words.
    """

    def __init__(self, say: str, *, field: str, seen: object, accepted: str) -> None:
        super().__init__(say)
        self.say = say
        self.field = field
        self.seen = seen
        self.accepted = accepted


class CompositionError(CoreError):
    """An analysis or a recipe that cannot be worked with."""


class DensityError(CoreError):
    """A density of slop or powder that cannot be."""


class WeighingError(CoreError):
    """Weighings that do not fit each other."""


class LogError(CoreError):
    """A firing log that cannot be read as one."""


class ShapeError(CoreError):
    """An outline, a wall or a length that cannot be."""
