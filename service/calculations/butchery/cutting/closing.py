"""Whether parts and losses come to what was bought: the verdict, and what it rests on."""

from typing import Literal

from service.calculations.butchery.cutting.parts import NOISE_FRACTION, ClosureCode, CutUp
from service.calculations.butchery.cutting.told import share_percent, weight_of
from service.calculations.butchery.cutting.wording import digits_beside, listed, said, said_percent
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight
from service.rules.checker import Verdict

USUAL_TOLERANCE_PERCENT = 2.0
"""Of what was bought (common practice, no source; a textbook example loses 4 oz of 38 lb 12 oz, 0.6 percent)."""

CLOSURES: dict[str, str] = {
    "closes": "Parts and losses come to what was bought, within the tolerance.",
    "weight_missing": "Parts and losses weigh less than what was bought, by more than the tolerance.",
    "too_much_weight": "Parts and losses weigh more than what was bought, by more than the tolerance.",
    "part_not_weighed": "A part was not weighed, so nothing can be said of the rest.",
    "scale_too_coarse": "The steps of the scale are too coarse to tell whether the test closes.",
}


class Closure(Answer):
    """What was bought, less parts and losses."""

    verdict: Verdict
    """met, not_met or cannot_tell."""
    code: ClosureCode
    """Stable code of the message, for translation."""
    message: str
    """The same in a sentence."""
    difference: Weight
    """What was bought, less all that was weighed; negative where the parts weigh more."""
    difference_percent: float
    """Likewise, of what was bought."""
    tolerance: Weight
    """How much of a difference is allowed."""
    tolerance_percent: float
    """Likewise, of what was bought."""
    tolerance_is: Literal["stated", "common_practice"]
    """common_practice: none was stated; no authority sets one."""
    weighings: int
    """How often something was laid on the scale, the purchase among them."""
    resolution: Weight | None
    """What all these weighings may be off together by the steps of the scale; null where its step is not stated."""
    left_over: Weight | None
    """What all parts that were not weighed can come to together at most; null where each was weighed, or nothing is
    left over."""


def closure_of(test: CutUp, units: Units, *, tolerance_percent: float | None) -> Closure:
    """The difference held against the tolerance."""
    verdict, code = test.closing
    return made(
        Closure,
        verdict=verdict,
        code=code,
        message=_message(test, code, units),
        difference=weight_of(test.unaccounted_g, units),
        difference_percent=share_percent(test.unaccounted_g, whole_g=test.purchased_g),
        tolerance=weight_of(test.tolerance_g, units),
        tolerance_percent=USUAL_TOLERANCE_PERCENT if tolerance_percent is None else tolerance_percent,
        tolerance_is="common_practice" if tolerance_percent is None else "stated",
        weighings=test.weighings,
        resolution=weight_of(test.resolution_g, units) if test.step_g else None,
        left_over=weight_of(test.left_over_g, units) if test.left_over_g else None,
    )


def _message(test: CutUp, code: ClosureCode, units: Units) -> str:
    off_g, allowed_percent = abs(test.unaccounted_g), 100 * test.tolerance_fraction
    percent = 100 * off_g / test.purchased_g
    is_over = off_g > test.tolerance_g + NOISE_FRACTION * test.purchased_g
    digits = digits_beside(percent, allowed_percent=allowed_percent, is_over=is_over)
    off = f"{said(off_g, units, digits=digits)} ({said_percent(percent, digits=digits)} of what was bought)"
    allowed = f"{allowed_percent:.10g} percent is allowed"
    if code == "closes":
        return _how_it_closes(test, off, allowed)
    if code == "weight_missing":
        return f"{off} is missing; {allowed}. Look for a part that was left out, purge, drip, and the scale."
    if code == "too_much_weight":
        return f"{off} more was weighed than was bought; {allowed}. Look for a wrong weight or unit, or water."
    if code == "scale_too_coarse":
        coarse = f"{test.weighings} weighings may be off by {said(test.resolution_g, units)} together"
        return f"The difference is {off}, and {coarse}: nothing can be told. Take a finer scale."
    if not test.left_over_g:
        return f"Not weighed: {listed(test.unweighed)}. Nothing is left over."
    return f"Not weighed: {listed(test.unweighed)}. Together that is {said(test.left_over_g, units)} at most."


def _how_it_closes(test: CutUp, off: str, allowed: str) -> str:
    if abs(test.unaccounted_g) <= NOISE_FRACTION * test.purchased_g:
        return "Parts and losses are what was bought."
    if abs(test.unaccounted_g) <= test.resolution_g:
        return f"The difference of {off} is no more than the scale can tell."
    which = "is not accounted for" if test.unaccounted_g > 0 else "more was weighed than was bought"
    return f"{off} {which}; {allowed}."
