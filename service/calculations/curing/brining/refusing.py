"""Why a brine cannot be, and the nearest one that can."""

from service.calculations.curing.brining.freezing import EUTECTIC_FRACTION, freezing_point_c
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_down

REASONS = {
    "brine_touched_meat": "A brine that meat has been in is not used again.",
    "above_saturation": "Water does not dissolve so much salt.",
    "no_salt_in_it": "At this temperature the reading is that of water.",
    "outside_temperature_range": "The temperature is outside what the figures hold for.",
    "below_freezing": "A brine of this strength is partly ice at this temperature.",
    "concentrate_too_weak": "The concentrate is weaker than the brine that is to be made of it.",
    "more_ice_than_water": "More ice is asked for than water may be added.",
    "ice_left_over": "So much ice does not melt in this brine.",
    "pieces_do_not_fit": "The pieces and the brine that covers them do not fit into the vessel.",
}
"""Every way in which a brine cannot be made, read or cooled as asked."""

COLDEST_C, WARMEST_C, HOTTEST_C, COLDEST_ICE_C = -5.0, 40.0, 100.0, -40.0
"""The figures hold from -5 to 40 degC; a concentrate and cold water may be as hot as boiling water."""


def require_temperature(temperature_c: float, *, hottest_c: float, what: str) -> None:
    """A temperature that the figures hold for. Raises Impossible."""
    if COLDEST_C <= temperature_c <= hottest_c:
        return
    cold = temperature_c < COLDEST_C
    raise Impossible(
        code="outside_temperature_range",
        reason=f"{what} is at {temperature_c:.4g} degC; the figures hold from {COLDEST_C:g} to {hottest_c:g} degC.",
        nearest=f"Warm it to {COLDEST_C:g} degC or more." if cold else f"Let it cool to {hottest_c:g} degC or less.",
    )


def touched_meat() -> Impossible:
    """What meat has been in is not mended."""
    return Impossible(
        code="brine_touched_meat",
        reason="Meat has been in this brine: what nitrite, salt and germs it holds is not known.",
        nearest="Throw it away, clean the vessel and make a new one (task make).",
    )


def no_salt(temperature_c: float, what: str) -> Impossible:
    """A reading that water gives as well."""
    return Impossible(
        code="no_salt_in_it",
        reason=f"{what}, at {temperature_c:.4g} degC, is what water without salt shows.",
        nearest="Check the temperature and the instrument, or state a strength of 0.1 percent or more.",
    )


def over_saturation(temperature_c: float, what: str) -> Impossible:
    """More salt than there can be."""
    return Impossible(
        code="above_saturation",
        reason=f"{what}, at {temperature_c:.4g} degC, would be a brine of more than {SATURATED_BRINE_SALT_PERCENT} "
        "percent, which is all that water dissolves.",
        nearest="Check the temperature and how the instrument is graded, or state "
        f"{SATURATED_BRINE_SALT_PERCENT} percent.",
    )


def too_weak(concentrate_fraction: float, *, wanted_fraction: float) -> Impossible:
    """Water makes no brine stronger."""
    has = f"{rounded_down(100 * concentrate_fraction):g} percent"
    return Impossible(
        code="concentrate_too_weak",
        reason=f"The concentrate is {has}; {100 * wanted_fraction:.4g} percent is wanted.",
        nearest=f"Ask for {has} or less, or dissolve more salt in it (task adjust).",
    )


def require_liquid(salt_fraction: float, *, temperature_c: float) -> None:
    """A brine that has not begun to freeze. Raises Impossible."""
    coldest = freezing_point_c(min(salt_fraction, EUTECTIC_FRACTION))
    if temperature_c < coldest:
        raise Impossible(
            code="below_freezing",
            reason=f"A brine of {100 * salt_fraction:.4g} percent begins to freeze at "
            f"{coldest:.3g} degC; {temperature_c:.3g} degC is below that.",
            nearest=f"Stay at {coldest + 0.1:.2f} degC or warmer, or make it stronger.",
        )


def require_ice(ice_c: float) -> None:
    """Ice as a kitchen has it. Raises Impossible."""
    if COLDEST_ICE_C <= ice_c <= 0:
        return
    raise Impossible(
        code="outside_temperature_range",
        reason=f"The ice is at {ice_c:.4g} degC; the figures hold from {COLDEST_ICE_C:g} to 0 degC.",
        nearest=f"Take ice of {COLDEST_ICE_C if ice_c < 0 else 0:g} degC; above 0 degC it is water.",
    )


def more_ice_than_water(ice_kg: float, *, added_kg: float, most_kg: float, reached_c: float) -> Impossible:
    """There is no room for so much ice beside the salt."""
    return Impossible(
        code="more_ice_than_water",
        reason=f"{ice_kg:,.4g} kg of ice; only {added_kg:,.4g} kg of water and ice together bring it to the strength.",
        nearest=f"{_with_ice(most_kg, reached_c=reached_c)} Then let it cool in the cold room, or start from a "
        "stronger or cooler concentrate.",
    )


def ice_left_over(ice_kg: float, *, coldest_c: float, most_kg: float, reached_c: float) -> Impossible:
    """Some of the ice stays ice, and the brine is stronger than it is meant to be."""
    return Impossible(
        code="ice_left_over",
        reason=f"With {ice_kg:,.4g} kg of ice it would come below {coldest_c:.3g} degC, where ice stays in it or the "
        "figures end.",
        nearest=_with_ice(most_kg, reached_c=reached_c),
    )


def _with_ice(most_kg: float, *, reached_c: float) -> str:
    return f"With {rounded_down(most_kg):g} kg of ice, the most that can go in, it comes to {reached_c:.3g} degC."
