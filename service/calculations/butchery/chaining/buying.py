"""Portions, and whole pieces to buy: rounded up last."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import Bought, PieceRange, PortionsWanted, Task
from service.calculations.butchery.chaining.bands import CarriedWeight
from service.calculations.butchery.chaining.refusing import out_of_order
from service.calculations.butchery.chaining.telling import TellingUnit
from service.calculations.butchery.chaining.yields import portions_weight_g, whole_pieces, whole_portions
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.quantities.units import factor
from service.rules.cut import Cut
from service.rules.vocabulary import Evidence


class Portions(Answer):
    """Whole portions."""

    size: Weight
    """Of one, as it is sold."""
    low: int
    """At the least."""
    typical: int
    """Usually."""
    high: int
    """At the most."""
    left_over: Weight
    """Usually: too little for one more."""


class PiecesBought(Answer):
    """Whole pieces of one weight that hold what is needed."""

    case: Literal["low", "typical", "high"]
    """low: least is needed, of the heaviest pieces. high: most is needed, of the lightest."""
    pieces: int
    """How many, rounded up."""
    weight: Weight
    """All of them."""
    left_over: Weight
    """What they weigh beyond what is needed, as bought."""


class PieceOption(Answer):
    """Pieces of one range of weight."""

    low: Weight
    """The lightest."""
    high: Weight
    """The heaviest."""
    range_from: Literal["stated", "cut"]
    """Your range, or one that is published for the cut."""
    source: str | None
    """Where it is published; null for your own."""
    evidence: Evidence | None
    """How it is known; null for your own."""
    buy: tuple[PiecesBought, ...]
    """low, typical and high."""


class Range(NamedTuple):
    low_g: float
    high_g: float
    source: str | None
    evidence: Evidence | None


def wanted_g(task: Task) -> float:
    r"""The weight that a task is about.

    .. math:: weight = portions \times size, \quad or \quad weight = stated

    Parameters
    ----------
    task : Task
        What is bought or wanted

    Returns
    -------
    wanted_g : float
        What was bought, or what is to be left at the end [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Portions are as they are sold.

    Examples
    --------
    >>> from service.quantities.quantity import Mass
    >>> wanted_g(PortionsWanted(kind="portions_wanted", how_many=85, portion=Mass(value=170.0, unit="g")))
    14450.0

    References
    ----------
    By definition.
    """
    if isinstance(task, PortionsWanted):
        return portions_weight_g(task.how_many, portion_g=task.portion.g)
    return task.weight.g


def portions_of(task: Task, left: CarriedWeight, units: Units) -> Portions | None:
    """How many portions there are, or are wanted; None where no size is stated."""
    if isinstance(task, PortionsWanted):
        return _portions(task.portion.g, (task.how_many,) * 3, over_g=0.0, units=units)
    if not isinstance(task, Bought) or task.portion is None:
        return None
    size_g = task.portion.g
    counts = tuple(whole_portions(weight_g, portion_g=size_g) for weight_g in left)
    over_g = max(0.0, left.typical_g - counts[1] * size_g)
    return _portions(size_g, counts, over_g=over_g, units=units)


def _portions(size_g: float, counts: tuple[int, ...], *, over_g: float, units: Units) -> Portions:
    low, typical, high = counts
    return made(
        Portions,
        size=present_weight(size_g, units),
        low=low,
        typical=typical,
        high=high,
        left_over=present_weight(over_g, units),
    )


def pieces_for(
    buy: CarriedWeight, stated: PieceRange | None, cut: Cut | None, unit: TellingUnit
) -> tuple[PieceOption, ...]:
    """Whole pieces of the range that is stated, else of each that is published for the cut and has two ends."""
    return tuple(_option(buy, one, unit) for one in _ranges(stated, cut))


def _ranges(stated: PieceRange | None, cut: Cut | None) -> Iterator[Range]:
    """Raises Impossible for a range that runs backwards."""
    if stated:
        if not stated.low.g <= stated.high.g:
            raise out_of_order("the pieces")
        yield Range(stated.low.g, stated.high.g, None, None)
        return
    for one in cut.weights if cut else ():
        if one.high_lb is not None:
            yield Range(one.low_lb * factor("lb"), one.high_lb * factor("lb"), one.source, one.evidence)


def _option(buy: CarriedWeight, one: Range, unit: TellingUnit) -> PieceOption:
    return made(
        PieceOption,
        low=unit.weight(one.low_g),
        high=unit.weight(one.high_g),
        range_from="cut" if one.source else "stated",
        source=one.source,
        evidence=one.evidence,
        buy=(
            _bought("low", buy.low_g, unit, piece_g=one.high_g),
            _bought("typical", buy.typical_g, unit, piece_g=(one.low_g + one.high_g) / 2),
            _bought("high", buy.high_g, unit, piece_g=one.low_g),
        ),
    )


def _bought(case: str, needed_g: float, unit: TellingUnit, *, piece_g: float) -> PiecesBought:
    pieces = whole_pieces(needed_g, piece_g=piece_g)
    over_g = max(0.0, pieces * piece_g - needed_g)
    return made(
        PiecesBought, case=case, pieces=pieces, weight=unit.weight(pieces * piece_g), left_over=unit.weight(over_g)
    )
