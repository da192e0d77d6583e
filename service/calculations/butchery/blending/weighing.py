"""The amounts as the scale shows them: whole steps, together as near to the block as steps allow."""

from math import floor, inf
from typing import NamedTuple

from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled, dot
from service.calculations.butchery.blending.programme import column_span

NOISE: Scaled = 1e-9
"""Of a step: a count this close under a whole number is that number."""
HALF: Scaled = 0.5
COARSE_SHARE: Scaled = 0.05
"""An amount that is off by more than a twentieth is worth a word (own bound)."""


def on_scale(amounts: PerMaterial, limits: tuple[Limit, ...], step: Scaled) -> PerMaterial:
    """Every amount down to a step, and what is left over to those that lost most by it.

    What is used up is weighed as it is; no material is rounded up over what there is of it.
    """
    used_up = {limit.column for limit in limits if limit.code == "use_up"}
    rounded = [number for number, amount in enumerate(amounts) if amount and number not in used_up]
    steps = {number: floor(amounts[number] / step + NOISE) for number in rounded}
    missing = floor(sum(amounts[number] for number in rounded) / step + 0.5) - sum(steps.values())
    for number in sorted(rounded, key=lambda number: steps[number] - amounts[number] / step):
        most = column_span(limits, number)[1]
        if missing > 0 and (steps[number] + 1) * step <= most + NOISE * step:
            steps[number] += 1
            missing -= 1
    return tuple([steps[number] * step if number in steps else amount for number, amount in enumerate(amounts)])


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
    changed = [*weighed, 0.0]
    changed[less] -= step
    changed[more] += step
    return tuple(changed[:nothing])


def _held(limit: Limit, weighed: PerMaterial, exact: PerMaterial, step: Scaled) -> _Held:
    stands = dot(limit.row, weighed) - limit.right
    room = NOISE
    if limit.bound == "exactly":
        room = step * (HALF + NOISE) if limit.code == "block_weight" else tolerance(limit, exact, step)
    low = -inf if limit.bound == "at_most" else -room
    return _Held((*limit.row, 0.0), stands, low, inf if limit.bound == "at_least" else room)


def passed(limits: tuple[Limit, ...], weighed: PerMaterial) -> tuple[Limit, ...]:
    """Limits with a side that whole steps put the blend past."""
    return tuple(limit for limit in limits if limit.bound != "exactly" and not limit.is_kept(weighed, NOISE))


def is_coarse(weighed: PerMaterial, exact: PerMaterial) -> bool:
    """Whether an amount on the scale is off by so much that it is worth a word."""
    return any(abs(shown - wanted) > COARSE_SHARE * wanted for shown, wanted in zip(weighed, exact, strict=True))


def tolerance(limit: Limit, amounts: PerMaterial, step: Scaled) -> Scaled:
    """How far rounding may move the row of a limit: each amount that is used moves by less than a step."""
    return step * sum(abs(each) for each, amount in zip(limit.row, amounts, strict=True) if amount)


def told_tolerance(limit: Limit, amounts: PerMaterial, step: Scaled) -> Scaled:
    """The same, in the unit of the limit; without a scale, what the solver leaves open."""
    room = tolerance(limit, amounts, step) + NOISE * 10
    by: Scaled = 1.0 if limit.per is None else dot(limit.per, amounts)
    return room / by / limit.one if by > 0 else 0.0
