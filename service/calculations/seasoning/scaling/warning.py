"""Which cautions belong to a scaled recipe: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.curing.warning import COARSE_SHARE
from service.calculations.seasoning.scaling.at_hand import VesselAtHand
from service.calculations.seasoning.scaling.known import WATER
from service.calculations.seasoning.scaling.reckoning import Recipe


def cautions_for(recipe: Recipe) -> Iterator[str]:
    """Every caution whose trigger holds."""
    if recipe.spooned_salts:
        yield "weigh-not-spoon"
    if recipe.off_on_scale(COARSE_SHARE):
        yield "coarse-scale"
    if any(line.key == WATER and line.by_measure for line in recipe.lines):
        yield "weigh-ice"
    if recipe.salting.water and any(isinstance(held.asked, VesselAtHand) for held in recipe.held):
        yield from ("hot-brine", "no-brine-reuse", "foil-salt-acid")
    if recipe.seasoned:
        yield "allergens"
    yield from ("raw-meat-hygiene", "local-code")
