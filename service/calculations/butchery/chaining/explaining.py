"""The arithmetic of a chain in lines a person can follow, and where its shares are printed."""

from collections.abc import Iterator

from service.calculations.butchery.chaining.asking import PortionsWanted, Task
from service.calculations.butchery.chaining.bands import CarriedWeight, Share
from service.calculations.butchery.chaining.buying import PieceOption
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.defaults import method_of
from service.calculations.butchery.chaining.judging import WeightForecast
from service.calculations.butchery.chaining.links import Link
from service.calculations.butchery.chaining.wording import plain, told_of
from service.rules.finding import Finding

FORMULA_SOURCE = (
    "Yield tests of textbooks on food cost: weight left = weight before x yield; to buy = wanted / yield (reported)"
)


def steps_of(task: Task, chain: Chain, pieces: tuple[PieceOption, ...]) -> tuple[str, ...]:
    """A line each: the task, every stage, all together, whole pieces."""
    return tuple(_steps(task, chain, pieces))


def _steps(task: Task, chain: Chain, pieces: tuple[PieceOption, ...]) -> Iterator[str]:
    if isinstance(task, PortionsWanted):
        yield f"{task.how_many} portions x {task.portion.g:,.6g} g = {chain.points[-1].typical_g:,.7g} g to be sold."
    for link in chain.links:
        yield from _subtracted(link)
    yield from _forwards(chain) if chain.is_bought else _backwards(chain)
    whole = chain.share(len(chain.links), 0)
    yield (
        f"All stages together leave {_percents(whole)} of what is bought: every low figure together, every high figure "
        "together, so that any combination lies between."
    )
    for one in pieces:
        told = ", ".join(f"{each.pieces} ({each.case})" for each in one.buy)
        yield f"In whole pieces of {one.low.value:g} to {one.high.value:g} {one.high.unit}, rounded up last: {told}."


def _forwards(chain: Chain) -> Iterator[str]:
    for link in chain.links:
        before, after = chain.points[link.number - 1], chain.points[link.number]
        if link.weighed_g is not None:
            yield f"{_named(link)}: {_grams(after)} weighed; the chain goes on from that."
        else:
            yield f"{_named(link)}: {_grams(before)} x {_percents(link.share)} = {_grams(after)}, {_basis(link)}."


def _backwards(chain: Chain) -> Iterator[str]:
    for link in reversed(chain.links):
        before, after = chain.points[link.number - 1], chain.points[link.number]
        yield f"{_named(link)}: {_grams(after)} / {_percents(link.share)} = {_grams(before)} to enter, {_basis(link)}."


def _subtracted(link: Link) -> Iterator[str]:
    """What comes off, source by source, where a share was worked out from it."""
    for span in link.taken.spans if link.taken else ():
        if span.comes_off:
            parts = " - ".join(
                f"{_ends(one.low_percent, high_percent=one.high_percent)} ({method_of(one)})" for one in span.readings
            )
            told = f"100 - {parts} = {_ends(span.low_percent, high_percent=span.high_percent)} percent left"
            yield f"{_named(link)}, by {span.readings[0].source}: {told}."


def _ends(low_percent: float, *, high_percent: float) -> str:
    low = f"{low_percent:.5g}"
    return low if low_percent == high_percent else f"{low} to {high_percent:.5g}"


def _named(link: Link) -> str:
    return f"Stage {link.number}, {told_of(link.stage)}"


def _basis(link: Link) -> str:
    return f"{plain(link.left)} of the {plain(link.of)} weight"


def _grams(weight: CarriedWeight) -> str:
    if weight.low_g == weight.high_g:
        return f"{weight.typical_g:,.7g} g"
    return f"{weight.typical_g:,.7g} g ({weight.low_g:,.7g} to {weight.high_g:,.7g})"


def _percents(share: Share | None) -> str:
    low, typical, high = (100 * fraction for fraction in share or ())
    return f"{typical:.5g} percent" if low == high else f"{typical:.5g} percent ({_ends(low, high_percent=high)})"


def sources_of(chain: Chain, findings: tuple[Finding, ...], forecasts: tuple[WeightForecast, ...]) -> tuple[str, ...]:
    """Where shares, limits and formulas are printed, each once."""
    spans = [span for link in chain.links if link.taken for span in link.taken.spans]
    readings = [one for span in spans for one in span.readings]
    shares = [f"{one.source} ({one.evidence})" for one in readings]
    limits = [*(one.citation for one in findings), *(one.citation for one in forecasts)]
    return tuple(dict.fromkeys([*shares, *limits, FORMULA_SOURCE]))
