"""What a hydrometer shows, and how strong the brine is in truth."""

from collections.abc import Iterator

from service.calculations.curing.brining.instruments import Hydrometer
from service.calculations.curing.brining.outcomes import HydrometerResult, Outcome
from service.calculations.curing.brining.reckoning import GRADED_AT_C, fraction_on_stem, fraction_read
from service.calculations.curing.brining.scales import salometer_deg
from service.calculations.curing.brining.tasks import ReadHydrometer
from service.calculations.curing.brining.warning import OF_READING


def read(task: ReadHydrometer) -> Outcome:
    """How strong the brine is in which an instrument shows this. Raises Impossible."""
    true, shown = fraction_read(task.hydrometer, task.temperature.c), fraction_on_stem(task.hydrometer)
    true_deg, shown_deg = salometer_deg(true), salometer_deg(shown)
    return Outcome(
        salt_fraction=true,
        temperature_c=task.temperature.c,
        stated=False,
        mass_g=None,
        items=(),
        steps=tuple(_steps(task, true_fraction=true, shown_fraction=shown)),
        cautions=OF_READING,
        reading=HydrometerResult.of(
            shown_percent=round(100 * shown, 3),
            shown_salometer_deg=round(shown_deg, 2),
            correction_deg=round(true_deg - shown_deg, 2),
            instrument=_graded(task.hydrometer),
        ),
    )


def _steps(task: ReadHydrometer, *, true_fraction: float, shown_fraction: float) -> Iterator[str]:
    true_deg, shown_deg = salometer_deg(true_fraction), salometer_deg(shown_fraction)
    yield (
        f"The marks mean {100 * shown_fraction:.5g} percent ({shown_deg:.4g} degrees salometer) in a brine at the "
        "temperature of the stem."
    )
    yield (
        f"A brine that floats it to the same mark at {task.temperature.c:.4g} degC is {100 * true_fraction:.5g} "
        f"percent ({true_deg:.4g} degrees salometer): correction {true_deg - shown_deg:+.2f} degrees."
    )


def _graded(hydrometer: Hydrometer) -> str:
    if hydrometer.kind == "baume":
        return "Baume, American scale (145), 60 degF"
    stem = hydrometer.graded_at.replace("_", " ")
    if hydrometer.kind == "specific_gravity":
        return f"specific gravity, graded at {stem} ({GRADED_AT_C[hydrometer.graded_at]:.2f} degC)"
    full = "saturation (26.395 percent)" if hydrometer.full_scale == "saturated" else "25 percent"
    return f"salometer, graded at {stem}, 100 degrees are {full}"
