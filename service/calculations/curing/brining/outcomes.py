"""What comes of a task, before it is told: the brine, what to weigh for it, and the arithmetic."""

from dataclasses import dataclass
from typing import Literal

from service.calculations.curing.brining.root import Number
from service.calculations.curing.brining.told import ToldLevel, ToldTemperature
from service.quantities.models import Answer
from service.quantities.quantity import Weight

What = Literal["salt", "water", "ice", "brine", "concentrate"]


class HydrometerResult(Answer):
    """What an instrument shows, and what that is in truth."""

    shown_percent: float
    """Salt by weight as the marks have it, if the brine were at the temperature of the stem."""
    shown_salometer_deg: float
    """The same in degrees of the standard salometer."""
    correction_deg: float
    """True less shown, in degrees of the standard salometer: negative in a brine colder than the stem says."""
    instrument: str
    """How the instrument was taken to be graded. Hold it against its stem."""


class CoolingResult(Answer):
    """What comes of hot concentrate, cold water and ice."""

    temperature: ToldTemperature
    """Temperature once the ice has melted and all is stirred; vessel and room are not counted."""
    without_ice: ToldTemperature
    """Temperature if all that is added were cold water."""
    coldest: ToldTemperature
    """The coldest that ice can make it: with the weight below."""
    most_ice: Weight
    """As much ice as there is room for beside the salt, and melts."""
    ice_share_percent: float
    """Share of what is added that is ice."""


class VesselResult(Answer):
    """How pieces and brine stand in the vessel."""

    holds: Weight
    """The vessel to the brim."""
    brine_to_cover: Weight
    """Brine that covers the pieces."""
    level: ToldLevel | None
    """How high the brine stands with the pieces in it; null where no floor is known (known_volume). It reaches at least
    over a compact piece; a bulky or hollow one needs more."""
    headspace: Weight
    """Room left above the brine."""
    headspace_percent: float
    """The same as a share of the vessel."""
    floats: bool
    """Whether the pieces are lighter than the brine and must be held under."""
    above_brine_percent: float
    """How much of a piece would stand out of the brine; 0 where it sinks."""
    hold_down: Weight | None
    """Weight, as felt in the brine, that holds all of them under; null where they sink."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a task comes to, in grams and degrees Celsius."""

    salt_fraction: Number
    temperature_c: Number
    stated: bool
    """Whether the temperature was stated or worked out, so that readiness can be told."""
    mass_g: Number | None
    items: tuple[tuple[What, Number], ...]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    reading: HydrometerResult | None = None
    cooling: CoolingResult | None = None
    vessel: VesselResult | None = None
