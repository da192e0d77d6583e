"""What a cutting test tells: weights, shares, totals, and notes under stable codes."""

from typing import Literal

from service.calculations.butchery.cutting.parts import Use
from service.calculations.remarks import CallOut
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.cut import PartKind
from service.rules.vocabulary import Animal

Lies = Literal["below", "within", "above", "cannot_tell"]
"""Where a figure lies against a published range."""

DIGITS_OF_PERCENT = 6


class CutNamed(Answer):
    """The cut of GET /v1/cuts that was bought."""

    id: str
    """Its id."""
    name: str
    """In words."""
    item_number: str | None
    """Its item number of the Institutional Meat Purchase Specifications; null where none is held."""
    animal: Animal
    """The animal or bird."""
    bone_in: bool | None
    """Whether there is bone in it; null where the name leaves that open."""


class EachPiece(Answer):
    """What one of the pieces that were bought weighs."""

    weight: Weight
    """The purchase divided by the number of pieces."""
    published_low: Weight | None
    """The lightest of the published weights; null where none is held."""
    published_high: Weight | None
    """The heaviest; null where none is held, or the ranges are open upwards."""
    lies: Lies | None
    """Where it lies against them; null where none is held. cannot_tell: heavier than every range that has a top, where
    another is open upwards."""
    from_memory: bool
    """Whether one of these weights, or more, is from memory."""
    sources: tuple[str, ...]
    """Where these weights are published and how that is known; empty in brief."""


class ComparedShare(Answer):
    """A share of the purchase that was published for such a part, and where yours lies."""

    part: str
    """The part, as it was published."""
    consists_of: tuple[PartKind, ...]
    """What was weighed together for it."""
    low_percent: float
    """The least."""
    typical_percent: float | None
    """What is called usual; null where that is not printed."""
    high_percent: float
    """The most."""
    spread: Literal["published", "several_figures", "own_bound"]
    """several_figures: from the least to the greatest of single figures, which may be of unlike things: see sources.
    own_bound: one figure alone is published, and a quarter of it, or of the rest, to either side is ours."""
    from_memory: bool
    """Whether one of these figures, or more, is from memory."""
    your_percent: float | None
    """All your parts of that kind together; null where one of them was not weighed, or a kind is missing. What was
    weighed may be `above` all the same."""
    your_parts: tuple[str, ...]
    """Which these are."""
    lies: Lies
    """Where yours lies."""
    sources: tuple[str, ...]
    """Each figure, what it is of, where it is published and how that is known; empty in brief."""


class PartTold(Answer):
    """A part, and its share."""

    name: str
    """As you call it."""
    use: Use
    """What becomes of it."""
    what: PartKind | None
    """What it is made of; null where that was not stated."""
    weighings: int
    """How often it was weighed."""
    weight: Weight | None
    """All its weighings; null where it was not weighed."""
    at_most: Weight | None
    """What it can come to at most where it was not weighed: all that is left over. Null where it was, and where the
    weights cannot be right."""
    of_purchased_percent: float | None
    """Share of what was bought; null where it was not weighed."""
    of_weighed_percent: float | None
    """Share of all that was weighed, losses included; null where it was not weighed."""
    published: tuple[ComparedShare, ...]
    """Published shares that it counts in; empty without a cut, or without what it is made of."""


class Total(Answer):
    """Several parts together."""

    weight: Weight
    """Of those that were weighed."""
    percent: float
    """Of what was bought."""
    at_most: Weight | None
    """With all that is left over, where one of them was not weighed; else the same. Null where the test does not close,
    or nothing is left over for a part: weight and percent are then what was written down, and no more."""
    at_most_percent: float | None
    """Likewise, of what was bought."""


class UseTotal(Answer):
    """All parts of one use."""

    use: Use
    """The use."""
    parts: int
    """How many parts."""
    total: Total
    """What they come to."""


class Yields(Answer):
    """What became of the purchase."""

    meat: Total
    """Eaten or sold as meat: cure, cook, sell, grind, keep."""
    usable: Total
    """For eating or selling in any form: the meat, what is rendered and what goes into stock."""
    waste: Total
    """What nobody eats."""
    loss: Total
    """Losses that were weighed."""


class Balance(Answer):
    """Nothing comes from nothing: parts, losses and what is not accounted for are what was bought, in grams."""

    purchased_g: float
    """What was bought."""
    parts_g: float
    """All parts that were weighed, waste included."""
    loss_g: float
    """All losses that were weighed."""
    unaccounted_g: float
    """What is not accounted for; negative where parts and losses weigh more than what was bought."""


class CuttingNote(CallOut):
    """Something to look at or to do."""

    parts: tuple[str, ...]
    """The parts that it is about."""


def note(code: str, message: str, *parts: str) -> CuttingNote:
    return made(CuttingNote, code=code, message=message, parts=parts)


def share_percent(part_g: float, *, whole_g: float) -> float:
    r"""A part as a share of the whole.

    .. math:: percent = 100 \times part / whole

    Parameters
    ----------
    part_g : float
        The part [g]
    whole_g : float
        What was bought, or all that was weighed [g]

    Returns
    -------
    share_percent : float
        Its share, to six decimals [percent]

    Raises
    ------
    ZeroDivisionError
        When whole_g is zero.

    Notes
    -----
    A yield says which weight it is of: as purchased, or as weighed after cutting. The two differ by what is not
    accounted for.

    Examples
    --------
    >>> share_percent(16.0, whole_g=28.0)  # a rib of 28 lb that leaves 16 lb ready for the oven
    57.142857

    References
    ----------
    Yield percentage of a butcher's yield test, as culinary schools teach it (reported).
    """
    return round(100 * part_g / whole_g, DIGITS_OF_PERCENT)


def weight_of(mass_g: float, units: Units) -> Weight:
    """A weight in kitchen units, also one that is negative."""
    if mass_g >= 0:
        return present_weight(mass_g, units)
    told = present_weight(-mass_g, units)
    return made(Weight, value=-told.value, unit=told.unit)
