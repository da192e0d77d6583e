"""Salometers and hydrometers: how they are graded, and what they show."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import Request

GradedAt = Literal["60_degF", "38_degF", "20_degC"]
"""The temperature for which an instrument is graded, as it stands on its stem."""


READ_PERCENT = 0.3
"""How far a strength that was read may be off, in percent of salt by weight: a division of a salometer (own bound)."""


class SalometerReading(Request):
    """What a salometer shows."""

    kind: Literal["salometer"]
    """The kind of scale."""
    deg: float = Field(ge=0, le=110)
    """Degrees as they are read."""
    graded_at: GradedAt = "60_degF"
    """The temperature on its stem. Some for the meat trade are graded at 38 degF."""
    full_scale: Literal["saturated", "25_percent"] = "saturated"
    """What 100 degrees mean: saturation (26.395 percent), or 25 percent as on some canners' instruments."""


class GravityReading(Request):
    """What a hydrometer shows."""

    kind: Literal["specific_gravity"]
    """The kind of scale."""
    ratio: float = Field(ge=1, le=1.25)
    """As it is read."""
    graded_at: GradedAt = "60_degF"
    """The temperature on its stem, of the brine and of the water it is held against (60/60 degF, 20/20 degC)."""


class BaumeReading(Request):
    """What a Baume hydrometer (American scale, 60 degF) shows."""

    kind: Literal["baume"]
    """The kind of scale."""
    deg: float = Field(ge=0, le=29)
    """Degrees as they are read."""


Hydrometer = Annotated[SalometerReading | GravityReading | BaumeReading, Field(discriminator="kind")]
"""An instrument, and what it shows."""
