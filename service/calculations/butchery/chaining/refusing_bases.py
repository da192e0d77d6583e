"""A share of another weight than the one that enters its stage: refused, and told as it would be of the right one."""

from collections.abc import Sequence
from math import prod
from typing import NamedTuple

from service.calculations.butchery.chaining.asking import LOSING, Stage
from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.refusing import LEAST_LEFT_FRACTION, MOST_LEFT_FRACTION, stages_named
from service.calculations.butchery.chaining.wording import plain
from service.calculations.refusals import Impossible
from service.rules.cut import WeightStage


class Before(NamedTuple):
    """An earlier stage."""

    number: int
    of: WeightStage
    share: Share | None
    is_default: bool


def require_basis(
    number: int, stage: Stage, stated: WeightStage, of: WeightStage, share: Share, before: Sequence[Before]
) -> None:
    """Raises Impossible where a share is said to be of another weight than the one that enters."""
    is_bought = stated == "as_purchased" and not before
    if stated == of or is_bought:
        return
    raise Impossible(
        code="wrong_basis",
        reason=f"Stage {number} is of the {plain(of)} weight, its share is said to be of the {plain(stated)} one.",
        nearest=_nearest(stage, stated, of, share, before),
    )


def _nearest(stage: Stage, stated: WeightStage, of: WeightStage, share: Share, before: Sequence[Before]) -> str:
    """The same figure of the right weight where the stages between are known, else how to take it."""
    weigh = f"State what is left of the {plain(of)} weight, with of_weight {of} or without it."
    since = next((place for place, one in enumerate(before) if one.of == stated), None)
    between = before[since:] if since is not None else ()
    between_fraction = prod(one.share.typical_fraction if one.share else 0.0 for one in between)
    if not between or not between_fraction:
        return weigh
    told = [100 * fraction / between_fraction for fraction in share]
    if not 100 * LEAST_LEFT_FRACTION <= told[0] <= told[2] <= 100 * MOST_LEFT_FRACTION:
        return weigh
    if told[1] > 100 and isinstance(stage, LOSING):
        return f"It would be {told[1]:.4g} percent of the {plain(of)} weight, which cannot be right. {weigh}"
    span = f" ({told[0]:.4g} to {told[2]:.4g})" if told[0] < told[2] else ""
    return (
        f"State {told[1]:.4g} percent{span} left of the {plain(of)} weight: {100 * share.typical_fraction:.4g} of the "
        f"{plain(stated)} one, divided by {between_fraction:.4g} for the stages between{_defaults(between)}."
    )


def _defaults(between: Sequence[Before]) -> str:
    taken = [one.number for one in between if one.is_default]
    return f", with what is published for {stages_named(taken)}" if taken else ""
