"""What a cook may do about a chain: where a point of yield is worth most, and what to weigh."""

from collections.abc import Iterator

from service.calculations.butchery.chaining.asking import LOSING
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.judging import WeightForecast
from service.calculations.butchery.chaining.refusing import stages_named
from service.calculations.butchery.chaining.telling import TellingUnit
from service.calculations.butchery.chaining.wording import told_of
from service.calculations.remarks import Advice, advise

CODES = {
    "costs_most": "The stage that takes most of the weight, and what a point of its yield is worth.",
    "test_your_own": "A yield was taken from a table: a test of your own is better.",
    "weigh_to_be_judged": "A limit is held against planned shares: weigh, and state what was weighed.",
}

MOST_TO_BETTER_PERCENT = 99.0
"""Beyond this no whole point is left to gain."""


def advice_for(chain: Chain, forecasts: tuple[WeightForecast, ...], unit: TellingUnit) -> tuple[Advice, ...]:
    """All that applies."""
    return (*_on_dearest(chain, unit), *_on_tables(chain), *_on_forecasts(forecasts))


def _on_dearest(chain: Chain, unit: TellingUnit) -> Iterator[Advice]:
    planned = [link for link in chain.links if isinstance(link.stage, LOSING) and link.weighed_g is None]
    dearest = max(planned, key=lambda link: _lost_g(chain, link.number), default=None)
    percent = 100 * chain.share(dearest.number, dearest.number - 1).typical_fraction if dearest else 100.0
    if dearest is None or percent > MOST_TO_BETTER_PERCENT:
        return
    saved = unit.weight(chain.saved_g(dearest.number))
    weight = f"{saved.value:,.12g} {saved.unit}"
    worth = f"gives the same from {weight} less" if chain.is_bought else f"saves {weight} to buy"
    yield advise(
        "costs_most",
        f"Stage {dearest.number} ({told_of(dearest.stage)}) takes most. One point more left there, {percent + 1:.4g} "
        f"in place of {percent:.4g} percent, {worth}.",
    )


def _on_tables(chain: Chain) -> Iterator[Advice]:
    taken = [link.number for link in chain.links if link.taken]
    if taken:
        yield advise(
            "test_your_own",
            f"The share of {stages_named(taken)} was taken from a table. Weigh before and after on the same scale, and "
            "state both with kind own_test.",
        )


def _on_forecasts(forecasts: tuple[WeightForecast, ...]) -> Iterator[Advice]:
    if forecasts:
        yield advise("weigh_to_be_judged", WEIGH)


def _lost_g(chain: Chain, number: int) -> float:
    return chain.points[number - 1].typical_g - chain.points[number].typical_g


WEIGH = (
    "A plan proves nothing to an inspector. Weigh the fresh piece, drain and weigh it out of the cure, weigh it "
    "finished, and state those weights with a task of bought."
)
