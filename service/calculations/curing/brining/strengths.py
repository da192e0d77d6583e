"""How strong a brine is to be, or is said to be, on the scale that the caller has."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import IfStated, Request
from service.quantities.quantity import Temperature


class PercentByWeight(Request):
    """Salt in percent of the weight of the brine: 10 is 10 g of salt and 90 g of water."""

    kind: Literal["percent_by_weight"]
    """The kind of scale."""
    salt_percent: float = Field(ge=0.1, le=26.395)
    """Percent by weight, up to saturation at 60 degF."""


class Salometer(Request):
    """Degrees of the standard salometer, with the brine at 60 degF: 100 is saturation, 26.395 percent."""

    kind: Literal["salometer"]
    """The kind of scale."""
    deg: float = Field(ge=0.5, le=100)
    """Degrees salometer."""


class GramsPerLitre(Request):
    """Salt in a litre of finished brine. To a litre of water, state percent_by_weight instead."""

    kind: Literal["grams_per_litre"]
    """The kind of scale."""
    salt_g_per_l: float = Field(ge=1, le=318)
    """Grams in a litre."""
    measured_at: IfStated[Temperature] = None
    """Temperature of the brine when the litre is measured; left out, 20 degC."""


class SpecificGravity(Request):
    """Specific gravity, read on an instrument for 60/60 degF."""

    kind: Literal["specific_gravity"]
    """The kind of scale."""
    ratio: float = Field(ge=1, le=1.21)
    """As it stands on the scale: 1.078. A warm weak brine may stand at 1.000, where the scale begins."""
    read_at: Temperature
    """Temperature of the brine when it is read."""


class Baume(Request):
    """Degrees Baume, American scale, read on an instrument for 60 degF."""

    kind: Literal["baume"]
    """The kind of scale."""
    deg: float = Field(ge=0, le=25)
    """Degrees Baume."""
    read_at: Temperature
    """Temperature of the brine when it is read."""


Strength = Annotated[PercentByWeight | Salometer | GramsPerLitre | SpecificGravity | Baume, Field(discriminator="kind")]
"""A strength, on any of five scales."""
