"""What does not scale, and what a cook should look at."""

from collections.abc import Iterator, Sequence

from service.calculations.curing.brining.contents import PACKING_PERCENT
from service.calculations.curing.brining.levels import brine_to_cover_l
from service.calculations.remarks import Advice
from service.calculations.seasoning.scaling.at_hand import VesselAtHand
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.reckoning import Recipe
from service.calculations.seasoning.scaling.refusing import READ_THE_LABEL
from service.quantities.models import made

CODES = {
    "label_not_read": "Of some lines nothing is known but the name: read the label for nitrite and nitrate.",
    "label_differs": "A label states twice as much salt, or half as much, as is known of the ingredient.",
    "table_figure": "The salt of some lines is one figure of the table, not that of your make.",
    "much_salt": "Salt comes to more than a tenth of the meat.",
    "coarse_step": "The step of the scale changes a line by more than a tenth.",
    "trial_batch": "More than ten times the recipe, or less than a tenth of it: a trial batch comes first.",
    "smoke_and_heat": "Smoke, heat and time do not scale with the weight.",
    "brine_by_water": "A brine is as strong as its salt is to its water, whatever meat lies in it.",
    "may_not_cover": "So much liquid goes into the vessel that it may not cover the meat.",
    "spooned_salt": "A salt, or what is mostly salt, is written by the spoon: how much of it was meant is a band.",
    "salt_from_powders": "The recipe has no salt of its own; what it has comes with powders and sauces.",
    "sodium_not_known": "The salt of some lines is not known, so the total is an at least.",
    "under_scale_step": "A line weighs less than one step of the scale.",
    "measured_two_ways": "What there is, and what the recipe says, are measured in two ways: the factor has a band.",
    "allergens_by_label": "A seasoning may carry an allergen; its label decides.",
}

MOST_RATIO, LEAST_RATIO = 10.0, 0.1
"""Beyond these a recipe is tried first (own bounds)."""
MUCH_SALT_FRACTION, FAR_OFF_FRACTION, TWICE = 0.1, 0.1, 2.0
"""Salt by the meat, a line by the step of the scale, a label by what is known: beyond these it is said (own bounds)."""
LEAST_TO_DIFFER = 0.01
"""Shares of salt that are nearer to each other than this do not contradict (own bound)."""
MOST_NAMED = 8

SMOKE_AND_HEAT = (
    "Weights are scaled, nothing else. Smoke, heat, days in the cure and minutes in the oven go by the thickness of a "
    "piece and by the oven, not by the weight of the batch."
)
BRINE_BY_WATER = (
    "Salt and water are scaled alike, so the brine is as strong as in the recipe. Where you take more or less water "
    "than is told here, let the salt follow the water, not the meat."
)
SALT_FROM_POWDERS = (
    "The recipe has no salt of its own. All of its salt comes with powders, blends and sauces: another make of them is "
    "another recipe."
)
ALLERGENS_BY_LABEL = (
    "Powders, pastes, sauces and blends may carry allergens that their name does not say. Ask POST "
    "/v1/labels/statement with what their labels say."
)


class ScalingAdvice(Advice):
    """Something that a factor does not say."""

    lines: tuple[int, ...]
    """The lines that it is about; empty where it is about all."""


def advice_for(recipe: Recipe) -> tuple[ScalingAdvice, ...]:
    """All that applies."""
    return (
        *_of_names(recipe),
        *_of_factor(recipe),
        *_of_brine(recipe),
        *_of_salt(recipe),
        *_of_scale(recipe),
        *_of_labels(recipe),
    )


def _advice(code: str, text: str, lines: tuple[int, ...] = ()) -> ScalingAdvice:
    return made(ScalingAdvice, code=code, text=text, lines=lines)


def _of_names(recipe: Recipe) -> Iterator[ScalingAdvice]:
    unread = tuple(line.place for line in recipe.lines if not line.known.is_read)
    if unread:
        yield _advice(
            "label_not_read",
            f"Not known here: {_named(recipe, unread)}. A name does not say what is in it: {READ_THE_LABEL}.",
            unread,
        )
    differing = tuple(line.place for line in recipe.lines if line.written.label and _label_differs(line))
    if differing:
        yield _advice(
            "label_differs",
            f"The label states another salt than is known of it: {_named(recipe, differing)}. Is it percent, and "
            "milligrams to 100 g? The label was taken.",
            differing,
        )


def _label_differs(line: Line) -> bool:
    known, stated = line.known.salt_fraction, line.salt_fraction
    if known is None or stated is None:
        return False
    return abs(stated - known) >= LEAST_TO_DIFFER and max(stated, known) >= TWICE * min(stated, known)


