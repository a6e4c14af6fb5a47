"""What a powder is made of: its analysis, as core calculations take it.

An analysis comes from the potter's own sheet or from the built-in library.
Either way it is the same kind of thing afterwards, and it keeps its standing.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import fsum

from wareboard.core.bounds import within
from wareboard.core.errors import CompositionError, CoreError, DensityError
from wareboard.core.units import ANALYSIS_PERCENT, LOI_PERCENT, SOLID_G_CM3, Quantity
from wareboard.refdata import materials
from wareboard.refdata.loading import Standing, UnknownNameError
from wareboard.refdata.oxides import GASES, OXYGEN_FOR_FLUORINE, all_oxides

LOI = "LOI"
"""Column of the loss on ignition in a sheet, and its key in ``sd_percent``."""

_DOUBT_G_CM3 = Quantity("doubt of the density", "g_cm3", 0.0, 10.0, "g/cm³ from 0 to 10")
_PARTS_OF_LOI = ("CO2", "H2O")


@dataclass(frozen=True)
class Analysis:
    """What one powder is made of.

    Attributes
    ----------
    id : str
        Key of the material or of the lot.
    oxides : mapping of str to float
        Oxides, and fluorine as ``"F"`` [weight per cent]. May add up to more
        than 100 where the powder takes up oxygen in the fire.
    loi_percent : float or None
        Loss on ignition [weight per cent], fluorine and sulphur trioxide not
        included; negative where the powder gains; None where the sheet is
        silent.
    density_g_cm3 : float or None
        Density of the solid [g cm⁻³]; None where the sheet is silent.
    standing : Standing
        How far the analysis can be trusted.
    density_standing : Standing
        How far the density can be trusted.
    name : str
        For people; the id stands in where it is empty.
    sd_percent : mapping of str to float
        Standard deviations that are known [weight per cent], by oxide and
        ``"LOI"``.
    density_sd_g_cm3 : float or None
        Standard deviation of the density where it is known [g cm⁻³].
    source : str
        Key of the source, empty for the potter's own sheet.

    Raises
    ------
    CompositionError
        If an oxide is unknown, or an amount or a deviation cannot be.
    DensityError
        If the density is not that of a solid.

    Examples
    --------
    >>> Analysis("chalk", {"CaO": 56.03}, loi_percent=43.97).called
    'chalk'
    """

    id: str
    oxides: Mapping[str, float]
    loi_percent: float | None = None
    density_g_cm3: float | None = None
    standing: Standing = Standing.GIVEN
    density_standing: Standing = Standing.GIVEN
    name: str = ""
    sd_percent: Mapping[str, float] = field(default_factory=dict)
    density_sd_g_cm3: float | None = None
    source: str = ""

    def __post_init__(self) -> None:
        """Refuse what cannot be."""
        for oxide, percent in self.oxides.items():
            self._hold(percent, ANALYSIS_PERCENT, field=known_oxide(oxide))
        for key, deviation in self.sd_percent.items():
            self._hold(deviation, ANALYSIS_PERCENT, field=key)
        if self.loi_percent is not None:
            self._hold(self.loi_percent, LOI_PERCENT, field=LOI)
        if self.density_g_cm3 is not None:
            self._hold(self.density_g_cm3, SOLID_G_CM3, field="density_g_cm3", error=DensityError)
        if self.density_sd_g_cm3 is not None:
            self._hold(
                self.density_sd_g_cm3, _DOUBT_G_CM3, field="density_sd_g_cm3", error=DensityError
            )

    @property
    def called(self) -> str:
        """The name for people: the name, or the id where there is none."""
        return self.name or self.id

    @property
    def loss_percent(self) -> float:
        """Everything that leaves in the fire [weight per cent].

        Loss on ignition, fluorine less the oxygen that takes its place, and
        sulphur trioxide. Water and carbon dioxide given by name are parts of
        the loss on ignition and count only where the sheet gives none.
        """
        fluorine = self.oxides.get("F", 0.0)
        gases = [fluorine, -fluorine * OXYGEN_FOR_FLUORINE, self.oxides.get("SO3", 0.0)]
        if self.loi_percent is None:
            gases += [self.oxides.get(gas, 0.0) for gas in _PARTS_OF_LOI]
        else:
            gases.append(self.loi_percent)
        return fsum(gases)

    @property
    def kept(self) -> Mapping[str, float]:
        """The oxides that stay in the fired glaze [weight per cent]."""
        return {
            oxide: percent
            for oxide, percent in self.oxides.items()
            if percent > 0.0 and oxide not in GASES
        }

    @property
    def total_percent(self) -> float:
        """What stays and what leaves, together: 100 in a perfect analysis."""
        return fsum([*self.kept.values(), self.loss_percent])

    def _hold(
        self,
        value: float,
        quantity: Quantity,
        *,
        field: str,
        error: type[CoreError] = CompositionError,
    ) -> None:
        """Raise the error unless the quantity allows the value."""
        name = f"{field.removesuffix('_g_cm3').replace('_', ' ')} of {self.called}"
        within(value, quantity, field=field, name=name, error=error)


def known_oxide(oxide: str) -> str:
    """Give the oxide back, or say that it is none.

    Parameters
    ----------
    oxide : str
        Formula such as ``"CaO"``.

    Returns
    -------
    str
        The same.

    Raises
    ------
    CompositionError
        If it is not among the oxides that a glaze is counted in.
    """
    if oxide not in all_oxides():
        raise CompositionError(
            f"{oxide} is not an oxide that can be counted here.",
            field=oxide,
            seen=oxide,
            accepted=", ".join(all_oxides()),
        )
    return oxide


def analysis_of(material_id: str, own: Mapping[str, Analysis] | None = None) -> Analysis:
    """Find a material by its id.

    Parameters
    ----------
    material_id : str
        Id of the material.
    own : mapping of str to Analysis, optional
        The potter's own sheets by id; they win over the library.

    Returns
    -------
    Analysis
        From the own sheets, else from the built-in library.

    Raises
    ------
    CompositionError
        If neither has it.

    Examples
    --------
    >>> analysis_of("calcite_ideal").oxides["CaO"]
    56.029
    """
    if own is not None and material_id in own:
        return own[material_id]
    try:
        found = materials.material(material_id)
    except UnknownNameError as error:
        raise CompositionError(
            str(error),
            field="material",
            seen=material_id,
            accepted="the id of a material of the library, or of one of your own sheets",
        ) from error
    return Analysis(
        id=found.id,
        oxides=found.oxides,
        loi_percent=found.loi_percent,
        density_g_cm3=found.density_g_cm3,
        standing=found.analysis_standing,
        density_standing=found.density_standing or found.analysis_standing,
        name=found.name,
        source=materials.TABLE,
    )
