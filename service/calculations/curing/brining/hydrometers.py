"""What a hydrometer shows, and how strong the brine is in truth."""

from collections.abc import Iterator

from service.calculations.curing.brining.density import SATURATED_FRACTION
from service.calculations.curing.brining.dissolving import most_dissolved_fraction
from service.calculations.curing.brining.instruments import READ_PERCENT, Hydrometer
from service.calculations.curing.brining.outcomes import HydrometerResult, Outcome
from service.calculations.curing.brining.reckoning import GRADED_AT_C, fraction_on_stem, fraction_read, temperature_of
from service.calculations.curing.brining.root import Number, plain
from service.calculations.curing.brining.scales import salometer_deg
from service.calculations.curing.brining.tasks import ReadHydrometer
from service.calculations.curing.brining.warning import OF_READING


def read(task: ReadHydrometer) -> Outcome:
    """How strong the brine is in which an instrument shows this. Raises Impossible."""
    at_c = temperature_of(task.temperature)
    floated, shown = fraction_read(task.hydrometer, at_c), fraction_on_stem(task.hydrometer)
    true = min(floated, most_dissolved_fraction(at_c))
    true_deg, shown_deg = salometer_deg(true), salometer_deg(shown)
    return Outcome(
        salt_fraction=true,
        temperature_c=at_c,
        stated=False,
        mass_g=None,
        items=(),
        steps=(*_steps(at_c, floated_fraction=floated, shown_fraction=shown), *_saturated(floated, true_fraction=true)),
        cautions=OF_READING,
        reading=HydrometerResult.of(
            shown_percent=plain(100 * shown, 3),
            shown_salometer_deg=plain(shown_deg, 2),
            correction_deg=plain(true_deg - shown_deg, 2),
            instrument=_graded(task.hydrometer),
        ),
    )


def _steps(temperature_c: Number, *, floated_fraction: float, shown_fraction: float) -> Iterator[str]:
    true_deg, shown_deg = salometer_deg(floated_fraction), salometer_deg(shown_fraction)
    yield (
        f"The marks mean {100 * shown_fraction:.5g} percent ({shown_deg:.4g} degrees salometer) in a brine at the "
        "temperature of the stem."
    )
    yield (
        f"A brine that floats it to the same mark at {temperature_c:.4g} degC is {100 * floated_fraction:.5g} "
        f"percent ({true_deg:.4g} degrees salometer): correction {plain(true_deg - shown_deg, 2):+.2f} degrees."
    )


def _saturated(floated_fraction: float, *, true_fraction: float) -> Iterator[str]:
    if floated_fraction > true_fraction:
        yield (
            f"Water dissolves {100 * true_fraction:.5g} percent {_where(true_fraction)}; the reading is "
            f"{100 * (floated_fraction - true_fraction):.2g} percent above it, and may be {READ_PERCENT:g} off: "
            "the brine is told as saturated."
        )


def _where(most_fraction: float) -> str:
    return "at 60 degF" if most_fraction == SATURATED_FRACTION else "at this temperature"


def _graded(hydrometer: Hydrometer) -> str:
    if hydrometer.kind == "baume":
        return "Baume, American scale (145), 60 degF"
    stem = hydrometer.graded_at.replace("_", " ")
    if hydrometer.kind == "specific_gravity":
        return f"specific gravity, graded at {stem} ({GRADED_AT_C[hydrometer.graded_at]:.2f} degC)"
    full = "saturation (26.395 percent)" if hydrometer.full_scale == "saturated" else "25 percent"
    return f"salometer, graded at {stem}, 100 degrees are {full}"
