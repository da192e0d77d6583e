"""Which cautions belong to a brine: each has its trigger here and its words in the rule data."""

from service.calculations.curing.brining.outcomes import VesselResult

OF_BRINE = (
    "curing-salt-when-cold",
    "hot-brine",
    "no-brine-reuse",
    "keep-cold-while-curing",
    "foil-salt-acid",
    "local-code",
)
OF_READING = ("read-the-stem", "no-brine-reuse", "local-code")
OF_COOLING = ("weigh-ice", "probe-check")


def of_made(vessel: VesselResult | None, *, water_by_volume: bool) -> tuple[str, ...]:
    """For a brine that is made."""
    ids = OF_BRINE
    if vessel is not None:
        ids = (*ids, "raw-meat-hygiene", "covering-is-a-guess", *(("pieces-float",) if vessel.floats else ()))
    return (*ids, "weigh-ice") if water_by_volume else ids


def of_adjusted() -> tuple[str, ...]:
    """For a brine that is brought to another strength."""
    return OF_BRINE


def of_cooled() -> tuple[str, ...]:
    """For a concentrate that is cooled with water and ice."""
    return (*OF_BRINE, *OF_COOLING)
