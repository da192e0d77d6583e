"""Why a brine cannot be, and the nearest one that can."""

from math import ceil, floor

from service.calculations.curing.brining.dissolving import (
    COLDEST_C,
    HYDRATE_C,
    coldest_of,
    is_dissolved,
    most_dissolved_fraction,
)
from service.calculations.curing.brining.freezing import EUTECTIC_FRACTION, freezing_point_c
from service.calculations.curing.brining.root import Number, plain
from service.calculations.refusals import Impossible

REASONS = {
    "brine_touched_meat": "A brine that meat has been in is not used again.",
    "above_saturation": "Water does not dissolve so much salt, or not in this cold.",
    "no_salt_in_it": "At this temperature the reading is that of water.",
    "outside_temperature_range": "The temperature is outside what the figures hold for.",
    "below_freezing": "A brine of this strength is partly ice at this temperature.",
    "concentrate_too_weak": "The concentrate is weaker than the brine that is to be made of it.",
    "more_ice_than_water": "More ice is asked for than water may be added.",
    "ice_left_over": "So much ice does not melt in this brine.",
    "pieces_do_not_fit": "The pieces and the brine that covers them do not fit into the vessel.",
}
"""Every way in which a brine cannot be made, read or cooled as asked."""

WARMEST_C, HOTTEST_C = 40.0, 100.0
"""The figures hold from -5 to 40 degC. Only a concentrate may be hotter: up to 100 degC."""
LIQUID_C = 1.0
"""Warm enough for any brine: no ice in it, and no salt out of it."""


def require_temperature(
    temperature_c: float, *, hottest_c: float, what: str, salt_fraction: Number | None = None, is_read: bool = False
) -> None:
    """A temperature that the figures hold for. Raises Impossible."""
    if COLDEST_C <= temperature_c <= hottest_c:
        return
    again = " and measure again" if is_read else ""
    warm_c = LIQUID_C if salt_fraction is None else coldest_of(salt_fraction)
    raise Impossible(
        code="outside_temperature_range",
        reason=f"{what} is at {temperature_c:.4g} degC; the figures hold from {COLDEST_C:g} to {hottest_c:g} degC.",
        nearest=f"Warm it to {_up(warm_c):g} degC or more{again}."
        if temperature_c < COLDEST_C
        else f"Let it cool to {hottest_c:g} degC or less{again}.",
    )


def touched_meat() -> Impossible:
    """What meat has been in is not mended."""
    return Impossible(
        code="brine_touched_meat",
        reason="Meat has been in this brine: what nitrite, salt and germs it holds is not known.",
        nearest="Throw it away, clean the vessel and make a new one (task make).",
    )


def no_salt(temperature_c: float, what: str, *, or_state: bool) -> Impossible:
    """A reading that water gives as well."""
    stated = ", or state a strength of 0.1 percent or more" if or_state else ""
    return Impossible(
        code="no_salt_in_it",
        reason=f"{what}, at {plain(temperature_c, 3):.4g} degC, is what water without salt shows.",
        nearest=f"Check the temperature and the instrument{stated}.",
    )


def over_saturation(temperature_c: float, what: str, *, margin_percent: float = 0.0, or_state: bool) -> Impossible:
    """More salt than there can be, and by more than the instrument may be off."""
    most_percent = _down(100 * most_dissolved_fraction(temperature_c))
    off = f", and a reading is within {margin_percent:g} percent" if margin_percent else ""
    where = "at 60 degF" if temperature_c >= HYDRATE_C else "in this cold, where the rest falls out"
    return Impossible(
        code="above_saturation",
        reason=f"{what}, at {plain(temperature_c, 3):.4g} degC, would be a brine of more than "
        f"{most_percent + margin_percent:.5g} percent: water dissolves {most_percent:.5g} percent {where}{off}.",
        nearest="Check the temperature and how the instrument is graded"
        + (f", or state {most_percent:.5g} percent." if or_state else "."),
    )


def require_liquid(salt_fraction: float, *, temperature_c: float, is_read: bool = False) -> None:
    """A brine out of which neither ice nor salt has begun to fall. Raises Impossible."""
    has, at = f"{100 * salt_fraction:.4g} percent", f"{plain(temperature_c, 3):.4g} degC"
    warmer = f"Stay at {_up(coldest_of(salt_fraction) + 0.1):g} degC or warmer"
    again = f"Warm the brine to {LIQUID_C:g} degC or more and measure again."
    freezing_c = freezing_point_c(min(salt_fraction, EUTECTIC_FRACTION))
    if temperature_c < freezing_c:
        raise Impossible(
            code="below_freezing",
            reason=f"A brine of {has} begins to freeze at {plain(freezing_c, 3):.3g} degC; {at} is below that.",
            nearest=again if is_read else f"{warmer}, or make it stronger.",
        )
    if not is_dissolved(salt_fraction, temperature_c=temperature_c):
        most_percent = _down(100 * most_dissolved_fraction(temperature_c))
        raise Impossible(
            code="above_saturation",
            reason=f"Below {HYDRATE_C:g} degC salt falls out as a hydrate: at {at} about {most_percent:.5g} percent "
            f"stay dissolved, and this brine has {has}.",
            nearest=again if is_read else f"{warmer}, or make it {most_percent:.5g} percent or weaker.",
        )


def _up(temperature_c: Number) -> Number:
    return ceil(100 * temperature_c - 1e-6) / 100 + 0.0


def _down(salt_percent: Number) -> Number:
    return floor(1000 * salt_percent + 1e-6) / 1000
