"""Which cautions belong to a chain: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.chaining.asking import BoughtAs, ChillStage, CureStage, SliceStage, TrimStage
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.judging import WeightForecast
from service.rules.finding import Finding


def chain_cautions(
    chain: Chain, begins: BoughtAs, findings: tuple[Finding, ...], forecasts: tuple[WeightForecast, ...]
) -> Iterator[str]:
    """Every caution whose trigger holds."""
    stages = [link.stage for link in chain.links]
    if any(isinstance(stage, CureStage) for stage in stages):
        yield "pump-is-no-dose"
    if chain.is_cooked:
        yield "yield-is-not-doneness"
    if chain.is_cooked and any(isinstance(stage, ChillStage) for stage in stages):
        yield "spores-survive"
    if any(isinstance(stage, TrimStage | SliceStage) for stage in stages):
        yield "sharp-knives"
    if begins != "cooked":
        yield "raw-meat-hygiene"
    yield from (id for one in findings for id in one.cautions)
    yield from (id for one in forecasts for id in one.cautions)
    yield "local-code"
