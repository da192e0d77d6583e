"""What a piece and its bath exchange, exact in time.

The shares z of the modes and the strength C of the bath go by dz/dt = D * rate * (C - z) and
ratio * dC/dt + sum(share * dz/dt) = 0, where ratio is water of the bath to water of the meat. The rates u at which all
of it comes to rest are the roots of ratio + sum(share * rate / (rate - u)) = 0, one between each two rates: for a slab
the roots of tan q = -ratio * q (Crank 1975, section 4.3.5). Because the share of each mode is kept, one stage may
follow another: a change of bath, of temperature, a rest.
"""

from typing import TYPE_CHECKING

from service.calculations.curing.diffusing.axes import Modes
from service.calculations.curing.diffusing.relaxation import Relaxation

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

LARGEST_RATIO = 1e6
"""A bigger bath is taken for one of this size and the same strength: it keeps that to a millionth."""
STEPS = 60
"""Steps towards the roots at most; some six are needed."""
CLOSE = 1e-6
"""A step as small as this, relatively, is the last: the error that is left is about the square of it."""


class Endless:
    """A bath so big that it keeps its strength."""

    def __init__(self, modes: Modes) -> None:
        self._modes = modes

    def relaxation(self, state: "Array", *, strength_ratio: float) -> Relaxation:
        """From these shares on, in a bath of this strength [g/g]."""
        import numpy as np

        gaps = state - strength_ratio
        told = np.vstack([self._modes.weights * gaps, np.zeros_like(gaps)])
        return Relaxation(self._modes.rates, strength_ratio, told, np.diag(gaps))


class Limited:
    """A bath of stated size; of no size at all, a cure that lies on the surface, or a rest."""

    def __init__(self, modes: Modes, bath_ratio: float) -> None:
        self._weights, self._ratio = modes.weights, min(bath_ratio, LARGEST_RATIO)
        self._smaller = self._ratio / bath_ratio if bath_ratio else 1.0
        self._rates, gaps = _roots(modes.rates, modes.weights[0] * modes.rates, self._ratio)
        self._follow = modes.rates[:, None] / gaps
        self._norms = self._ratio + modes.weights[0] @ self._follow**2

    def relaxation(self, state: "Array", *, salt_ratio: float) -> Relaxation:
        """From these shares on, with this much salt in the bath or on the surface [g per g of water in the meat]."""
        import numpy as np

        shares, salt = self._weights[0], salt_ratio * self._smaller
        final_ratio = float(salt + shares @ state) / (1 + self._ratio)
        bath = (salt + (shares * state) @ self._follow) / self._norms
        parts = self._follow * bath
        return Relaxation(self._rates, final_ratio, np.vstack([self._weights @ parts, bath]), parts)


def _roots(rates: "Array", pulls: "Array", bath_ratio: float) -> tuple["Array", "Array"]:
    """The roots, and rates minus roots (a column for each root) without loss of digits.

    Each root is sought as its offset from the nearer of the two rates it lies between; the last, where there is a
    bath at all, lies beyond the last rate.
    """
    import numpy as np

    inner = len(rates) - 1
    beyond = [rates[-1] + pulls.sum() / bath_ratio] if bath_ratio else []
    starts, ends = rates[: inner + len(beyond)], np.append(rates[1:], beyond)
    halves = (ends - starts) / 2
    at_half = bath_ratio + (pulls[:, None] / (rates[:, None] - (starts + halves))).sum(axis=0)
    low_side = (at_half > 0) | (np.arange(len(starts)) == inner)
    low = np.where(low_side, 0.0, -halves)
    high = np.where(low_side, np.where(np.arange(len(starts)) == inner, 2 * halves, halves), 0.0)
    nearest = np.where(low_side, starts, ends)
    away = rates[:, None] - nearest
    offsets = _offsets(low, high, away, pulls[:, None], bath_ratio)
    return nearest + offsets, away - offsets


def _offsets(low: "Array", high: "Array", away: "Array", pulls: "Array", bath_ratio: float) -> "Array":
    """Newton's method on equation times offset, which has no pole near; halving where a step leaves the bracket."""
    import numpy as np

    offsets = (low + high) / 2
    for _ in range(STEPS):
        inverse = 1 / (away - offsets)
        terms = pulls * inverse
        value = bath_ratio + terms.sum(axis=0)
        slope = value + offsets * (terms * inverse).sum(axis=0)
        low, high = np.where(value > 0, low, offsets), np.where(value > 0, offsets, high)
        nearer = offsets - offsets * value / slope
        nearer = np.where((nearer >= low) & (nearer <= high), nearer, (low + high) / 2)
        moved, offsets = np.abs(nearer - offsets), nearer
        if (moved <= CLOSE * np.abs(offsets)).all():
            break
    return offsets
