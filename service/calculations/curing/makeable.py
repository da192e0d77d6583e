"""Whether the amounts that were worked out can be made at all, and by which name it is refused when not."""

from service.calculations.curing.amounts import Amounts, Display, Recipe
from service.calculations.curing.methods import Bath, Way
from service.calculations.curing.pickle import percent_line, too_weak
from service.calculations.curing.products import Product
from service.calculations.curing.readings import Readings
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT
from service.calculations.refusals import Impossible
from service.quantities.scale import Scale
from service.rules.book import Binding

STRONGEST_CURE_SHARE = 0.5
"""A pickle that is more than half curing salt is refused: near the pole of the inverse formula (own bound)."""
STRONGEST_RUB_SHARE = 0.2
"""Likewise for a dry or comminuted cure: curing salt by weight of the meat (own bound)."""
THINNEST_SKIN_SHARE = 0.03
THICKEST_SKIN_SHARE = 0.25
"""A belly that loses less or more than this with its skin was weighed wrongly (own bounds, no source)."""

REASONS = {
    "no_rule_in_force": "No ceiling that was read or reported is in force for this product, method, place and day.",
    "skin_weight_contradicts": "The weight without skin does not go with the rest of what is stated.",
    "salt_comes_with_the_cure": "Curing salt and stock powder bring more salt than is asked for.",
    "sugar_comes_with_the_cure": "Curing salt brings more sugar than is asked for.",
    "curing_salt_too_weak": "More than half of the pickle, or a fifth of the meat, would have to be curing salt.",
    "no_room_for_water": "What is asked for leaves no room for water in the pickle.",
    "not_enough_pickle": "The meat is to take up more pickle than is made.",
    "pickle_over_saturated": "Water does not dissolve so much salt.",
    "level_in_one_step": "A required level is reckoned on the pump; a cover after it cannot be reckoned to a level.",
    "storage_contradicts_finish": "What is sold raw and fresh is not shelf-stable.",
    "below_scale_step": "Less than the smallest step of the scale would have to be weighed.",
}
"""Every way in which a dose cannot be done."""


def weighed_skin_fits(product: Product, *, meat_g: float, green_g: float) -> bool:
    """Whether a weight without skin, where there is one, goes with the skin and the whole weight that are stated."""
    if product.kind != "bacon" or product.skin_free is None:
        return True
    least_g, most_g = (1 - THICKEST_SKIN_SHARE) * meat_g, (1 - THINNEST_SKIN_SHARE) * meat_g
    return product.skin == "on" and least_g <= green_g <= most_g


def require_weighed_skin(product: Product, *, meat_g: float, green_g: float) -> None:
    """A weight without skin must go with the skin that is stated. Raises Impossible."""
    if weighed_skin_fits(product, meat_g=meat_g, green_g=green_g):
        return
    assert product.kind == "bacon"
    assert product.skin_free is not None
    raise Impossible(
        code="skin_weight_contradicts",
        reason=f"The piece weighs {meat_g:,.6g} g, its skin is {product.skin}, and without skin it is stated to weigh "
        f"{product.skin_free.g:,.6g} g.",
        nearest="State skin_free only with the skin on: what is left when the skin is off, from "
        f"{1 - THICKEST_SKIN_SHARE:.0%} to {1 - THINNEST_SKIN_SHARE:.0%} of the whole.",
    )


def require_consistent_storage(product: Product) -> None:
    """Fresh meat does not keep on a shelf. Raises Impossible."""
    if product.finish == "fresh" and product.storage == "shelf_stable":
        raise Impossible(
            code="storage_contradicts_finish",
            reason="The product is stated to be sold raw and fresh, and to be shelf-stable.",
            nearest="State how it becomes shelf-stable (product.finish), or how it is kept cold (product.storage).",
        )


def require_one_step_to_a_level(way: Way, binding: Binding) -> None:
    """Where the law sets a level, a second step leaves it by nobody knows how much. Raises Impossible."""
    at_a_level = any(rule.measure == "nitrite" and rule.sets_level for rule in binding.rules)
    if way.immersed and way.pumped and at_a_level:
        raise Impossible(
            code="level_in_one_step",
            reason="The law sets the nitrite of this product at a level; "
            "pumping and then covering cannot be reckoned to it.",
            nearest="Use the method injected.",
        )


