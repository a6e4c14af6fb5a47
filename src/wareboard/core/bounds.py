"""What a number must be before anything is worked out from it.

One refusal for all calculations: the quantity, the value, why not, and the
slip of the hand that it looks like.
"""

from wareboard.core.errors import CoreError, WeighingError
from wareboard.core.units import Quantity

WEIGHED_G = Quantity(
    "weight", "g", 0.0, 1e7, "grams above 0 and up to 10000000, such as 450", above=True
)
"""Something that was put on a scale and is there."""

DOUBT_G = Quantity("doubt", "g", 0.0, 1e7, "grams from 0 to 10000000")
"""Half an interval or a standard deviation, in grams; none at all will do."""

STEP_G = Quantity(
    "step of the scale", "g", 0.0, 1e4, "grams above 0 and up to 10000, such as 1", above=True
)
"""The smallest difference a scale shows."""


def within(
    value: float,
    quantity: Quantity,
    *,
    field: str,
    name: str = "",
    error: type[CoreError] = WeighingError,
) -> float:
    """Give the value back if the quantity allows it, refuse it otherwise.

    Parameters
    ----------
    value : float
        What was given [unit of the quantity].
    quantity : Quantity
        What it is of, and how far that may go.
    field : str
        The column or argument at fault, as the caller knows it.
    name : str
        What to call it in the sentence; the quantity's own name where blank.
    error : type of CoreError
        Branch of the error tree it belongs to.

    Returns
    -------
    float
        The same value.

    Raises
    ------
    CoreError
        Of the kind `error`, if the value is not finite or out of range. Where
        a lost decimal point explains it, the sentence names the likely value.
    """
    if quantity.allows(value):
        return float(value)
    likely = quantity.likely_slips(value)
    why = f"do you mean {likely[0][1]:g}?" if likely else f"{quantity.words} would do."
    raise error(
        f"The {name or quantity.name} cannot be {value:g}: {why}",
        field=field,
        seen=value,
        accepted=quantity.words,
    )
