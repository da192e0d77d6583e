"""What can be asked about a brine."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.brining.contents import HEADSPACE_PERCENT, PACKING_PERCENT, Pieces, Vessel
from service.calculations.curing.brining.strengths import Hydrometer, Strength
from service.quantities.models import IfStated, Request
from service.quantities.quantity import Mass, Measure, Temperature, Water


class FinishedBrine(Request):
    """So much finished brine."""

    kind: Literal["finished_brine"]
    """The kind of amount."""
    amount: Measure
    """By weight, or by volume at the temperature of the brine."""


class WaterAtHand(Request):
    """As much brine as this water makes."""

    kind: Literal["water_at_hand"]
    """The kind of amount."""
    water: Water
    """All the water that goes in."""


class VesselWithPieces(Request):
    """As much brine as covers these pieces in this vessel."""

    kind: Literal["vessel_with_pieces"]
    """The kind of amount."""
    vessel: Vessel
    """What they lie in."""
    pieces: Pieces
    """What lies in it."""
    headspace_percent: float = Field(ge=0, le=50, default=HEADSPACE_PERCENT)
    """Share of the vessel to be left empty above the brine."""
    packing_percent: float = Field(ge=30, le=90, default=PACKING_PERCENT)
    """Share of the space under the brine that is meat; the rest is brine. 70 is a tight pack."""


class Make(Request):
    """Make a brine: what salt and water to weigh."""

    kind: Literal["make"]
    """The kind of task."""
    strength: Strength
    """How strong it is to be."""
    how_much: Annotated[FinishedBrine | WaterAtHand | VesselWithPieces, Field(discriminator="kind")]
    """How much of it."""
    temperature: IfStated[Temperature] = None
    """Temperature of the finished brine. Left out, figures are for 4 degC and nothing is said of readiness."""


class ReadHydrometer(Request):
    """Read an instrument: how strong the brine is in truth."""

    kind: Literal["read"]
    """The kind of task."""
    hydrometer: Hydrometer
    """The instrument and what it shows."""
    temperature: Temperature
    """Temperature of the brine as it is read."""


class Adjust(Request):
    """Bring a brine at hand to another strength, with water or with salt."""

    kind: Literal["adjust"]
    """The kind of task."""
    amount: Measure
    """How much brine there is."""
    strength: Strength
    """How strong it is."""
    wanted: Strength
    """How strong it is to be."""
    touched_meat: bool
    """Whether meat has been in it. If so it is thrown away, not adjusted."""
    temperature: IfStated[Temperature] = None
    """Temperature of the brine, and of what is added. Left out, figures are for 4 degC and nothing is said of
    readiness."""


class AllOfIt(Request):
    """All of the concentrate there is."""

    kind: Literal["all_of_it"]
    """The kind of amount."""
    concentrate: Measure
    """How much there is: by weight, or by volume as hot as it is."""


class Concentrate(Request):
    """The hot concentrate: all the salt in part of the water."""

    strength: Strength
    """How strong it is."""
    temperature: Temperature
    """How hot it is."""


class ToTemperature(Request):
    """Enough ice to come down to a temperature."""

    kind: Literal["to_temperature"]
    """The kind of cooling."""
    wanted: Temperature
    """Temperature to come down to. No ice is told where cold water alone goes below it."""


class WithIce(Request):
    """A stated weight of ice; the rest of what is added is cold water."""

    kind: Literal["with_ice"]
    """The kind of cooling."""
    ice: Mass
    """Weight of the ice."""


class Cool(Request):
    """Cool and thin a hot concentrate with cold water and ice."""

    kind: Literal["cool"]
    """The kind of task."""
    concentrate: Concentrate
    """What is hot."""
    how_much: Annotated[AllOfIt | FinishedBrine, Field(discriminator="kind")]
    """How much concentrate there is, or how much finished brine is wanted (a volume is that at 4 degC)."""
    wanted: Strength
    """How strong the finished brine is to be."""
    water_temperature: Temperature
    """Temperature of the cold water."""
    ice_temperature: IfStated[Temperature] = None
    """Temperature of the ice, -40 to 0 degC; left out, 0 degC: ice that is beginning to melt."""
    cooling: Annotated[ToTemperature | WithIce, Field(discriminator="kind")]
    """What decides how much ice."""


Task = Annotated[Make | ReadHydrometer | Adjust | Cool, Field(discriminator="kind")]
"""What is asked."""
