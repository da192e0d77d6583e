"""What holds the brine, and the pieces that are to lie in it."""

from math import cbrt, pi
from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import HowMany, Request
from service.quantities.quantity import Length, Mass, Volume

RAW_MEAT_KG_PER_L = 1.06
"""Raw lean meat: 1.0635 to 1.0672 in a review of meat technology, less with fat (reported)."""
HEADSPACE_PERCENT = 10.0
"""Room left above the brine (common practice, no source)."""
PACKING_PERCENT = 65.0
"""How much of the space under the brine is meat. 4 1/2 gal of water to 100 lb, as farm bulletins have it (from memory),
is 70 for a tight pack; pieces of odd shapes lie looser (common practice, no source)."""

MM3_PER_L = 1e6


class KnownVolume(Request):
    """A vessel whose volume is known."""

    kind: Literal["known_volume"]
    """The kind of vessel."""
    volume: Volume
    """What it holds to the brim."""

    @property
    def inside_l(self) -> float:
        return self.volume.ml / 1000

    @property
    def floor_mm2(self) -> None:
        return None


class Round(Request):
    """A bucket or a barrel, measured inside."""

    kind: Literal["round"]
    """The kind of vessel."""
    diameter: Length
    """Across, inside; the mean where it tapers."""
    height: Length
    """From the bottom to the brim, inside."""

    @property
    def inside_l(self) -> float:
        return self.floor_mm2 * self.height.mm / MM3_PER_L

    @property
    def floor_mm2(self) -> float:
        return pi / 4 * self.diameter.mm**2


class Rectangular(Request):
    """A tub or a lug, measured inside."""

    kind: Literal["rectangular"]
    """The kind of vessel."""
    length: Length
    """Inside."""
    width: Length
    """Inside."""
    height: Length
    """From the bottom to the brim, inside."""

    @property
    def inside_l(self) -> float:
        return self.floor_mm2 * self.height.mm / MM3_PER_L

    @property
    def floor_mm2(self) -> float:
        return self.length.mm * self.width.mm


Vessel = Annotated[KnownVolume | Round | Rectangular, Field(discriminator="kind")]
"""What the brine is in."""


class Pieces(Request):
    """The meat that is to be covered."""

    number: HowMany
    """How many pieces."""
    total: Mass
    """What they weigh together."""
    density_kg_per_l: float = Field(ge=0.85, le=1.3, default=RAW_MEAT_KG_PER_L)
    """Of the raw meat: lean about 1.06, a fat belly about 1.0."""

    @property
    def volume_l(self) -> float:
        return self.total.g / 1000 / self.density_kg_per_l

    @property
    def thickness_mm(self) -> float:
        """Least thickness of one that is as compact as can be: a cube."""
        return cbrt(self.volume_l / self.number * MM3_PER_L)
