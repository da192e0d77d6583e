"""A rest of a piece with several pairs of faces: nothing passes any of them, and none shares with another.

A bath of no size would not do: it holds all faces at one strength, and salt would run along the surface from the ends
to the broad sides. So the modes of the cure are written as modes that no face lets out, axis by axis.
"""

from dataclasses import dataclass
from functools import cache, reduce
from typing import TYPE_CHECKING

from service.calculations.curing.diffusing.axes import DEPTHS, Modes, Plain, modes_of
from service.calculations.curing.diffusing.exchange import Limited
from service.calculations.curing.diffusing.relaxation import MIDDLE, PROFILE, SURFACE, Relaxation
from service.calculations.curing.pieces import Axis

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

FAINT = 1e-6
"""What is fainter than this beside the strongest is left out."""
KEPT, CLOSED = 12, 10
"""Modes of the cure that are rewritten on each axis, and modes of the rest that they are written in.

Held against products of closed series, the middle is within 0.015 in the first day and 0.003 from the third on (tests).
"""


@dataclass(frozen=True, slots=True, eq=False)
class ClosedAxis:
    """A pair of faces, or a round side, that lets nothing out; for half a thickness or a radius of 1."""

    rates: "Array"
    """Of the modes of the cure that are rewritten."""
    shares: "Array"
    """What each of them is of the mean; what they leave is one more, which stands for all the quicker ones."""
    fading: "Array"
    """Rates of the modes of the rest; 0 first."""
    written: "Array"
    """How much of each mode of the rest there is in each mode of the cure, in the middle."""
    places: "Array"
    """Each mode of the rest at the places of a profile, of its value in the middle."""


class Rest(Limited):
    """Nothing goes in or out. What follows a rest begins as if the faces had shared what lay on them."""

    def __init__(self, modes: Modes, axes: tuple[Axis, ...]) -> None:
        super().__init__(modes, 0.0)
        self._modes, self._axes = modes, axes

    def relaxation(self, state: "Array", *, salt_ratio: float) -> Relaxation:
        """From these shares on; nothing is added."""
        import numpy as np

        shared = super().relaxation(state, salt_ratio=salt_ratio)
        if len(self._axes) == 1:
            return shared
        rates, middle, places = self._closed(state)
        told = np.zeros((len(shared.told), len(rates) + 1))
        told[MIDDLE, :-1], told[SURFACE, :-1] = middle, middle * places[-1]
        told[PROFILE, :-1] = middle * places[: len(told[PROFILE])]
        # What the modes that are left out make up at first fades as quickly as the first of them.
        told[1:-1, -1] = (self._weights @ state)[1:] - shared.final_ratio - told[1:-1].sum(axis=1)
        rates = np.append(rates, rates.max(initial=float(shared.rates[0])))
        shares = np.hstack([np.zeros((len(state), len(rates))), shared.shares])
        told = np.hstack([told, np.zeros_like(shared.told)])
        return Relaxation(np.append(rates, shared.rates), shared.final_ratio, told, shares)

    def _closed(self, state: "Array") -> tuple["Array", "Array", "Array"]:
        """Rates, what each is in the middle at first, and at the places along the first axis."""
        import numpy as np

        closed = [_closed(axis.plain) for axis in self._axes]
        sized = [axis.reach_mm**2 for axis in self._axes]
        amounts = self._amounts(state, closed, sized)
        for one in closed:  # each turn takes the foremost axis off and puts it, rewritten, behind the others
            amounts = np.tensordot(amounts, one.written, axes=(0, 0))
        rates = _sums([one.fading / size for one, size in zip(closed, sized, strict=True)]).ravel()[1:]
        first = closed[0].places.shape[1]
        places = np.repeat(closed[0].places, amounts.size // first, axis=1)[:, 1:]
        seen = np.abs(amounts.ravel()[1:]) > FAINT * np.abs(amounts).max()
        return rates[seen], amounts.ravel()[1:][seen], places[:, seen]

    def _amounts(self, state: "Array", closed: list[ClosedAxis], sized: list[float]) -> "Array":
        """The share of each product of modes; those with a quick one in them hold evenly what the others leave."""
        import numpy as np

        slow = np.interp(
            _sums([one.rates / size for one, size in zip(closed, sized, strict=True)]), self._modes.rates, state
        )
        shares = reduce(np.multiply.outer, [one.shares for one in closed])
        left = float(self._weights[0] @ state - (shares * slow).sum()) / (1 - float(shares.sum()))
        amounts = np.full([KEPT + 1] * len(closed), left)
        amounts[tuple([slice(KEPT)] * len(closed))] = slow
        return amounts


def _sums(parts: list["Array"]) -> "Array":
    """All sums of one of each."""
    import numpy as np

    total: Array = parts[0]
    for part in parts[1:]:
        total = np.add.outer(total, part)
    return total


@cache
def _closed(plain: Plain) -> ClosedAxis:
    """The axis of a plain body, closed."""
    import numpy as np

    cure = modes_of(plain, profile=False)
    rates, shares = cure.rates[:KEPT], cure.weights[0, :KEPT]
    every_rate, every_share = np.append(rates, cure.rates[-1]), np.append(shares, 1 - shares.sum())
    fading, middle, places = _closed_slab() if plain == "slab" else _closed_cylinder()
    written = every_share[:, None] * middle * every_rate[:, None] / (every_rate[:, None] - fading)
    return ClosedAxis(rates, shares, fading, written, places)


def _closed_slab() -> tuple["Array", "Array", "Array"]:
    import numpy as np

    numbers = np.arange(CLOSED, dtype=np.float64)
    middle: Array = np.where(numbers, 2.0, 1.0) * np.where(numbers % 2, -1.0, 1.0)
    places: Array = np.cos(np.outer(np.linspace(0.0, 1.0, DEPTHS), numbers * np.pi))
    return np.square(numbers * np.pi), middle, places


def _closed_cylinder() -> tuple["Array", "Array", "Array"]:
    import numpy as np
    from scipy.special import j0, jn_zeros

    roots = np.append(np.zeros(1), jn_zeros(1, CLOSED - 1)).astype(np.float64)
    middle: Array = 1 / j0(roots)
    places: Array = j0(np.outer(np.linspace(0.0, 1.0, DEPTHS), roots))
    return np.square(roots), middle, places
