"""The strongest brine that a weak concentrate can still be thinned to and cooled as asked."""

from collections.abc import Callable

from service.calculations.curing.brining.root import Number
from service.quantities.bands import rounded_down

LEAST_PERCENT = 0.1
TRIED, HALVED = 40, 20


def strongest_percent(concentrate_fraction: Number, is_cooled: Callable[[Number], bool]) -> Number | None:
    """Percent by weight, to four digits and down, that is answered; None where none is.

    Tried from the concentrate downwards; between the first that can be cooled and the one above it by halving.
    """
    above = 100 * concentrate_fraction
    step = (above - LEAST_PERCENT) / TRIED
    for _ in range(TRIED + 1):
        below = max(LEAST_PERCENT, above - step)
        if is_cooled(below):
            return _between(below, above, is_cooled)
        above = below
    return None


def _between(can: Number, cannot: Number, is_cooled: Callable[[Number], bool]) -> Number | None:
    for _ in range(HALVED):
        middle = (can + cannot) / 2
        can, cannot = (middle, cannot) if is_cooled(middle) else (can, middle)
    found = max(LEAST_PERCENT, rounded_down(can))
    return found if is_cooled(found) else None
