"""Whether a brine is cold enough for curing salt and meat."""

from math import ceil, floor
from typing import Literal

from service.calculations.curing.brining.outcomes import Outcome
from service.calculations.curing.brining.root import Number
from service.calculations.curing.timing.stages import COLDEST_C as MEAT_FREEZES_C
from service.quantities.quantity import F_PER_C, FREEZING_F, Units

COLD_ENOUGH_C = (40 - 32) / 1.8
"""40 degF: meat is cured at 36 to 40 degF (USDA farm bulletin on pork curing, reported)."""
ICED_C = 1.5
"""How far a temperature that was worked out may be off: unstirred ice, the pot, wet cubes (own bound)."""
A_LITTLE_C = 1e-9

Readiness = Literal["ready", "not_ready"]


def readiness_of(outcome: Outcome) -> Readiness | None:
    """Whether the brine is cold enough to go on and not so cold that meat freezes; None where that is not known."""
    if not outcome.stated:
        return None
    return "not_ready" if _is_too_cold(outcome) or _is_too_warm(outcome) else "ready"


def wait_for(outcome: Outcome, units: Units) -> str | None:
    """What to wait for, or None where there is nothing to wait for."""
    if readiness_of(outcome) != "not_ready":
        return None
    is_at = "is worked out to be" if outcome.cooling else "is"
    then = "only then weigh in curing salt and lay in meat."
    if _is_too_cold(outcome):
        now, least = _down(outcome.temperature_c, units), _up(MEAT_FREEZES_C, units)
        return (
            f"The brine {is_at} at {now}: meat freezes in it. Let it come up until you measure {least} or more; {then}"
        )
    now, cold = _up(outcome.temperature_c, units), _down(COLD_ENOUGH_C, units)
    return f"The brine {is_at} at {now}{_off(outcome, units)}. Wait until you measure {cold} or less in it; {then}"


def _is_too_cold(outcome: Outcome) -> bool:
    return outcome.temperature_c < MEAT_FREEZES_C - A_LITTLE_C


def _is_too_warm(outcome: Outcome) -> bool:
    return outcome.temperature_c + (ICED_C if outcome.cooling else 0.0) > COLD_ENOUGH_C + A_LITTLE_C


def _off(outcome: Outcome, units: Units) -> str:
    if not outcome.cooling:
        return ""
    return (
        f", and may be {ICED_C:g} degC warmer"
        if units == "metric"
        else f", and may be {ICED_C * F_PER_C:g} degF warmer"
    )


def _up(temperature_c: Number, units: Units) -> str:
    """To a tenth, and not colder than it is."""
    value, unit = _in(temperature_c, units)
    return f"{ceil(10 * value - 1e-6) / 10 + 0.0:g} {unit}"


def _down(temperature_c: Number, units: Units) -> str:
    """To a tenth, and not warmer than it is."""
    value, unit = _in(temperature_c, units)
    return f"{floor(10 * value + 1e-6) / 10 + 0.0:g} {unit}"


def _in(temperature_c: Number, units: Units) -> tuple[Number, str]:
    return (temperature_c, "degC") if units == "metric" else (F_PER_C * temperature_c + FREEZING_F, "degF")
