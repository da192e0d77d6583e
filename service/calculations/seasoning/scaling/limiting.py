"""What there is, and by how much the recipe can be made of it."""

from collections.abc import Sequence
from math import fsum
from typing import NamedTuple

from service.calculations.measures.spoons import Grams, Number
from service.calculations.seasoning.scaling.at_hand import IngredientAtHand, Limit, MeatAtHand, VesselAtHand
from service.calculations.seasoning.scaling.lines import NOTHING, Line, Litres, weighed
from service.calculations.seasoning.scaling.recipe import Amount, Counted, key_of
from service.calculations.seasoning.scaling.refusing import no_such_line, stated_twice
from service.quantities.quantity import Mass
from service.quantities.units import factor
from service.rules.book import RuleBook

ALIKE = 1 + 1e-12
"""Two limits nearer to each other than this govern both."""


class Factor(NamedTuple):
    """By how much the recipe may be scaled. Low and high differ where recipe and stock are measured in two ways."""

    low_ratio: float
    typical_ratio: float
    high_ratio: float

    @property
    def is_one(self) -> bool:
        """Whether it is one number."""
        return self.low_ratio == self.high_ratio


class Held(NamedTuple):
    """One limit, and the factor that it would allow by itself."""

    asked: Limit
    what: str
    """What it is on, in words."""
    at_hand: Number
    """How much of it there is."""
    unit: str
    factor: Factor

    def governs(self, by_ratio: float) -> bool:
        """Whether it is the one, or one of those, that decide."""
        return self.factor.typical_ratio <= by_ratio * ALIKE


def limits_of(meat: Mass, lines: tuple[Line, ...], limits: tuple[Limit, ...], book: RuleBook) -> tuple[Held, ...]:
    """Every limit with its factor. Raises Impossible for one that is on nothing, or stated twice."""
    _require_once(limits)
    keys = {line.key for line in lines}
    for limit in limits:
        if isinstance(limit, IngredientAtHand) and key_of(limit.ingredient) not in keys:
            names = [line.written.ingredient for line in lines]
            raise no_such_line(limit.ingredient, names, is_only=len(limits) == 1)
    return tuple(_held(limit, meat, lines, book) for limit in limits)


def _require_once(limits: tuple[Limit, ...]) -> None:
    seen: set[tuple[str, str]] = set()
    for limit in limits:
        key = (limit.kind, key_of(_what(limit)))
        if key in seen:
            raise stated_twice(_what(limit))
        seen.add(key)


def tightest_ratio(held: Sequence[Held]) -> float:
    r"""The factor that every limit allows.

    .. math:: f = \min_i (\text{at hand}_i / \text{in the recipe}_i)

    Parameters
    ----------
    held : Sequence of Held
        What there is, with the factor that each allows by itself

    Returns
    -------
    tightest : float
        What the whole recipe is multiplied by [ratio]

    Raises
    ------
    ValueError
        When there is no limit.

    Notes
    -----
    Where recipe and stock are measured in two ways, typical weights decide.

    Examples
    --------
    >>> meat = Held(None, "meat", 9.4, "lb", Factor(0.94, 0.94, 0.94))
    >>> tub = Held(None, "vessel", 12, "l", Factor(0.8, 0.8, 0.8))
    >>> tightest_ratio([meat, tub])
    0.8

    References
    ----------
    Arithmetic.
    """
    return min(one.factor.typical_ratio for one in held)


def _what(limit: Limit) -> str:
    return limit.ingredient if isinstance(limit, IngredientAtHand) else f"the {limit.kind}"


def _held(limit: Limit, meat: Mass, lines: tuple[Line, ...], book: RuleBook) -> Held:
    if isinstance(limit, MeatAtHand):
        ratio = limit.weight.g / meat.g
        return Held(limit, _what(limit), limit.weight.value, limit.weight.unit, Factor(ratio, ratio, ratio))
    if isinstance(limit, VesselAtHand):
        return Held(limit, _what(limit), room_l_of(limit), "l", _vessel_factor(limit, meat.g, lines))
    return _of_ingredient(limit, lines, book)


def room_l_of(limit: VesselAtHand) -> Number:
    """The vessel below its head-space."""
    return limit.inside.inside_l * (1 - limit.headspace_percent / 100)


def room_of(lines: Sequence[Line]) -> Litres:
    """The room that lines take together."""
    rooms = [line.room for line in lines]
    return Litres(*(fsum(side) for side in zip(*rooms, strict=True)))


def _vessel_factor(limit: VesselAtHand, meat_g: float, lines: tuple[Line, ...]) -> Factor:
    """Meat by its density, and every line, fill so much of the room."""
    meat_l, room_l, filled = meat_g / 1000 / limit.meat_density_kg_per_l, room_l_of(limit), room_of(lines)
    return Factor(
        room_l / (meat_l + filled.high_l), room_l / (meat_l + filled.typical_l), room_l / (meat_l + filled.low_l)
    )


def _of_ingredient(limit: IngredientAtHand, lines: tuple[Line, ...], book: RuleBook) -> Held:
    """In the measure of the recipe where both have one; else by what either weighs."""
    name, amount, key = limit.ingredient, limit.amount, key_of(limit.ingredient)
    those = [line for line in lines if line.key == key]
    grams = weighed(amount, those[0].ingredient, name, f'at_hand ("{name}")', book)
    value, unit = _told(amount, those[0])
    if all(_sort(line.written.amount) == _sort(amount) for line in those):
        ratio = _size(amount) / fsum(_size(line.written.amount) for line in those)
        return Held(limit, name, value, unit, Factor(ratio, ratio, ratio))
    written = together([line.grams for line in those])
    ratios = (grams.low_g / written.high_g, grams.typical_g / written.typical_g, grams.high_g / written.low_g)
    return Held(limit, name, value, unit, Factor(*ratios))


def together(several: Sequence[Grams]) -> Grams:
    """Bands added up, lightest with lightest; the order does not matter."""
    if len(several) < 2:
        return several[0] if several else NOTHING
    return Grams(*map(fsum, zip(*several, strict=True)))


def _sort(amount: Amount) -> str:
    if isinstance(amount, Counted):
        return "pieces"
    return "volume" if amount.is_volume else "weight"


def _size(amount: Amount) -> Number:
    return amount.count if isinstance(amount, Counted) else amount.value * factor(amount.unit)


def _told(amount: Amount, line: Line) -> tuple[Number, str]:
    if not isinstance(amount, Counted):
        return amount.value, amount.unit
    piece = line.ingredient.piece if line.ingredient else None
    return amount.count, piece.unit if piece else "piece"
