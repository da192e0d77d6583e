"""How much may be left over for the parts that were not weighed, by what is published of them."""

from collections.abc import Iterator
from itertools import combinations
from math import fsum
from typing import NamedTuple

from service.calculations.butchery.cutting.comparing import Published, published_of
from service.calculations.butchery.cutting.parts import CutUp, Use
from service.rules.cut import Cut, PartKind


class Room(NamedTuple):
    """What the parts that were not weighed may come to, of what was bought."""

    low_fraction: float
    high_fraction: float
    is_own: bool = False
    """Whether a bound of ours is in it."""


OWN_MOST_FRACTION: dict[Use, float] = {"loss": 0.1, "waste": 0.25}
"""All losses together a tenth, all waste a quarter, where nothing is published of it (own bounds)."""
OTHERWISE_FRACTION = 0.5
"""Anything else, or all of it together: no more than half (own bound)."""


def room_of(test: CutUp, cut: Cut | None) -> Room:
    """From the least to the most of all shares that are published of them, less what was weighed of the same.

    What nothing is published of adds a bound of ours, whatever stands beside it.
    """
    unweighed = [part.stated for part in test.parts if part.g is None]
    kinds = {one.what for one in unweighed if one.what and one.use != "loss"}
    rooms = [_room_in(test, together) for together in _covering(published_of(cut), kinds)] if cut and kinds else []
    guessed = {one.use for one in unweighed if one.use == "loss" or one.what is None or not rooms}
    own_fraction = min(sum(OWN_MOST_FRACTION.get(use, OTHERWISE_FRACTION) for use in guessed), OTHERWISE_FRACTION)
    if not rooms:
        return Room(0.0, own_fraction, is_own=True)
    low_fraction = max(min(room.low_fraction for room in rooms), 0.0)
    most_fraction = max(room.high_fraction for room in rooms)
    with_own_fraction = max(most_fraction, min(most_fraction + own_fraction, OTHERWISE_FRACTION))
    return Room(low_fraction, with_own_fraction, is_own=bool(guessed))


def _covering(published: tuple[Published, ...], kinds: set[PartKind]) -> Iterator[tuple[Published, ...]]:
    """Each share that holds all these kinds; else those that hold them between them, each once."""
    alone = [(one,) for one in published if kinds <= set(one.kinds)]
    yield from alone
    together = tuple(one for one in published if not kinds.isdisjoint(one.kinds))
    apart = all(set(one.kinds).isdisjoint(other.kinds) for one, other in combinations(together, 2))
    if not alone and apart and kinds <= {kind for one in together for kind in one.kinds}:
        yield together


def _room_in(test: CutUp, together: tuple[Published, ...]) -> Room:
    """At least something only where every kind that the share was published of is among the parts."""
    kinds = {kind for one in together for kind in one.kinds}
    weighed_fraction = fsum(part.g for part in test.parts if part.g and part.stated.what in kinds) / test.purchased_g
    stated = {part.stated.what for part in test.parts}
    low_percent = sum(one.bounds_percent[0] if one.needed <= stated else 0.0 for one in together)
    high_percent = sum(one.bounds_percent[1] for one in together)
    return Room(low_percent / 100 - weighed_fraction, high_percent / 100 - weighed_fraction)
