"""What is not soaked, with the nearest thing that can be done."""

from bisect import bisect_left
from collections.abc import Iterator
from math import ceil, floor, inf

from service.calculations.curing.diffusing.relaxation import MEAN
from service.calculations.curing.pieces import THINNEST_MM
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT
from service.calculations.curing.soaking.following import Waters
from service.calculations.curing.soaking.waters import LONGEST_H, Reached, Soak
from service.calculations.curing.timing.stages import REASONS as STAGE_REASONS
from service.calculations.curing.timing.stages import USUAL_COLD, WARMEST_C, require_cold_c
from service.calculations.curing.timing.validity import VALIDITY as VALIDITY_OF_CURES
from service.calculations.curing.timing.validity import Validity
from service.calculations.refusals import Impossible

FREEZING_C = 0.0
"""Of fresh water (exact enough: the old definition of the Celsius scale)."""
SHORTEST_CHANGE_H, USUAL_CHANGE_H = 2.0, 12.0
PLENTY_RATIO = 20.0
"""Water to meat by weight that is as good as more of it (own bound)."""

VALIDITY = Validity.of(**vars(VALIDITY_OF_CURES) | {"from_c": FREEZING_C})
REASONS = {
    **{code: STAGE_REASONS[code] for code in ("too_warm", "too_cold")},
    "cooked_piece": "A cooked piece is not soaked.",
    "nothing_to_remove": "The piece is no saltier than it is to be.",
    "undissolved_salt": "More salt is stated than the water of the piece dissolves.",
    "change_out_of_range": "Water changed so often or so seldom is not reckoned with.",
    "takes_too_long": "It takes more than 72 hours, or more water than is stated.",
}


def require_lawful(soak: Soak, *, cooked: bool) -> None:
    """Raises Impossible for what is not soaked at all."""
    _require_raw(cooked)
    _require_liquid_c(soak.temperature_c)
    require_cold_c(soak.temperature_c, coldest_c=FREEZING_C)
    _require_saltier(soak.salt_percent, wanted_percent=soak.wanted_percent)
    _require_dissolved(soak)
    _require_change(soak.change_every_h)


def require_reached(soak: Soak, waters: Waters, reached: Reached) -> None:
    """Raises Impossible where any reading takes more than three days."""
    if max(reached) < inf:
        return
    least_percents = waters.at(waters.ends_d[-1:])[0, MEAN] * soak.contents.percent_per_ratio
    low_percent, high_percent = float(least_percents.min()), float(least_percents.max())
    raise Impossible(
        code="takes_too_long",
        reason=f"After {LONGEST_H:g} hours in these waters the piece still has {low_percent:.4g} to {high_percent:.4g} "
        f"percent salt; {soak.wanted_percent:.4g} percent are wanted.",
        nearest=", or ".join(_remedies(soak, high_percent)).capitalize() + ".",
    )


def _remedies(soak: Soak, left_percent: float) -> Iterator[str]:
    """Whatever would be answered; the thinnest piece in plenty of water always is."""
    least_percent = ceil(left_percent * 100 + 1e-6) / 100
    if least_percent < soak.salt_percent:
        yield f"want at least {least_percent:.4g} percent"
    reach_mm, in_plenty = _reach_that_does_mm(soak), soak._replace(bath_g=PLENTY_RATIO * soak.contents.meat_g)
    if reach_mm:
        yield f"cut it into slices of {2 * reach_mm:g} mm, open on both sides"
    if soak.bath_g < in_plenty.bath_g and _does(in_plenty):
        yield f"take {PLENTY_RATIO:g} times its weight in water each time"
    elif not reach_mm:
        yield (
            f"cut it to {THINNEST_MM:g} mm, take {PLENTY_RATIO:g} times its weight in water, and change it every "
            f"{min(USUAL_CHANGE_H, soak.change_every_h):.4g} hours"
        )


def _reach_that_does_mm(soak: Soak) -> float | None:
    """The longest of some shorter ways in by which it is reached; None where a slice does not come to it either."""
    shorter_mm = tuple(_shorter(soak.piece.axes[0].reach_mm))
    first = bisect_left(shorter_mm, True, key=lambda reach_mm: _does(soak.as_slab(reach_mm)))
    return shorter_mm[first] if first < len(shorter_mm) else None


def _shorter(reach_mm: float) -> Iterator[float]:
    """A quarter less of the way, and so on, down to a slice."""
    while (reach_mm := floor(7.5 * reach_mm) / 10) >= THINNEST_MM / 2:
        yield reach_mm


def _does(soak: Soak) -> bool:
    return max(soak.reached(soak.waters())) < inf


def _require_raw(cooked: bool) -> None:
    if cooked:
        raise Impossible(
            code="cooked_piece",
            reason="How salt leaves cooked meat is not known well enough to tell hours; water takes its taste as well.",
            nearest="Slice it thinner, serve it with something unsalted, or simmer it in fresh water and taste.",
        )


def _require_liquid_c(stated_c: float) -> None:
    if not stated_c >= FREEZING_C:
        raise Impossible(
            code="too_cold",
            reason=f"At {stated_c:.4g} degC fresh water freezes.",
            nearest=f"Soak from {FREEZING_C:g} to {WARMEST_C:g} degC; {USUAL_COLD} is usual.",
        )


def _require_saltier(salt_percent: float, *, wanted_percent: float) -> None:
    if not wanted_percent < salt_percent:
        raise Impossible(
            code="nothing_to_remove",
            reason=f"The piece has {salt_percent:.4g} percent salt, and {wanted_percent:.4g} percent are wanted.",
            nearest=f"State a wanted salt below {salt_percent:.4g} percent, or do not soak it.",
        )


def _require_dissolved(soak: Soak) -> None:
    water_percent = 100 * soak.contents.water_g / soak.contents.meat_g
    most_percent = water_percent * SATURATED_BRINE_SALT_PERCENT / (100 - SATURATED_BRINE_SALT_PERCENT)
    if not soak.salt_percent <= most_percent:
        raise Impossible(
            code="undissolved_salt",
            reason=f"{water_percent:.4g} percent of water dissolve {most_percent:.4g} percent of salt at most; "
            f"{soak.salt_percent:.4g} percent are stated.",
            nearest=f"Brush off salt that lies on it, and state at most {floor(100 * most_percent) / 100:.4g} percent.",
        )


def _require_change(change_every_h: float) -> None:
    if not SHORTEST_CHANGE_H <= change_every_h <= LONGEST_H:
        raise Impossible(
            code="change_out_of_range",
            reason=f"Water changed every {change_every_h:.4g} hours is not reckoned with.",
            nearest=f"Change it every {SHORTEST_CHANGE_H:g} to {LONGEST_H:g} hours; oftener helps little.",
        )
