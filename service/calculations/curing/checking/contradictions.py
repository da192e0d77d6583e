"""What a recipe says that cannot be so: nothing is reckoned on it."""

from collections.abc import Iterator

from service.calculations.curing.brining.scales import salometer_deg
from service.calculations.curing.checking.as_written import Weights
from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.contents import Contents
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.curing.checking.uptakes import NOT_KNOWN, Uptake
from service.calculations.curing.checking.vessel import LEAST_NITRITE, LEAST_SALT, Pot, filled
from service.calculations.curing.makeable import weighed_skin_fits
from service.calculations.curing.products import Product
from service.calculations.remarks import CallOut, call

SATURATED_DEG = 100.0
"""All the salt that water holds at 60 degF."""


def without_contradictions(uptake: Uptake, pot: Pot, product: Product, weights: Weights) -> Uptake:
    """The ways of reckoning that are left: none where the skin, the pickle or the scale contradicts what is stated."""
    contradicted = (
        not weighed_skin_fits(product, meat_g=pot.meat_g, green_g=pot.green_g)
        or _lacks_pickle(uptake, pot)
        or _strength_deg(uptake, pot) > SATURATED_DEG
        or _gain_apart_percent(uptake, pot, weights) is not None
    )
    return NOT_KNOWN if contradicted else uptake


def _lacks_pickle(uptake: Uptake, pot: Pot) -> bool:
    """Whether the meat is to take up more pickle than was made."""
    wet = [bath for bath in uptake.baths if bath is not None]
    if not wet:
        return False
    # What nobody stated is assumed in every bath but the one that takes up least.
    least_g = min(bath.taken_up_g for bath in wet)
    return filled(pot, wet[0], LEAST_NITRITE).amounts.pickle_g < least_g * (1 - 1e-9)


def contradictions_in(product: Product, uptake: Uptake, case: Case, contents: Contents) -> Iterator[CallOut]:
    """Each of them, in words. uptake: as stated, before anything was set aside."""
    pot = case.pot
    if pot and not weighed_skin_fits(product, meat_g=pot.meat_g, green_g=pot.green_g):
        yield call(
            "skin_weight_contradicts",
            "The weight without skin does not go with the rest of what is stated: weigh it again.",
        )
    elif pot and _lacks_pickle(uptake, pot):
        yield call(
            "not_enough_pickle",
            "The meat is to take up more pickle than the recipe makes: its water or its pump is not as stated.",
        )
    if uptake.why_no_stay:
        yield call(
            "stay_not_credited",
            f"{uptake.why_no_stay} The stay is not reckoned with: meat and pickle are held as if the piece stayed in.",
        )
    yield from _on_gain(uptake, case)
    if product.finish == "fresh" and product.storage == "shelf_stable":
        yield call(
            "storage_contradicts_finish",
            "A product that is sold raw and fresh does not keep on a shelf: limits for what is kept cold were not "
            "looked at.",
        )
    if any(not line.label_adds_up for line in contents.curing_salts or ()):
        yield call("label_over_a_hundred", "The percentages of a label add up to more than 100: read it again.")
    yield from _on_saturation(uptake, case)


FARTHEST_PERCENT = 3.0
"""A gain this far from the stated pump and pick-up, in percent of the raw piece, is another gain (own bound)."""


def _gain_apart_percent(uptake: Uptake, pot: Pot, weights: Weights) -> float | None:
    """What the piece gained by the scale, where that is far from the pump and pick-up that are stated."""
    bath = uptake.baths[0] if uptake.known and uptake.basis_named else None
    if bath is None or bath.equilibrium or weights.cured is None:
        return None
    gained_percent = 100 * (weights.cured.g / pot.meat_g - 1)
    apart_percent = abs(100 * bath.taken_up_g / pot.meat_g - gained_percent)
    return gained_percent if apart_percent > FARTHEST_PERCENT else None


def _on_gain(uptake: Uptake, case: Case) -> Iterator[CallOut]:
    """A weight out of the cure that does not go with what is said to be taken up, or a claim of equilibrium."""
    if case.too_short:
        yield call(
            "not_at_equilibrium",
            "The piece does not lie in its pickle long enough for meat and pickle to come to one: it holds less than "
            "the reading at equilibrium says, and no minimum is told by it.",
        )
    gained_percent = _gain_apart_percent(uptake, case.pot, case.weights) if case.pot else None
    if gained_percent is not None:
        yield call(
            "gain_contradicts_uptake",
            f"By the weights that are stated the piece gained {plain(gained_percent)} percent, which is not the pump "
            "or pick-up that is stated. Weigh again: the nitrite goes with what was taken up.",
        )


def _strength_deg(uptake: Uptake, pot: Pot) -> float:
    """Strength of the pickle at its weakest, in degrees salometer; nothing without a pickle."""
    bath = uptake.baths[0] if uptake.known else None
    if bath is None or not pot.water_g:
        return 0.0
    vessel = filled(pot, bath, LEAST_SALT)
    return salometer_deg(vessel.salt_g / (vessel.salt_g + vessel.amounts.water_g))


def _on_saturation(uptake: Uptake, case: Case) -> Iterator[CallOut]:
    strength_deg = _strength_deg(uptake, case.pot) if case.pot else 0.0
    if strength_deg > SATURATED_DEG:
        yield call(
            "pickle_over_saturated",
            f"Its salt and water would be a brine of {plain(strength_deg)} degrees; at 100 water holds no more. What "
            "lies at the bottom dilutes nothing, so that no figure of the meat can be told.",
        )
