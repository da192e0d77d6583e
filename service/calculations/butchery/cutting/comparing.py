"""Shares that were published of a cut, and where the parts of a test lie against them."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from service.calculations.butchery.cutting.parts import CutUp, Part
from service.calculations.butchery.cutting.told import ComparedShare, EachPiece, Lies, share_percent, weight_of
from service.quantities.models import made
from service.quantities.quantity import G_PER_OZ, Units
from service.rules.cut import Cut, PartKind, PartShare, Reading

SPREAD_OF_ONE_FRACTION = 0.25
"""To either side of a figure that stands alone, of itself or of the rest, whichever is less (own bound)."""
G_PER_LB = 16 * G_PER_OZ


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
    def bounds_percent(self) -> tuple[float, float]:
        """The published range, or what is ours around a figure that stands alone."""
        if not self.stands_alone:
            return self.low_percent, self.high_percent
        way_percent = SPREAD_OF_ONE_FRACTION * min(self.low_percent, 100 - self.low_percent)
        return self.low_percent - way_percent, self.high_percent + way_percent


def published_of(cut: Cut) -> tuple[Published, ...]:
    """What was published of each kind of part; what other tests do not cut that way is left out."""
    rows: dict[frozenset[PartKind], list[PartShare]] = {}
    for row in cut.parts:
        if row.consists_of:
            rows.setdefault(frozenset(row.consists_of), []).append(row)
    return tuple(
        Published(
            each[0].consists_of,
            tuple(each),
            min(row.low_percent for row in each),
            max(row.high_percent for row in each),
        )
        for each in rows.values()
    )


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
    mine_percent = _sum_percent(published, counting, purchased_g=purchased_g)
    usual = {row.typical_percent for row in published.rows if row.typical_percent is not None}
    return made(
        ComparedShare,
        part=published.rows[0].part,
        consists_of=published.kinds,
        low_percent=round(low_percent, 4),
        typical_percent=usual.pop() if len(usual) == 1 else None,
        high_percent=round(high_percent, 4),
        spread="own_bound" if published.stands_alone else "published",
        your_percent=mine_percent,
        your_parts=tuple(part.stated.name for part in counting),
        lies=_lies(mine_percent, low_percent=low_percent, high_percent=high_percent),
        sources=_cited(published.rows) if full else (),
    )


def _sum_percent(published: Published, counting: tuple[Part, ...], *, purchased_g: float) -> float | None:
    weights = [part.g for part in counting]
    if None in weights or not published.needed <= {part.stated.what for part in counting}:
        return None
    return share_percent(sum(weight for weight in weights if weight is not None), whole_g=purchased_g)


def _lies(percent: float | None, *, low_percent: float, high_percent: float) -> Lies:
    if percent is None:
        return "cannot_tell"
    if percent < low_percent:
        return "below"
    return "within" if percent <= high_percent else "above"


def each_piece(test: CutUp, pieces: int, cut: Cut | None, units: Units, *, full: bool) -> EachPiece:
    """What one piece weighs, and whether such pieces are sold."""
    weights, each_g = cut.weights if cut else (), test.purchased_g / pieces
    low_g = G_PER_LB * min(one.low_lb for one in weights) if weights else None
    highs_lb = [one.high_lb for one in weights if one.high_lb is not None]
    high_g = G_PER_LB * max(highs_lb) if weights and len(highs_lb) == len(weights) else None
    return made(
        EachPiece,
        weight=weight_of(each_g, units),
        published_low=None if low_g is None else weight_of(low_g, units),
        published_high=None if high_g is None else weight_of(high_g, units),
        lies=None if low_g is None else _place(each_g, low_g=low_g, high_g=high_g),
        sources=_cited(weights) if full else (),
    )


def _place(each_g: float, *, low_g: float, high_g: float | None) -> Lies:
    if each_g < low_g:
        return "below"
    return "above" if high_g is not None and each_g > high_g else "within"


def _cited(readings: Sequence[Reading]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{one.source} ({one.evidence})" for one in readings))
