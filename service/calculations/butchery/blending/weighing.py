"""The amounts as the scale shows them: whole steps, together as near to the block as steps allow."""

from math import floor

from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled, dot
from service.calculations.butchery.blending.programme import column_span

NOISE: Scaled = 1e-9
"""Of a step: a count this close under a whole number is that number."""
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
