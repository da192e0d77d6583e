"""The amounts as the scale shows them: whole steps, together as near to the block as steps allow."""

from collections.abc import Iterator
from itertools import permutations
from math import floor

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


def neighbour(weighed: PerMaterial, exact: PerMaterial, limits: tuple[Limit, ...], step: Scaled) -> PerMaterial | None:
    """The nearest blend a step away that keeps what rounding broke; None where there is none.

    Limits that are exact stay within their tolerance, and a block of an exact weight keeps its weight.
    """
    used_up = {limit.column for limit in limits if limit.code == "use_up"}
    free = [number for number, amount in enumerate(exact) if amount and number not in used_up]
    broken = [limit for limit in limits if not _is_kept(limit, weighed, exact, step)]
    watched = [*broken, *(limit for limit in limits if limit not in broken)]
    kept = [
        each for each in _steps_away(weighed, free, step) if all(_is_kept(one, each, exact, step) for one in watched)
    ]
    return min(kept, key=lambda each: sum((a - b) ** 2 for a, b in zip(each, exact, strict=True)), default=None)


def _steps_away(weighed: PerMaterial, free: list[int], step: Scaled) -> Iterator[PerMaterial]:
    """A step from one material to another, a step more of one, a step less of one."""
    for less, more in permutations([*free, None], 2):
        changed = list(weighed)
        if more is not None:
            changed[more] += step
        if less is not None:
            changed[less] = max(changed[less] - step, 0.0) if changed[less] >= step * HALF else -1.0
        if min(changed) >= 0:
            yield tuple(changed)


def _is_kept(limit: Limit, amounts: PerMaterial, exact: PerMaterial, step: Scaled) -> bool:
    if limit.code == "block_weight" and limit.bound == "exactly":
        return limit.is_kept(amounts, step * (HALF + NOISE))
    return limit.is_kept(amounts, tolerance(limit, exact, step) if limit.bound == "exactly" else NOISE)


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
