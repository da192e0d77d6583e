"""What can be asked about a brine."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.brining.how_much import AllOfIt, FinishedBrine, VesselWithPieces, WaterAtHand
from service.calculations.curing.brining.instruments import Hydrometer
from service.calculations.curing.brining.strengths import Strength
from service.quantities.models import IfStated, Request
from service.quantities.quantity import Mass, Measure, Temperature


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
    """Temperature of the brine, and of what is added. Left out, figures are for 4 degC, a stated volume is that at the
    read_at of its strength, and nothing is said of readiness."""


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