def require_makeable(readings: Readings) -> None:
    """The amounts, exact or as weighed, must be such as can be weighed and dissolved. Raises Impossible."""
    recipe, amounts = readings.recipe, readings.amounts
    wanted, cure_g = recipe.wanted, amounts.curing_salt_g
    if wanted.salt_percent and amounts.salt_g < -1e-12 * cure_g:
        raise _comes_with_the_cure("salt", recipe, wanted.salt_percent, amounts)
    if wanted.sugar_percent and amounts.sugar_g < -1e-12 * cure_g:
        raise _comes_with_the_cure("sugar", recipe, wanted.sugar_percent, amounts)
    if recipe.bath:
        _require_a_real_pickle(recipe.bath, amounts, recipe, readings.bases.pickle_g)
    elif cure_g > STRONGEST_RUB_SHARE * amounts.meat_g:
        raise too_weak("More than a fifth of the weight of the meat would have to be curing salt.")


def _comes_with_the_cure(what: str, recipe: Recipe, percent: float, amounts: Amounts) -> Impossible:
    inside = recipe.salt_inside_g if what == "salt" else recipe.sugar_inside_g
    inside_g = inside(amounts.curing_salt_g)
    wanted_g = percent_line(recipe, percent).at_g(amounts.pickle_g)
    other = "a stronger curing salt" if recipe.wanted.target_ppm else "less curing salt"
    percent_needed = 1.05 * percent * inside_g / wanted_g
    ask = f"Ask for about {percent_needed:.3g} percent {what} or more, or take" if inside_g < 1.5 * wanted_g else "Take"
    return Impossible(
        code=f"{what}_comes_with_the_cure",
        reason=f"Curing salt and stock powder alone bring {inside_g:,.6g} g of {what}, more than the "
        f"{wanted_g:,.6g} g that {percent:g} percent asks for.",
        nearest=f"{ask} {other}.",
    )


def _require_a_real_pickle(bath: Bath, amounts: Amounts, recipe: Recipe, pickle_g: float) -> None:
    if amounts.curing_salt_g > STRONGEST_CURE_SHARE * pickle_g:
        raise too_weak("More than half of the pickle would have to be curing salt.")
    taken_up_g = bath.taken_up_g
    if pickle_g < taken_up_g * (1 - 1e-12):
        enough_g = amounts.water_g + 1.02 * (taken_up_g - pickle_g)
        raise Impossible(
            code="not_enough_pickle",
            reason=f"The meat is to take up {taken_up_g:,.6g} g of pickle; this recipe makes {pickle_g:,.6g} g.",
            nearest=f"Make it with about {enough_g:,.4g} g of water or more.",
        )
    salt_g = amounts.salt_g + recipe.salt_inside_g(amounts.curing_salt_g)
    strength_pct = 100 * salt_g / (salt_g + amounts.water_g)
    if strength_pct > SATURATED_BRINE_SALT_PERCENT:
        raise Impossible(
            code="pickle_over_saturated",
            reason=f"Its salt and water would be a brine of {strength_pct:.4g} percent; water dissolves no more than "
            f"{SATURATED_BRINE_SALT_PERCENT} percent.",
            nearest="Ask for less salt, pump more, or rub the rest of the salt on.",
        )


def require_weighable(exact: Amounts, display: Display, scale: Scale) -> None:
    """A dose too small for the scale is no dose. Raises Impossible."""
    if display.curing_salt and (display.accelerator or not exact.accelerator_g):
        return
    short_g = exact.accelerator_g if display.curing_salt else exact.curing_salt_g
    raise Impossible(
        code="below_scale_step",
        reason=f"{short_g:.4g} g would have to be weighed; the smallest step of the scale is {scale.name}.",
        nearest=f"Make more than {1.01 * scale.step_g / short_g:.3g} times as much, or take a scale with a finer step.",
    )
