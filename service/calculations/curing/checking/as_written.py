"""A recipe as people write it: by weight or by spoon, with whatever was left out left out."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.methods import Comminuted, Dry, Equilibrium, PickUp
from service.calculations.curing.salts import AcceleratorKind, Nitrate, Nitrite
from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Mass, Measure, Water

StatedPercent = Annotated[float, Field(ge=0.001, le=100)]
"""Percent by weight, 0.001 to 100. Wider than a dose takes, so that a mistake can be recognised and named."""
StatedUptake = Annotated[float, Field(ge=0.01, le=100)]
"""Percent of the piece as weighed, 0.01 to 100. Under 4 it is not credited."""
Share = Annotated[float, Field(ge=0, le=100)]

HowMany = Annotated[float, Field(ge=0.1, le=10_000)]

LEAST_UPTAKE_PERCENT = 4.0
MOST_UPTAKE_PERCENT = 60.0
"""What a dose takes as a pump or a pick-up (own bounds): a pick-up that is not stated may be anything between."""


class WrittenNitrite(Nitrite):
    """Nitrite on a label."""

    percent: StatedPercent
    """Percent by weight on the label: 6.25 for the usual strong salt, 0.5 for a nitrited salt, 100 for neat nitrite."""


class WrittenNitrate(Nitrate):
    """Nitrate on a label."""

    percent: StatedPercent
    """Percent by weight on the label; 100 for saltpetre."""


class Label(Request):
    """What the label of a curing salt says. What it does not name is not in it."""

    nitrite: IfStated[WrittenNitrite] = None
    """Its nitrite; left out, there is none in it."""
    nitrate: IfStated[WrittenNitrate] = None
    """Its nitrate; left out, there is none in it."""
    sugar_percent: Share = 0
    """Sugar in it, percent by weight."""
    other_percent: Share = 0
    """What is neither salt, sugar, nitrite nor nitrate, percent by weight."""
    strength_on_label: bool = False
    """You have read a nitrite strength above 6.25 percent on the label itself."""

    @property
    def nitrite_fraction(self) -> float:
        return self.nitrite.percent / 100 if self.nitrite else 0.0

    @property
    def nitrate_fraction(self) -> float:
        return self.nitrate.percent / 100 if self.nitrate else 0.0

    @property
    def named_fraction(self) -> float:
        """Everything that the label names beside salt."""
        return self.nitrite_fraction + self.nitrate_fraction + (self.sugar_percent + self.other_percent) / 100

    @property
    def salt_fraction(self) -> float:
        """Sodium chloride: what the rest of the label leaves."""
        return max(1 - self.named_fraction, 0.0)


class WrittenCuringSalt(Request):
    """A curing salt in the recipe: its label and how much of it."""

    name: IfStated[Name] = None
    """What the recipe calls it. A name proves nothing: the label decides."""
    label: IfStated[Label] = None
    """Its composition; left out, it is not known, and nothing can be said of its nitrite."""
    amount: IfStated[Measure] = None
    """How much, by weight or by spoon; a spoon gives a range. Left out, it is not known."""


class WrittenAccelerator(Request):
    """A cure accelerator in the recipe."""

    kind: AcceleratorKind
    """What is in the bag."""
    amount: Mass
    """How much, as weighed."""


class Pieces(Request):
    """So many of a thing: cloves, leaves, sticks."""

    count: HowMany
    """How many."""


class RecipeLine(Request):
    """Anything else in the recipe: salt, sugar, spice, stock powder, honey."""

    ingredient: Name
    """Its id at GET /v1/ingredients, or your own name for it."""
    amount: Measure | Pieces
    """By weight, by volume, or in pieces. A volume or a piece of what is not listed has to be weighed."""
    salt_percent: IfStated[Share] = None
    """Salt in it by its label (sodium x 2.54), for what is not listed or where the label says otherwise."""
    dissolves: IfStated[bool] = None
    """Whether it dissolves in the pickle or is mixed into the batch; for what is not listed."""


class WrittenImmersion(Request):
    """The piece lies in a pickle."""

    kind: Literal["immersion"]
    """The method."""
    water: IfStated[Water] = None
    """Water of the pickle; left out, it is not known."""
    basis: IfStated["WrittenBasis"] = None
    """How it is taken out; left out, both official readings are shown side by side."""


class WrittenPump(Request):
    """Pickle is pumped, stitched or massaged in; what is not pumped is thrown away."""

    kind: Literal["injected"]
    """The method."""
    pump_percent: IfStated[StatedUptake] = None
    """Pickle that stays in: (pumped - raw) / raw x 100; left out, it is not known."""
    water: IfStated[Water] = None
    """Water of the pickle; left out, it is not known."""


class WrittenPumpThenCover(Request):
    """Pumped first, then covered with the rest of the same pickle."""

    kind: Literal["injected_then_covered"]
    """The method."""
    pump_percent: IfStated[StatedUptake] = None
    """Pickle that stays in; left out, it is not known."""
    water: IfStated[Water] = None
    """Water of all the pickle; left out, it is not known."""
    cover: IfStated["WrittenBasis"] = None
    """How the second step is reckoned; left out, both official readings are shown side by side."""


class WrittenPickUp(PickUp):
    """The piece takes up a stated weight of pickle and is taken out."""

    percent: StatedUptake
    """Pickle taken up, percent of the raw piece, weighed drained."""


WrittenBasis = Annotated[Equilibrium | WrittenPickUp, Field(discriminator="kind")]

WrittenMethod = Annotated[
    Dry | Comminuted | WrittenImmersion | WrittenPump | WrittenPumpThenCover, Field(discriminator="kind")
]


class Weights(Request):
    """What the scale said afterwards."""

    cured: IfStated[Mass] = None
    """The piece out of the cure, drained."""
    finished: IfStated[Mass] = None
    """The piece as it is sold, smoked or cooked."""
    smallest_piece: IfStated[Mass] = None
    """The lightest piece when it was cured."""
