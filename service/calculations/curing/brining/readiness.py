"""Whether a brine is cold enough for curing salt and meat."""

from typing import Literal

from service.calculations.curing.brining.outcomes import Outcome
from service.calculations.curing.brining.told import told_temperature
from service.quantities.quantity import Units

COLD_ENOUGH_C = (40 - 32) / 1.8
"""40 degF: meat is cured at 36 to 40 degF (USDA farm bulletin on pork curing, reported)."""
ICED_C = 1.5
"""How far a temperature that was worked out may be off: unstirred ice, the pot, wet cubes (own bound)."""

Readiness = Literal["ready", "not_ready"]


def readiness_of(outcome: Outcome) -> Readiness | None:
    """Whether the brine is cold enough to go on, or None where its temperature is not known."""
    if not outcome.stated:
        return None
    warmest_c = outcome.temperature_c + (ICED_C if outcome.cooling else 0.0)
    return "ready" if warmest_c <= COLD_ENOUGH_C + 1e-9 else "not_ready"


def wait_for(outcome: Outcome, units: Units) -> str | None:
    """What to wait for, or None where there is nothing to wait for."""
    if readiness_of(outcome) != "not_ready":
        return None
    now, cold = told_temperature(outcome.temperature_c, units), told_temperature(COLD_ENOUGH_C, units)
    is_at = "is worked out to be" if outcome.cooling else "is"
    return (
        f"The brine {is_at} at {now.value:g} {now.unit}. Wait until you measure {cold.value:g} {cold.unit} or less in "
        "it; only then weigh in curing salt and lay in meat."
    )
