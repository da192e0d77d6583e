"""A step of the scale beside the nearest one, where that passes a limit and this keeps it."""

from math import inf
from typing import NamedTuple

from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled, dot
from service.calculations.butchery.blending.weighing import NOISE, tolerance

HALF: Scaled = 0.5


class _Held(NamedTuple):
    """A limit that a step must keep: its row with a nought for no material, where it stands, and between what."""

    row: PerMaterial
    stands: Scaled
    low: Scaled
    high: Scaled

    def is_kept(self, less: int, more: int, step: Scaled) -> bool:
        """Whether it is kept after a step from one material to another."""
        return self.low <= self.stands + step * (self.row[more] - self.row[less]) <= self.high


def neighbour(weighed: PerMaterial, exact: PerMaterial, limits: tuple[Limit, ...], step: Scaled) -> PerMaterial | None:
    """The nearest blend a step away that keeps what rounding broke; None where there is none.

    A step goes from one material to another, or is one more, or one less, of one. Limits that are exact stay within
    their tolerance, and a block of an exact weight stays as near to it as steps allow.
    """
    used_up, nothing = {limit.column for limit in limits if limit.code == "use_up"}, len(exact)
    free = [number for number, amount in enumerate(exact) if amount and number not in used_up]
    held = sorted(
        (_held(limit, weighed, exact, step) for limit in limits), key=lambda one: one.low <= one.stands <= one.high
    )
    to_give = [number for number in free if weighed[number] >= HALF * step]
    steps = [(less, more) for less in (*to_give, nothing) for more in (*free, nothing) if less != more]
    off = [shown - wanted for shown, wanted in zip((*weighed, 0.0), (*exact, 0.0), strict=True)]
    kept = [
        (2 * (off[more] - off[less]) + step * ((less < nothing) + (more < nothing)), less, more)
        for less, more in steps
        if all(one.is_kept(less, more, step) for one in held)
    ]
    if not kept:
        return None
    _, less, more = min(kept)
    by = {less: -1, more: 1}
    return tuple([step * round(amount / step + by[n]) if n in by else amount for n, amount in enumerate(weighed)])


def _held(limit: Limit, weighed: PerMaterial, exact: PerMaterial, step: Scaled) -> _Held:
    stands = dot(limit.row, weighed) - limit.right
    room = NOISE
    if limit.bound == "exactly":
        room = step * (HALF + NOISE) if limit.code == "block_weight" else tolerance(limit, exact, step)
    low = -inf if limit.bound == "at_most" else -room
    return _Held((*limit.row, 0.0), stands, low, inf if limit.bound == "at_least" else room)
