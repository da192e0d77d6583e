"""Parts added up: by what becomes of them, and to the yields of the whole."""

from collections.abc import Collection
from typing import get_args

from service.calculations.butchery.cutting.parts import AS_MEAT, USABLE, CutUp, Use
from service.calculations.butchery.cutting.told import Balance, Total, UseTotal, Yields, share_percent, weight_of
from service.quantities.models import made
from service.quantities.quantity import Units

USES: tuple[Use, ...] = get_args(Use)


def by_use(test: CutUp, units: Units) -> tuple[UseTotal, ...]:
    """Each use that occurs, with its parts together."""
    stated = [part.stated.use for part in test.parts]
    return tuple(
        made(UseTotal, use=use, parts=stated.count(use), total=_total(test, (use,), units))
        for use in USES
        if use in stated
    )


def yields_of(test: CutUp, units: Units) -> Yields:
    """Meat, all that is usable, waste and losses."""
    return made(
        Yields,
        meat=_total(test, AS_MEAT, units),
        usable=_total(test, USABLE, units),
        waste=_total(test, ("waste",), units),
        loss=_total(test, ("loss",), units),
    )


def balance_of(test: CutUp) -> Balance:
    """In grams, without rounding."""
    return made(
        Balance,
        purchased_g=test.purchased_g,
        parts_g=test.parts_g,
        loss_g=test.loss_g,
        unaccounted_g=test.unaccounted_g,
    )


def _total(test: CutUp, uses: Collection[str], units: Units) -> Total:
    weights = [part.g for part in test.parts if part.stated.use in uses]
    weighed_g = sum(weight_g for weight_g in weights if weight_g)
    weight = weight_of(weighed_g, units)
    percent = share_percent(weighed_g, whole_g=test.purchased_g) if weighed_g else 0.0
    if not test.bounds_hold:
        return made(Total, weight=weight, percent=percent, at_most=None, at_most_percent=None)
    if None not in weights:
        return made(Total, weight=weight, percent=percent, at_most=weight, at_most_percent=percent)
    most_g = weighed_g + test.left_over_g
    return made(
        Total,
        weight=weight,
        percent=percent,
        at_most=weight_of(most_g, units),
        at_most_percent=share_percent(most_g, whole_g=test.purchased_g),
    )
