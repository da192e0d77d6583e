"""How exact the figures of a brine are, what comes after the arithmetic, and where they are printed."""

from service.calculations.curing.brining.dissolving import COLDEST_C
from service.calculations.curing.brining.instruments import READ_PERCENT
from service.calculations.curing.brining.outcomes import Outcome
from service.calculations.curing.brining.readiness import ICED_C
from service.calculations.curing.brining.refusing import HOTTEST_C, WARMEST_C
from service.calculations.curing.brining.strengths import Baume, Salometer, SpecificGravity
from service.calculations.curing.brining.tasks import Adjust, Make, ReadHydrometer, Task
from service.calculations.curing.brining.told import ToldTemperature, told_temperature
from service.quantities.models import Answer
from service.quantities.quantity import Units

WEIGHED_PERCENT = 0.1
"""Own bound: formulas and dry salt of the shelf."""

CURING_SALT = "Curing salt goes in only once the brine is cold, by weight: POST /v1/curing/dose says how much."

DENSITY = (
    "CRC Handbook of Chemistry and Physics, 102nd ed., 2021, Concentrative Properties of Aqueous Solutions (reported)",
    "M. Laliberte, J. Chem. Eng. Data 54 (2009), 1725-1760 (reported)",
    "Salometer table for 60 degF, reprinted on a public page (reported)",
    "American Baume scale, 145 - 145/SG, 60/60 degF (reported)",
)
HYDRATE = (
    "Salt that stays dissolved: 23.3 percent at -21.1 degC, Lange's Handbook of Chemistry, 15th ed., Table 5.13 "
    "(reported); 26.3 at 0.1 degC (from memory); the line between: own interpolation"
)
STEM = "The Salometer and How to Use It, a trade leaflet on salometers and how they are graded (reported)"
HEAT = (
    "IAPWS Formulation 1995 for the heat capacity of water (fitted here)",
    "Heat of fusion of ice 333.55 kJ/kg: CRC Handbook of Chemistry and Physics (from memory)",
    "Heat capacity of ice: Choi and Okos, 1986 (reported)",
)
COLD = "Curing at 36 to 40 degF: USDA farm bulletin on pork curing (reported)"
COVER = (
    "Density of raw meat, 1.0635 to 1.0672: review of meat technology on a public page (reported)",
    "Packing and head-space: common practice, no source",
)


class Uncertainty(Answer):
    """How far the figures may be off, and for what they hold."""

    strength_percent: float
    """Plus or minus, in percent of salt by weight. For pure dry salt; more where one was read on an instrument."""
    temperature_c: float | None
    """Plus or minus, in degrees Celsius, of a temperature that was worked out; null where none was."""
    valid_from: ToldTemperature
    """The coldest brine that the figures hold for."""
    valid_to: ToldTemperature
    """The hottest: 40 degC (104 degF), up to which density is held against a second source; a concentrate that is
    cooled, 100 degC."""
    valid_for: str
    """The rest of their range, in words."""


def uncertainty_of(task: Task, outcome: Outcome, units: Units) -> Uncertainty:
    """How far the figures of this task may be off."""
    return Uncertainty.of(
        strength_percent=READ_PERCENT if _was_read(task) else WEIGHED_PERCENT,
        temperature_c=ICED_C if outcome.cooling else None,
        valid_from=told_temperature(COLDEST_C, units),
        valid_to=told_temperature(HOTTEST_C if outcome.cooling else WARMEST_C, units),
        valid_for="Salt (sodium chloride) and water only, up to 26.395 percent. Sugar, spice and curing salt make a "
        "brine heavier: a hydrometer no longer reads its salt.",
    )


def _was_read(task: Task) -> bool:
    """Whether any strength is of an instrument: by its scale, or of a brine at hand in degrees salometer."""
    if isinstance(task, ReadHydrometer):
        return True
    if isinstance(task, Make):
        return isinstance(task.strength, SpecificGravity | Baume)
    at_hand = task.strength if isinstance(task, Adjust) else task.concentrate.strength
    return isinstance(at_hand, Salometer | SpecificGravity | Baume) or isinstance(task.wanted, SpecificGravity | Baume)


def steps_of(outcome: Outcome) -> tuple[str, ...]:
    """The arithmetic, and what comes after it."""
    return outcome.steps if outcome.reading else (*outcome.steps, CURING_SALT)


def sources_of(outcome: Outcome) -> tuple[str, ...]:
    """Where the figures of this task are printed."""
    return (
        *DENSITY,
        HYDRATE,
        *((STEM,) if outcome.reading else (COLD,)),
        *(HEAT if outcome.cooling else ()),
        *(COVER if outcome.vessel else ()),
    )
