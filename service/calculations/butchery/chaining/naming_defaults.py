"""Every share that was taken from what is published, told with its source; and what is published of the whole chain."""

from functools import lru_cache
from typing import Literal

from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.defaults import KEPT, From, Taken, method_of
from service.quantities.models import Answer, made
from service.rules.book import RuleBook
from service.rules.cut import Cut, ShareReading, WeightStage, YieldShare
from service.rules.usual_yield import UsualYield
from service.rules.vocabulary import Evidence


class ReadingTold(Answer):
    """What one source says."""

    what: str
    """What was done, or which part it is."""
    counts_as: Literal["left", "off"]
    """left: it is what is left. off: a part that comes off; all parts of one source are taken from a hundred."""
    part: WeightStage | None
    """The weight that was left; null for a part."""
    of_weight: WeightStage
    """The weight that it is a share of."""
    low: float
    """The least."""
    high: float
    """The most; equal to low where one figure is printed."""
    unit: Literal["percent"]
    """Percent, as it is printed."""
    source: str
    """Where it is printed."""
    evidence: Evidence
    """How it is known."""
    note: str
    """What else should be known about it."""


class DefaultTaken(Answer):
    """A share that nobody stated."""

    stage: int
    """Number of the stage."""
    taken_from: From
    """cut: published for the cut that is named. usual: what is usual, where that cut has nothing or none is named."""
    low: float
    """The least that is left, by any source."""
    typical: float
    """As a source calls usual, else the middle of what is known best."""
    high: float
    """The most that is left."""
    unit: Literal["percent"]
    """Percent of the weight named in of_weight."""
    part: WeightStage
    """The weight that is left."""
    of_weight: WeightStage
    """The weight that it is a part of."""
    readings: tuple[ReadingTold, ...]
    """Everything that it was taken from."""


def defaults_told(chain: Chain) -> tuple[DefaultTaken, ...]:
    """Every default, in the order of the stages."""
    return tuple(_default(link.number, link.taken) for link in chain.links if link.taken)


def _default(number: int, taken: Taken) -> DefaultTaken:
    return made(
        DefaultTaken,
        stage=number,
        taken_from=taken.source,
        **_percents(taken.share),
        unit="percent",
        part=taken.left,
        of_weight=taken.of,
        readings=_readings_of(taken),
    )


@lru_cache(maxsize=KEPT)
def _readings_of(taken: Taken) -> tuple[ReadingTold, ...]:
    return tuple(_reading(one, comes_off=span.comes_off) for span in taken.spans for one in span.readings)


def _percents(share: Share) -> dict[str, float]:
    low, typical, high = (round(100 * fraction, 4) for fraction in share)
    return {"low": low, "typical": typical, "high": high}


def _reading(one: ShareReading, *, comes_off: bool = False) -> ReadingTold:
    whole = one if isinstance(one, YieldShare | UsualYield) else None
    return made(
        ReadingTold,
        what=method_of(one),
        counts_as="off" if comes_off else "left",
        part=whole.left if whole else None,
        of_weight=whole.of if whole else "as_purchased",
        low=one.low_percent,
        high=one.high_percent,
        unit="percent",
        source=one.source,
        evidence=one.evidence,
        note=one.note,
    )


def published_for(cut: Cut | None, chain: Chain, book: RuleBook) -> tuple[ReadingTold, ...]:
    """Published yields of the same cut, from the weight as purchased to the cooked or the sold one, to compare with."""
    if cut is None or chain.links[0].of != "as_purchased" or not chain.is_cooked:
        return ()
    return _whole_yields(cut.id, book)


@lru_cache(maxsize=KEPT)
def _whole_yields(cut: str, book: RuleBook) -> tuple[ReadingTold, ...]:
    yields = book.cuts[cut].yields
    whole = (one for one in yields if one.usable and one.of == "as_purchased" and one.left in ("cooked", "sold"))
    return tuple(_reading(one) for one in whole)
