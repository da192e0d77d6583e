"""A share of another weight than the one that enters its stage: refused, and told as it would be of the right one."""

from collections.abc import Sequence

from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.refusing import LEAST_LEFT_FRACTION, MOST_LEFT_FRACTION
from service.calculations.butchery.chaining.wording import plain
from service.calculations.refusals import Impossible
from service.rules.cut import WeightStage

Before = Sequence[tuple[WeightStage, Share | None]]
"""What entered each earlier stage, and the share that it leaves."""


def require_basis(number: int, stated: WeightStage | None, of: WeightStage, share: Share, before: Before) -> None:
    """Raises Impossible where a share is said to be of another weight than the one that enters."""
    is_bought = stated == "as_purchased" and not before
    if stated is None or stated == of or is_bought:
        return
    raise Impossible(
        code="wrong_basis",
        reason=f"Stage {number} is of the {plain(of)} weight, its share is said to be of the {plain(stated)} one.",
        nearest=_nearest(stated, of, share, before),
    )


def _nearest(stated: WeightStage, of: WeightStage, share: Share, before: Before) -> str:
    """The same figure of the right weight where the stages between are known, else how to take it."""
    weigh = f"State what is left of the {plain(of)} weight, with of_weight {of} or without it."
    between_fraction = _between_fraction(stated, before)
    if between_fraction is None:
        return weigh
    fraction = share.typical_fraction / between_fraction
    if not LEAST_LEFT_FRACTION <= fraction <= MOST_LEFT_FRACTION:
        return weigh
    return (
        f"State {100 * fraction:.4g} percent left of the {plain(of)} weight: {100 * share.typical_fraction:.4g} of "
        f"the {plain(stated)} one, divided by {between_fraction:.4g} for the stages between."
    )


def _between_fraction(stated: WeightStage, before: Before) -> float | None:
    """What the stages since that weight leave; None where it never was, or where one of them was only weighed."""
    since = next((place for place, (of, _) in enumerate(before) if of == stated), None)
    if since is None:
        return None
    shares = [share for _, share in before[since:]]
    product = 1.0
    for share in shares:
        if share is None:
            return None
        product *= share.typical_fraction
    return product
