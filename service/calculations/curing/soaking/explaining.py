"""The arithmetic of a soak in lines a person can follow, and where it is printed."""

from collections.abc import Iterator

from service.calculations.curing.soaking.telling import Hours
from service.calculations.curing.soaking.waters import Soak
from service.calculations.curing.timing.explaining import SOURCES as DIFFUSION_SOURCES
from service.calculations.curing.timing.explaining import speeds_at, way

SOURCES = DIFFUSION_SOURCES[:-1]


def steps_of(soak: Soak, hours: Hours) -> tuple[str, ...]:
    """A line each: the way out, the salt, each water, the hours."""
    return tuple(_steps(soak, hours))


def _steps(soak: Soak, hours: Hours) -> Iterator[str]:
    contents = soak.contents
    for axis in soak.piece.axes:
        yield way(axis)
    yield f"{contents.salt_g:,.4g} g of salt in {contents.water_g:,.5g} g of water in {contents.meat_g:,.5g} g of meat."
    yield (
        f"Each water is {soak.bath_g / contents.water_g:.3g} times the water in the meat, fresh every "
        f"{soak.change_every_h:.4g} hours; at {soak.temperature_c:.3g} degC {speeds_at(soak.temperature_c)}."
    )
    span = f"{hours.typical:.4g} hours ({hours.low:.4g} to {hours.high:.4g})"
    yield f"The whole piece is down to {soak.wanted_percent:.4g} percent after {span}."
