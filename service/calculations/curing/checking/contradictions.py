"""What a recipe says that cannot be so: nothing is reckoned on it."""

from collections.abc import Iterator

from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.calling_out import CallOut, call
from service.calculations.curing.checking.contents import Contents
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.curing.checking.uptakes import NOT_KNOWN, Uptake
from service.calculations.curing.checking.vessel import LEAST_SALT, MOST_NITRITE, Pot, filled
from service.calculations.curing.ingoing import salometer_deg
from service.calculations.curing.makeable import weighed_skin_fits
from service.calculations.curing.products import Product

SATURATED_DEG = 100.0
"""All the salt that water holds at 60 degF."""


def without_contradictions(uptake: Uptake, pot: Pot, product: Product) -> Uptake:
    """The ways of reckoning that are left: none where the skin or the pickle contradicts itself."""
    if not weighed_skin_fits(product, meat_g=pot.meat_g, green_g=pot.green_g) or _lacks_pickle(uptake, pot):
        return NOT_KNOWN
    return uptake


def _lacks_pickle(uptake: Uptake, pot: Pot) -> bool:
    """Whether the meat is to take up more pickle than was made."""
    if not uptake.basis_named:
        return False  # nobody stated how much is taken up
    wet = [bath for bath in uptake.baths if bath is not None]
    pickles = [(bath, filled(pot, bath, MOST_NITRITE).amounts.pickle_g) for bath in wet]
    return any(pickle_g < bath.taken_up_g * (1 - 1e-9) for bath, pickle_g in pickles)


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
    yield from _on_gain(uptake, case)
    if product.finish == "fresh" and product.storage == "shelf_stable":
        yield call(
            "storage_contradicts_finish",
            "A product that is sold raw and fresh does not keep on a shelf: limits for what is kept cold were not "
            "looked at.",
        )
    if any(not line.label_adds_up for line in contents.curing_salts or ()):
        yield call("label_over_a_hundred", "The percentages of a label add up to more than 100: read it again.")
    yield from _on_saturation(case)


FARTHEST_PERCENT = 3.0
"""A gain this far from the stated pump and pick-up, in percent of the raw piece, is another gain (own bound)."""


def _on_gain(uptake: Uptake, case: Case) -> Iterator[CallOut]:
    """A weight out of the cure that does not go with what is said to be taken up, or a claim of equilibrium."""
    if case.too_short:
        yield call(
            "not_at_equilibrium",
            "The piece does not lie in its pickle long enough for meat and pickle to come to one: it holds less than "
            "the reading at equilibrium says, and no minimum is told by it.",
        )
    bath = uptake.baths[0] if uptake.known and uptake.basis_named else None
    if bath is None or bath.equilibrium or case.pot is None or case.weights.cured is None:
        return
    stated_percent = 100 * bath.taken_up_g / case.pot.meat_g
    gained_percent = 100 * (case.weights.cured.g / case.pot.meat_g - 1)
    if abs(stated_percent - gained_percent) > FARTHEST_PERCENT:
        yield call(
            "gain_contradicts_uptake",
            f"The pump or pick-up is stated as {plain(stated_percent)} percent; by the weights that are stated, the "
            f"piece gained {plain(gained_percent)}. Weigh again: the nitrite goes with what was taken up.",
        )


def _on_saturation(case: Case) -> Iterator[CallOut]:
    bath = case.uptake.baths[0] if case.uptake.known else None
    if bath is None or case.pot is None or not case.pot.water_g:
        return
    vessel = filled(case.pot, bath, LEAST_SALT)
    strength_deg = salometer_deg(salt_g=vessel.salt_g, water_g=vessel.amounts.water_g)
    if strength_deg > SATURATED_DEG:
        yield call(
            "pickle_over_saturated",
            f"Its salt and water would be a brine of {strength_deg:.4g} degrees; at 100 water holds no more.",
        )
