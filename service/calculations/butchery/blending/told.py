"""What is told of a blend."""

from typing import Literal

from service.calculations.butchery.blending.choosing import ChosenBy
from service.calculations.butchery.blending.limits import InItsUnit, LimitBound, LimitCode, LimitUnit
from service.calculations.butchery.blending.sorting import OutBefore
from service.quantities.models import Answer
from service.quantities.money import Money
from service.quantities.quantity import Weight
from service.rules.vocabulary import Animal

OutAfter = Literal["too_dear", "no_price_helps", "as_good", "not_needed"]


class BlendItem(Answer):
    """One material of the block."""

    name: str
    """Your name for it."""
    animal: Animal
    """What it is of."""
    amount: Weight
    """What to weigh: in the unit of the scale, where one is stated."""
    exact_g: float
    """The same in grams."""
    share_percent: float
    """Percent of the block."""
    cost: Money | None
    """What it costs; null where no prices are stated."""


class BlockTotal(Answer):
    """The whole block."""

    weight: Weight
    """All of it, before salt, water and seasoning."""
    exact_g: float
    """The same in grams."""
    cost: Money | None
    """What it costs; null where no prices are stated."""
    cost_of_one: Money | None
    """What a kilogram of it costs, in us units a pound, to four decimals."""
    per: Literal["kg", "lb"]
    """For which of the two that is."""


class BlockComposition(Answer):
    """What the block holds, worked out from what its materials state."""

    fat_percent: float
    """Fat."""
    protein_percent: float | None
    """Protein; null where a material that is used does not state it."""
    moisture_percent: float | None
    """Water, likewise."""
    salt_percent: float
    """Salt that is inside already."""
    moisture_to_protein_ratio: float | None
    """Water to protein; null where one of them is not known."""


class AnimalShare(Answer):
    """One animal of the block."""

    animal: Animal
    """Which."""
    share_percent: float
    """Percent of the block."""


class SavingTold(Answer):
    """What moving a limit saves."""

    by: Literal["raising", "lowering"]
    """Which way the limit is moved."""
    for_one: Money
    """Saved on the block for each percent, 1.0 of a ratio, kilogram or pound that the limit is moved, at this rate."""
    holds_to: InItsUnit | None
    """The rate holds at least until the limit is there; null in brief, and where that was not shown."""


class LimitTold(Answer):
    """One limit, with what the blend as weighed comes to."""

    code: LimitCode
    """Stable code of what is limited."""
    words: str
    """The same in words."""
    place: str
    """Where the request states it; empty for a limit of the law."""
    rule: str | None
    """Id of the rule, for a limit of the law."""
    bound: LimitBound
    """at_most, at_least or exactly."""
    value: float
    """The limit, in the unit beside it."""
    figure: float | None
    """What the blend comes to; null for a ratio to nothing. Of a limit of the law, what its finding says."""
    unit: LimitUnit
    """Unit of both."""
    tolerance: float
    """How far rounding to the scale, or the solver, may have moved the figure past the limit; the law gives no room."""
    binds: bool
    """Whether the blend lies at the limit before rounding."""
    saving: SavingTold | None
    """What moving it saves; null where that is nothing, or no prices are stated."""


class LeftOutMaterial(Answer):
    """A material that is not used, and why."""

    name: str
    """Your name for it."""
    code: OutBefore | OutAfter
    """Stable code of the reason."""
    text: str
    """The same in a sentence."""
    comes_in_below: Money | None
    """For one kilogram, in us units one pound: cheaper than this it would be used. Null where price does not decide."""


class NextBestTold(Answer):
    """The cheapest blend that leaves out one of the materials that are used."""

    without: str
    """The material that it leaves out."""
    costs_more: Money
    """How much more it costs than the blend that is taken, before rounding to the scale."""
    cost: Money
    """What it costs."""
    weigh: tuple[BlendItem, ...]
    """What it consists of, before rounding to the scale."""


class ChosenBlend(Answer):
    """How the blend was chosen."""

    by: ChosenBy
    """least_cost; without prices only_blend where there is no other, else what decides first between several."""
    only_one: bool
    """Whether no other blend does as well: is as cheap or, without prices, keeps every limit."""
    text: str
    """The same in a sentence."""
