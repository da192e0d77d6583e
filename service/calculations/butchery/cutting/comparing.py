"""Shares that were published of a cut, and where the parts of a test lie against them."""

from collections.abc import Iterator, Sequence
from math import fsum
from typing import Literal, NamedTuple

from service.calculations.butchery.cutting.parts import CutUp, Part
from service.calculations.butchery.cutting.told import ComparedShare, EachPiece, Lies, share_percent, weight_of
from service.quantities.models import made
from service.quantities.quantity import Units
from service.quantities.units import factor
from service.rules.cut import Cut, PartKind, PartShare, Reading

SPREAD_OF_ONE_FRACTION = 0.25
"""To either side of a figure that stands alone, of itself or of the rest, whichever is less (own bound)."""


class Published(NamedTuple):
    """All that was published of one kind of part."""

    kinds: tuple[PartKind, ...]
    rows: tuple[PartShare, ...]
    low_percent: float
    high_percent: float

    @property
    def needed(self) -> frozenset[PartKind]:
        """Kinds without which nothing can be compared: trim may stand there as meat or as fat."""
        return frozenset(self.kinds) - {"trim"} or frozenset(self.kinds)

    @property
    def stands_alone(self) -> bool:
        return self.low_percent == self.high_percent

    @property
    def spread(self) -> Literal["published", "several_figures", "own_bound"]:
        if self.stands_alone:
            return "own_bound"
        ranged = any(row.low_percent < row.high_percent for row in self.rows)
        return "published" if ranged else "several_figures"

    @property
    def bounds_percent(self) -> tuple[float, float]:
        """The published range, or what is ours around a figure that stands alone."""
        if not self.stands_alone:
            return self.low_percent, self.high_percent
        way_percent = SPREAD_OF_ONE_FRACTION * min(self.low_percent, 100 - self.low_percent)
        return self.low_percent - way_percent, self.high_percent + way_percent


def published_of(cut: Cut) -> tuple[Published, ...]:
    """What was published of each kind of part; what other tests do not cut that way is left out."""
    together = zip(cut.parts_together, cut.spans_percent, strict=True)
    return tuple(Published(each[0].consists_of, each, *span_percent) for each, span_percent in together)


def shares_of(test: CutUp, cut: Cut, *, full: bool) -> tuple[ComparedShare, ...]:
    """Each published share that a part of the test counts in."""
    stated = {part.stated.what for part in test.parts}
    return tuple(
        _compared(published, tuple(_counting(test, published)), test.purchased_g, full=full)
        for published in published_of(cut)
        if not stated.isdisjoint(published.kinds)
    )


def _counting(test: CutUp, published: Published) -> Iterator[Part]:
    return (part for part in test.parts if part.stated.what in published.kinds)


def _compared(published: Published, counting: tuple[Part, ...], purchased_g: float, *, full: bool) -> ComparedShare:
    low_percent, high_percent = published.bounds_percent
    weighed_percent = share_percent(fsum(part.g or 0.0 for part in counting), whole_g=purchased_g)
    known = published.needed <= {part.stated.what for part in counting} and all(part.g is not None for part in counting)
    usual = {row.typical_percent for row in published.rows if row.typical_percent is not None}
    return made(
        ComparedShare,
        part=published.rows[0].part,
        consists_of=published.kinds,
        low_percent=round(low_percent, 4),
        typical_percent=usual.pop() if len(usual) == 1 else None,
        high_percent=round(high_percent, 4),
        spread=published.spread,
        from_memory=any(row.evidence == "recalled" for row in published.rows),
        your_percent=weighed_percent if known else None,
        your_parts=tuple(part.stated.name for part in counting),
        lies=_lies(weighed_percent, low_percent=low_percent, high_percent=high_percent, known=known),
        sources=tuple(_figure(row) for row in published.rows) if full else (),
    )


def _lies(percent: float, *, low_percent: float, high_percent: float, known: bool) -> Lies:
    """Parts that were not weighed, or not named, only add to it: above stays above."""
    if percent > high_percent:
        return "above"
    if not known:
        return "cannot_tell"
    return "below" if percent < low_percent else "within"


def _figure(row: PartShare) -> str:
    span = f"{row.low_percent:g}" + (f" to {row.high_percent:g}" if row.high_percent > row.low_percent else "")
    return f"{row.part}, {span} percent: {row.source} ({row.evidence}){f'. {row.note}' if row.note else ''}"


def each_piece(test: CutUp, pieces: int, cut: Cut | None, units: Units, *, full: bool) -> EachPiece:
    """What one piece weighs, and whether such pieces are sold."""
    weights, each_g = cut.weights if cut else (), test.purchased_g / pieces
    low_g, high_g, is_open = _span_g(cut) if cut and weights else (None, None, True)
    return made(
        EachPiece,
        weight=weight_of(each_g, units),
        published_low=None if low_g is None else weight_of(low_g, units),
        published_high=None if high_g is None or is_open else weight_of(high_g, units),
        lies=piece_lies(each_g, cut),
        from_memory=any(one.evidence == "recalled" for one in weights),
        sources=_cited(weights) if full else (),
    )


def piece_lies(each_g: float, cut: Cut | None) -> Lies | None:
    """Where a piece of this weight lies; a range that is open upwards says nothing of how heavy pieces get."""
    if cut is None or not cut.weights:
        return None
    low_g, high_g, is_open = _span_g(cut)
    if each_g <= high_g:
        return "below" if each_g < low_g else "within"
    return "cannot_tell" if is_open else "above"


FAR_ABOVE_RATIO = 2.0
"""Of the heaviest published weight, where a range is open upwards: kg for lb is more than this (own bound)."""


def lies_far_above(each_g: float, cut: Cut) -> bool:
    """Whether a piece is heavier than any such piece, also where a range is open upwards."""
    _, heaviest_g, is_open = _span_g(cut)
    return is_open and each_g > FAR_ABOVE_RATIO * heaviest_g


def _span_g(cut: Cut) -> tuple[float, float, bool]:
    low_lb, high_lb, is_open = cut.weighs_lb
    return factor("lb") * low_lb, factor("lb") * high_lb, is_open


def _cited(readings: Sequence[Reading]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{one.source} ({one.evidence})" for one in readings))
