"""What is called out where more or less is left over than the parts that were not weighed can be."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.parts import CutUp
from service.calculations.butchery.cutting.room import Room
from service.calculations.butchery.cutting.told import CuttingNote, note
from service.calculations.butchery.cutting.wording import listed, said, said_percent
from service.quantities.quantity import Units


def left_over_unlikely(test: CutUp, room: Room, units: Units) -> Iterator[CuttingNote]:
    """Nothing is left over for parts that are there, or less or more than is published of them."""
    if not test.unweighed or test.parts_g + test.loss_g == 0:
        return
    what, slack_fraction = listed(test.unweighed), test.tolerance_fraction
    left_fraction, coarse_fraction = test.unaccounted_g / test.purchased_g, test.resolution_g / test.purchased_g
    left_g = max(test.unaccounted_g, 0.0)
    share = said_percent(100 * left_g / test.purchased_g)
    left = f"What is left over for {what} is {said(left_g, units)}, {share} of what was bought"
    message = ""
    if not test.left_over_g:
        message = f"Nothing is left over for {what}. Look at the other weights."
    elif left_fraction - coarse_fraction > room.high_fraction + slack_fraction:
        message = f"{left}; {_most(room)}. Look for a wrong unit, and for a part that was left out."
    elif left_fraction + coarse_fraction < room.low_fraction - slack_fraction:
        message = f"{left}; {said_percent(100 * room.low_fraction)} at least is published. Look at the other weights."
    if message:
        yield note("left_over_unlikely", message, *test.unweighed)


def _most(room: Room) -> str:
    most = said_percent(100 * room.high_fraction)
    if room.is_own:
        return f"{most} at most is likely (own bound)"
    return f"{most} at most is published" if room.high_fraction > 0 else "no more than was weighed is published"
