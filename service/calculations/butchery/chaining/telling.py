"""What is told of a chain: every weight and share with its two sides, rounded so that no band grows narrower."""

from math import ceil, floor
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import CookStage, OtherStage
from service.calculations.butchery.chaining.bands import CarriedWeight, Share
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.links import Link, Origin
from service.quantities.bands import OUNCES_PER_POUND, WeightBand
from service.quantities.models import Answer, made
from service.quantities.quantity import G_PER_OZ, Units, Weight
from service.quantities.units import MassUnit
from service.rules.cut import WeightStage

PERCENT_STEPS = 100
"""Hundredths of a percent are told."""
HUNDREDTHS = 100 * PERCENT_STEPS
SLACK = 1e-6
"""Of a step: floating-point noise does not widen a band."""


class ShareBand(Answer):
    """A share between two sides, with both of its weights named."""

    low: float
    """The least; rounded down."""
    typical: float
    """What is usual."""
    high: float
    """The most; rounded up."""
    unit: Literal["percent"]
    """Percent."""
    part: WeightStage
    """The weight that is a part."""
    of_weight: WeightStage
    """The weight that it is a part of."""


class StageTold(Answer):
    """One stage, and what is there after it."""

    number: int
    """Its place, from 1."""
    stage: Literal["trim", "cure", "cook", "chill", "slice", "other"]
    """Which stage."""
    name: str | None
    """How it is cooked, or what another stage is called."""
    share_from: Origin
    """stated, own_test, weighed; cut (published for the cut) or usual: then it stands in defaults with its source."""
    weight: WeightBand
    """The weight after it."""
    planned: WeightBand | None
    """What the share that is stated would have left; null where the batch was not weighed, or no share is stated."""
    left: ShareBand
    """Of the weight that entered."""
    lost: WeightBand
    """What this stage takes; below zero it adds."""
    of_purchased: ShareBand
    """Of the weight that was bought."""
    of_green: ShareBand | None
    """Of the fresh trimmed weight; null before it, and where nothing says what that was."""
    a_point_saves: Weight | None
    """What one more point of yield here saves to buy, for the same end; null where the batch was weighed."""


class TellingUnit(NamedTuple):
    """The unit that all weights of one answer are told in, and how finely."""

    unit: MassUnit
    unit_g: float
    steps: int
    """Parts of the unit that are told."""

    def band(self, least_g: float, *, typical_g: float, most_g: float) -> WeightBand:
        """A weight between two sides."""
        steps, unit_g = self.steps, self.unit_g
        return made(
            WeightBand,
            low=floor(least_g / unit_g * steps + SLACK) / steps,
            typical=round(typical_g / unit_g * steps) / steps,
            high=ceil(most_g / unit_g * steps - SLACK) / steps,
            unit=self.unit,
        )

    def weight(self, mass_g: float) -> Weight:
        """One weight."""
        return made(Weight, value=round(mass_g / self.unit_g * self.steps) / self.steps, unit=self.unit)


GRAMS, OUNCES = TellingUnit("g", 1.0, 10), TellingUnit("oz", G_PER_OZ, 100)
POUNDS = TellingUnit("lb", OUNCES_PER_POUND * G_PER_OZ, 1000)


def unit_for(units: Units, heaviest_g: float) -> TellingUnit:
    """CarriedWeight; pounds from a pound on, else ounces."""
    if units == "metric":
        return GRAMS
    return POUNDS if heaviest_g >= POUNDS.unit_g else OUNCES


def band_of(weight: CarriedWeight, unit: TellingUnit) -> WeightBand:
    """A weight as it is told."""
    return unit.band(weight.low_g, typical_g=weight.typical_g, most_g=weight.high_g)


def stages_told(chain: Chain, unit: TellingUnit) -> tuple[StageTold, ...]:
    """Every stage in its order."""
    return tuple(_stage(link, chain, unit) for link in chain.links)


def _stage(link: Link, chain: Chain, unit: TellingUnit) -> StageTold:
    here, stage = link.number, link.stage
    leaving = chain.share(here, here - 1)
    left = _share(leaving, link.left, link.of)
    name = stage.method if isinstance(stage, CookStage) else stage.name if isinstance(stage, OtherStage) else None
    return made(
        StageTold,
        number=here,
        stage=stage.kind,
        name=name,
        share_from=link.origin,
        weight=band_of(chain.points[here], unit),
        planned=None if link.planned is None else band_of(chain.points[here - 1].after(link.planned), unit),
        left=left,
        lost=_lost(chain, here, leaving, unit),
        of_purchased=_share(chain.share(here, 0), link.left, "as_purchased"),
        of_green=_of_green(chain, link, left),
        a_point_saves=None if link.weighed_g is not None else unit.weight(chain.saved_g(here)),
    )


def _of_green(chain: Chain, link: Link, left: ShareBand) -> ShareBand | None:
    """Of the fresh trimmed weight; where that is what entered, it is what is left."""
    green = chain.green
    if green is None or link.number < green:
        return None
    if link.number - 1 == green:
        return left
    fresh = chain.links[green].of if green < len(chain.links) else link.left
    return _share(chain.share(link.number, green), link.left, fresh)


def _share(share: Share, part: WeightStage, of: WeightStage) -> ShareBand:
    return made(
        ShareBand,
        low=floor(HUNDREDTHS * share.low_fraction + SLACK) / PERCENT_STEPS,
        typical=round(HUNDREDTHS * share.typical_fraction) / PERCENT_STEPS,
        high=ceil(HUNDREDTHS * share.high_fraction - SLACK) / PERCENT_STEPS,
        unit="percent",
        part=part,
        of_weight=of,
    )


def _lost(chain: Chain, here: int, share: Share, unit: TellingUnit) -> WeightBand:
    """Whatever enters and whatever share is left: of all four combinations the least and the most."""
    link, entering, leaving = chain.links[here - 1], chain.points[here - 1], chain.points[here]
    if link.weighed_g is not None:
        ends = [entering.low_g - leaving.low_g, entering.high_g - leaving.low_g]
    elif chain.is_bought:
        ends = [mass_g * (1 - left) for mass_g in entering[::2] for left in share[::2]]
    else:
        ends = [mass_g * (1 / left - 1) for mass_g in leaving[::2] for left in share[::2]]
    return unit.band(min(ends), typical_g=entering.typical_g - leaving.typical_g, most_g=max(ends))
