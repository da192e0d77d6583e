"""Why a concentrate cannot be cooled as asked, and the nearest that can be done."""

from service.calculations.curing.brining.dissolving import is_dissolved
from service.calculations.curing.brining.refusing import WARMEST_C, require_temperature
from service.calculations.curing.brining.root import Number, plain
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_down

COLDEST_ICE_C = -40.0
LEAST_ICE_KG = 1e-6
"""Less ice than this nobody weighs."""


def too_weak(concentrate_fraction: float, *, wanted_fraction: float, offered_percent: float | None) -> Impossible:
    """Water makes no brine stronger."""
    dissolve = "issolve more salt in it (task adjust)"
    return Impossible(
        code="concentrate_too_weak",
        reason=f"The concentrate is {100 * concentrate_fraction:.4g} percent; {100 * wanted_fraction:.4g} percent is "
        "wanted.",
        nearest=f"D{dissolve}." if offered_percent is None else f"Ask for {offered_percent:g} percent, or d{dissolve}.",
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


def require_water(water_c: float) -> None:
    """Water that is neither ice nor hot. Raises Impossible."""
    if water_c < 0:
        raise Impossible(
            code="below_freezing",
            reason=f"The cold water is at {water_c:.4g} degC; water freezes at 0 degC.",
            nearest="Take water of 0 degC or warmer; what is colder is ice.",
        )
    require_temperature(water_c, hottest_c=WARMEST_C, what="The cold water")


def cold_without_ice(reached_c: float, *, coldest_c: float, wanted_fraction: float) -> Impossible:
    """Cold water alone takes it to where ice or salt falls out."""
    return Impossible(
        code="below_freezing" if is_dissolved(wanted_fraction, temperature_c=reached_c) else "above_saturation",
        reason=f"With cold water alone it comes to {plain(reached_c, 3):.3g} degC, below "
        f"{plain(coldest_c, 3):.3g} degC, where ice or salt falls out of it.",
        nearest="Add no ice, and let concentrate and water come up to 1 degC or more before they go together.",
    )


def more_ice_than_water(ice_kg: float, *, added_kg: float, most_kg: float, reached_c: float) -> Impossible:
    """There is no room for so much ice beside the salt."""
    then = "You may also" if most_kg < LEAST_ICE_KG else "Then let it cool in the cold room, or"
    return Impossible(
        code="more_ice_than_water",
        reason=f"{ice_kg:,.4g} kg of ice; only {added_kg:,.4g} kg of water and ice together bring it to the strength.",
        nearest=f"{_with_ice(most_kg, reached_c=reached_c)} {then} start from a stronger or cooler concentrate.",
    )


def ice_left_over(ice_kg: float, *, coldest_c: float, most_kg: float, reached_c: float) -> Impossible:
    """Some of the ice stays ice, and the brine is stronger than it is meant to be."""
    return Impossible(
        code="ice_left_over",
        reason=f"With {ice_kg:,.4g} kg of ice it would come below {plain(coldest_c, 3):.3g} degC, where ice stays in "
        "it, salt falls out or the figures end.",
        nearest=_with_ice(most_kg, reached_c=reached_c),
    )


def _with_ice(most_kg: Number, *, reached_c: Number) -> str:
    if most_kg < LEAST_ICE_KG:
        return "Add no ice; let it cool in the cold room."
    most = f"{rounded_down(most_kg):g} kg" if most_kg >= 1e-3 else f"{rounded_down(1000 * most_kg):g} g"
    return f"With {most} of ice, the most that can go in, it comes to {plain(reached_c, 3):.3g} degC."
