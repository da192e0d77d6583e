"""POST /v1/curing/brine: how strong a brine is, what to weigh for it, and how cold it gets."""

from typing import Literal

from service.calculations.curing.brining.adjusting import adjusted
from service.calculations.curing.brining.explaining import Uncertainty, sources_of, steps_of, uncertainty_of
from service.calculations.curing.brining.hydrometers import read
from service.calculations.curing.brining.icing import cooled
from service.calculations.curing.brining.making import made
from service.calculations.curing.brining.outcomes import CoolingResult, HydrometerResult, Outcome, VesselResult
from service.calculations.curing.brining.readiness import Readiness, readiness_of, wait_for
from service.calculations.curing.brining.refusing import REASONS
from service.calculations.curing.brining.tasks import Task
from service.calculations.curing.brining.told import BrineFigures, BrineItem, figures_of, item
from service.calculations.declaration import Calculation
from service.quantities.models import Answer, Request
from service.quantities.quantity import Units
from service.rules.book import Engine, RuleBook
from service.rules.rule import Caution


class BrineRequest(Request):
    """A brine of salt and water: to make, to read, to adjust or to cool."""

    task: Task
    """What is asked."""
    units: Units = "metric"
    """Units for weights, volumes and temperatures in the answer; arithmetic is in grams and degrees Celsius."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class BrineAnswer(Answer):
    """The brine on every scale of the trade, what to weigh for it, and whether it is cold enough to go on."""

    task: Literal["make", "read", "adjust", "cool"]
    """What was asked."""
    weigh: tuple[BrineItem, ...]
    """What to put together; empty for a reading."""
    brine: BrineFigures
    """The brine that comes of it; for a reading, the brine that was read."""
    reading: HydrometerResult | None
    """What the instrument shows and how far that is off; null for other tasks."""
    cooling: CoolingResult | None
    """How cold it gets; null for other tasks."""
    vessel: VesselResult | None
    """How the pieces lie; null where none were stated."""
    readiness: Readiness | None
    """ready from -1 degC to 40 degF (4.4 degC), else not_ready: about cold alone. Colder, meat freezes. A temperature
    that was worked out must be below 40 degF by its uncertainty. Null where none was stated, and for a reading."""
    wait_for: str | None
    """What to wait for before curing salt and meat go in; null where there is nothing to wait for."""
    uncertainty: Uncertainty
    """How far these figures may be off, and the range in which they hold."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you begin."""
    sources: tuple[str, ...]
    """Where the figures are printed and how that is known; empty in brief."""
    engine: Engine
    """What computed this."""


def brine(request: BrineRequest, book: RuleBook) -> BrineAnswer:
    """How strong a brine is on every scale, what salt, water and ice to weigh for it, and when it is cold enough.

    - `make`: salt and water for a strength, for an amount of brine, for water at hand, or to cover pieces in a vessel.
    - `read`: what a salometer or hydrometer shows, and what that is at the temperature of the brine.
    - `adjust`: water or salt to bring a brine to another strength. One that meat has been in is refused.
    - `cool`: cold water and ice for a hot concentrate, by a balance of salt and of heat.

    **No curing salt is worked out here.** It goes in only once the brine is cold, by weight: `POST /v1/curing/dose`.
    Readiness speaks of cold alone. Your local code and your inspector come before this answer.
    """
    task, units = request.task, request.units
    outcome = _outcome(request)
    full = request.detail == "full"
    return BrineAnswer.of(
        task=task.kind,
        weigh=tuple(item(what, mass_g, units) for what, mass_g in outcome.items if mass_g > 0),
        brine=figures_of(
            outcome.salt_fraction, temperature_c=outcome.temperature_c, mass_g=outcome.mass_g, units=units
        ),
        reading=outcome.reading,
        cooling=outcome.cooling,
        vessel=outcome.vessel,
        readiness=readiness_of(outcome),
        wait_for=wait_for(outcome, units),
        uncertainty=uncertainty_of(task, outcome, units),
        steps=steps_of(outcome) if full else (),
        cautions=book.cautions_of(outcome.cautions),
        sources=sources_of(outcome) if full else (),
        engine=book.engine,
    )


def _outcome(request: BrineRequest) -> Outcome:
    task, units = request.task, request.units
    match task.kind:
        case "make":
            return made(task, units)
        case "read":
            return read(task)
        case "adjust":
            return adjusted(task)
        case "cool":
            return cooled(task, units)


BRINE = Calculation(
    name="curing/brine",
    summary="Make, read, adjust or cool a brine",
    request=BrineRequest,
    answer=BrineAnswer,
    run=brine,
    reasons=REASONS,
)
