"""Quantities: what a number is of, in which unit, and how far it may go.

Each quantity that a potter types, weighs or reads from a file is declared
once, here, with the one unit it has inside the program. Reading text into a
number is done by :mod:`wareboard.exchange.typed_number`; this module only says
what would do, and which slip of the hand a strange number looks like.
"""

from dataclasses import dataclass

RESOLUTION = 1e-12
"""Smallest size of a number that is not zero [unit of the quantity]."""


@dataclass(frozen=True)
class Slip:
    """A likely mistake: a lost decimal point, or degrees of the other scale.

    What was meant is ``(typed - minus) / divisor``.

    Attributes
    ----------
    divisor : float
        Ratio of the typed number to the meant one.
    minus : float
        Taken off before dividing [unit of the typed number].
    unit : str
        Unit in which the number was probably read; blank where only the
        decimal point went missing.
    """

    divisor: float
    minus: float = 0.0
    unit: str = ""

    def meant(self, typed: float) -> float:
        """Give the number that was probably meant."""
        return (typed - self.minus) / self.divisor


LOST_POINT = (Slip(10.0), Slip(100.0), Slip(1000.0))
FAHRENHEIT = (Slip(1.8, minus=32.0, unit="f"),)


@dataclass(frozen=True)
class Quantity:
    """What a number is of.

    Attributes
    ----------
    name : str
        As a potter calls it, in the middle of a sentence.
    unit : str
        The one unit inside the program, as in the names of our variables;
        blank for a ratio.
    lowest, highest : float
        Ends of what is accepted [unit].
    words : str
        What is accepted, for people.
    above : bool
        The lowest value itself is not accepted.
    usual : tuple of float, optional
        Where values of the trade lie [unit]. A number outside is asked about
        if one of the slips brings it inside.
    slips : tuple of Slip
        Mistakes worth asking about, likeliest first.
    """

    name: str
    unit: str
    lowest: float
    highest: float
    words: str
    above: bool = False
    usual: tuple[float, float] | None = None
    slips: tuple[Slip, ...] = ()

    def allows(self, value: float) -> bool:
        """Tell whether a value lies in the accepted range."""
        return self.lowest <= value <= self.highest and not (self.above and value == self.lowest)

    def likely_slips(self, typed: float) -> tuple[tuple[Slip, float], ...]:
        """Name the slips that would explain an unusual number.

        Parameters
        ----------
        typed : float
            Number as it was typed [unit].

        Returns
        -------
        tuple of (Slip, float)
            Each slip that leads to a usual and accepted value, with that value
            [unit]; empty if the number itself is usual.
        """
        if self.usual is None or self.usual[0] <= typed <= self.usual[1]:
            return ()
        return tuple(
            (slip, meant)
            for slip in self.slips
            if self.usual[0] <= (meant := slip.meant(typed)) <= self.usual[1] and self.allows(meant)
        )


PARTS = Quantity("parts", "parts", 0.0, 1e9, "a number from 0 to 1000000000")
MASS_G = Quantity("weight", "g", 0.0, 1e7, "grams from 0 to 10000000")
MASS_KG = Quantity("weight", "kg", 0.0, 1e4, "kilograms from 0 to 10000")
VOLUME_ML = Quantity("volume", "ml", 0.0, 1e7, "millilitres from 0 to 10000000")
VOLUME_L = Quantity(
    "volume", "l", 0.0, 1e4, "litres above 0 and up to 10000, such as 5", above=True
)
SLOP_SG = Quantity(
    "specific gravity of the slop",
    "sg",
    1.0,
    10.0,
    "a number above 1 and up to 10, such as 1.45",
    above=True,
    usual=(1.0, 3.0),
    slips=LOST_POINT,
)
SOLID_G_CM3 = Quantity(
    "density of the powder",
    "g_cm3",
    1.0,
    20.0,
    "g/cm\N{SUPERSCRIPT THREE} above 1 and up to 20, such as 2.6",
    above=True,
    usual=(1.5, 9.0),
    slips=LOST_POINT,
)
LENGTH_MM = Quantity(
    "length", "mm", 0.0, 1e5, "millimetres above 0 and up to 100000, such as 100", above=True
)
LENGTH_CM = Quantity("length", "cm", 0.0, 1e4, "centimetres from 0 to 10000")
AREA_DM2 = Quantity(
    "area",
    "dm2",
    0.0,
    1e5,
    "square decimetres above 0 and up to 100000, such as 8",
    above=True,
)
TEMP_C = Quantity(
    "temperature",
    "c",
    -60.0,
    2000.0,
    "\N{DEGREE SIGN}C from -60 to 2000",
    usual=(-60.0, 1450.0),
    slips=FAHRENHEIT,
)
TEMP_F = Quantity("temperature", "f", -76.0, 3632.0, "\N{DEGREE SIGN}F from -76 to 3632")
HOURS = Quantity("time", "h", 0.0, 1e5, "hours from 0 to 100000")
CLOCK_HOURS = Quantity("time", "h", -1e7, 1e7, "hours as a number, such as 2.5")
MINUTES = Quantity("time", "min", 0.0, 1e7, "minutes from 0 to 10000000")
PRESSURE_KPA = Quantity("gas pressure", "kpa", 0.0, 1000.0, "kPa from 0 to 1000, such as 8")
DAMPER_MARKS = Quantity(
    "damper", "parts", 0.0, 1000.0, "the kiln's own marks, a number from 0 to 1000"
)
PERCENT = Quantity("share", "percent", 0.0, 100.0, "per cent from 0 to 100")
DOSE_PERCENT = Quantity(
    "addition", "percent", 0.0, 1000.0, "per cent of the dry weight from 0 to 1000, such as 2"
)
FINISHED_PERCENT = Quantity(
    "addition",
    "percent",
    0.0,
    99.0,
    "per cent of the finished dry weight from 0 to 99, such as 2",
)
ANALYSIS_PERCENT = Quantity("share", "percent", 0.0, 200.0, "weight per cent from 0 to 200")
LOI_PERCENT = Quantity("loss on ignition", "percent", -100.0, 100.0, "per cent from -100 to 100")
PACKING = Quantity(
    "packing of the dry coat",
    "",
    0.0,
    1.0,
    "a share of the volume above 0 and up to 1, such as 0.5",
    above=True,
    usual=(0.2, 1.0),
    slips=(Slip(100.0, unit="percent"),),
)
