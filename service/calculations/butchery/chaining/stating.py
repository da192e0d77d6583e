"""A share as it is stated: what is left, lost or gained, or two weights of a test."""

from service.calculations.butchery.chaining.asking import ChangeStated, Gained, Left, Lost, OwnTest
from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.refusing import out_of_order, require_share


def stated_share(change: ChangeStated, number: int) -> Share:
    """A share as it is stated. Raises Impossible for a range that runs backwards, or for weights of no one stage."""
    if isinstance(change, OwnTest):
        fraction = change.after.g / change.before.g
        require_share(fraction, f"The test of stage {number} leaves")
        return Share(fraction, fraction, fraction)
    least, usual, most = change.low_percent, change.percent, change.high_percent
    low_percent, high_percent = usual if least is None else least, usual if most is None else most
    if not low_percent <= usual <= high_percent:
        raise out_of_order(f"stage {number}")
    return _share(change, low_percent=low_percent, high_percent=high_percent)


def _share(change: Left | Lost | Gained, *, low_percent: float, high_percent: float) -> Share:
    if isinstance(change, Lost):
        return Share((100 - high_percent) / 100, (100 - change.percent) / 100, (100 - low_percent) / 100)
    more_percent = 100.0 if isinstance(change, Gained) else 0.0
    low, typical, high = (more_percent + percent for percent in (low_percent, change.percent, high_percent))
    return Share(low / 100, typical / 100, high / 100)
