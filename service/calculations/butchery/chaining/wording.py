"""Stages and weights in words."""

from service.calculations.butchery.chaining.asking import CookStage, Stage
from service.rules.cut import WeightStage

RAW_FINISHES = ("fresh", "matured")
"""How a product is finished that is sold without being cooked."""


def told_of(stage: Stage) -> str:
    """A stage in words."""
    if isinstance(stage, CookStage):
        return stage.method.replace("_", "-")
    return stage.name if stage.kind == "other" else stage.kind


def plain(of: WeightStage) -> str:
    """A weight in words."""
    return of.replace("as_purchased", "purchased")