def _of_factor(recipe: Recipe) -> Iterator[ScalingAdvice]:
    by_ratio = recipe.by_ratio
    if not LEAST_RATIO <= by_ratio <= MOST_RATIO:
        yield _advice(
            "trial_batch",
            f"The recipe is multiplied by {by_ratio:.4g}. So far from it, spice and salt may taste otherwise, and a "
            "slip of the scale weighs more: weigh a trial batch first.",
        )
    if by_ratio != 1:
        yield _advice("smoke_and_heat", SMOKE_AND_HEAT)
    for held in recipe.held:
        if held.asked.kind == "limiting" and not held.factor.is_one:
            yield _advice(
                "measured_two_ways",
                f"{held.what}: recipe and stock are measured in two ways, so it may be enough for "
                f"{held.factor.low_ratio:.4g} to {held.factor.high_ratio:.4g} times the recipe. Weigh what there is, "
                "and go by weight from now on.",
                recipe.places_of(held.what),
            )


def _of_brine(recipe: Recipe) -> Iterator[ScalingAdvice]:
    if recipe.is_brine:
        wet = () if recipe.strength else tuple(line.place for line in recipe.lines if line.known.is_wet)
        untold = f" How strong that is, is not told: {_named(recipe, wet)} may bring water, too." if wet else ""
        yield _advice("brine_by_water", BRINE_BY_WATER + untold, wet)
    vessel = next((held.asked for held in recipe.held if isinstance(held.asked, VesselAtHand)), None)
    if vessel is None:
        return
    poured_l = sum(line.room.typical_l for line in recipe.lines if line.is_poured or line.known.is_watery)
    if not poured_l:
        return
    meat_l = recipe.meat_g / 1000 / vessel.meat_density_kg_per_l
    cover_l = brine_to_cover_l(meat_l, packing_fraction=PACKING_PERCENT / 100)
    if poured_l < cover_l:
        yield _advice(
            "may_not_cover",
            f"There are {poured_l / meat_l:.3g} l of liquid to a litre of meat; pieces as they usually pack take about "
            f"{cover_l / meat_l:.3g} l to be covered. POST /v1/curing/brine reckons it by pieces and vessel.",
        )


def _of_salt(recipe: Recipe) -> Iterator[ScalingAdvice]:
    salting, spooned = recipe.salting, recipe.spooned_salts
    if spooned:
        yield _advice(
            "spooned_salt",
            f"By the spoon: {_named(recipe, spooned)}. A spoon of one salt is not a spoon of another, nor of the same. "
            "Weigh one spoon of yours, write the weight into the recipe, and never scale by the spoon.",
            spooned,
        )
    percent = 100 * salting.every.typical_g / recipe.meat_g
    if percent > 100 * MUCH_SALT_FRACTION and not recipe.is_brine:
        yield _advice(
            "much_salt", f"Salt is {percent:.3g} percent of the meat. Is every unit right, of meat and of salt?"
        )
    of_table = tuple(line.place for line in recipe.lines if line.known.is_of_table and line.written.label is None)
    if of_table:
        yield _advice(
            "table_figure",
            f"A table figure is taken for the salt of {_named(recipe, of_table)}: another make may have half or twice "
            "as much, and no band covers that. State your label.",
            of_table,
        )
    if salting.only_brought:
        yield _advice("salt_from_powders", SALT_FROM_POWDERS)
    if not salting.is_known:
        places = tuple(line.place for line in salting.unknown)
        yield _advice(
            "sodium_not_known",
            f"Not known: the salt of {_named(recipe, places)}. The totals are an at least. Read the labels.",
            places,
        )


def _of_scale(recipe: Recipe) -> Iterator[ScalingAdvice]:
    if recipe.under_step:
        yield _advice(
            "under_scale_step",
            f"Under one step of the scale ({recipe.scale_name}): {_named(recipe, recipe.under_step)}. Weigh ten times "
            "as much, mix it with ten times the sugar or spice beside it, and take a tenth.",
            recipe.under_step,
        )

    far_off = tuple(place for place in recipe.off_on_scale(FAR_OFF_FRACTION) if place not in recipe.under_step)
    if far_off:
        yield _advice(
            "coarse_step",
            f"On this scale more than a tenth off: {_named(recipe, far_off)}. Take a finer scale for it.",
            far_off,
        )


def _of_labels(recipe: Recipe) -> Iterator[ScalingAdvice]:
    if recipe.seasoned:
        yield _advice("allergens_by_label", ALLERGENS_BY_LABEL, recipe.seasoned)


def _named(recipe: Recipe, places: Sequence[int]) -> str:
    names = [recipe.lines[place - 1].written.ingredient for place in places[:MOST_NAMED]]
    return ", ".join(names) + (", and more" if len(places) > MOST_NAMED else "")
