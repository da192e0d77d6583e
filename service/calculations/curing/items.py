"""What to put on the scale, and how each weight was rounded."""

from typing import Literal

from service.calculations.curing.amounts import Amounts, Display, Recipe
from service.calculations.curing.salts import AcceleratorKind
from service.quantities.models import Answer, made
from service.quantities.quantity import Mass, Water, Weight
from service.quantities.scale import Scale

What = Literal[
    "meat", "water", "curing_salt", "salt", "sugar", "stock_powder", "dissolved_ingredients", "other_ingredients",
    AcceleratorKind,
]  # fmt: skip


class WeighedItem(Answer):
    """One thing to put on the scale."""

    what: What
    """Stable code of the ingredient."""
    amount: Weight
    """What the scale must show, in the unit of its step; meat, water and what you stated as you stated them."""
    rounded: str
    """How it was rounded: down to the step (what has a legal ceiling), to the nearest step, or as stated."""
    exact_g: float
    """The same in grams before rounding."""


def scaled_items(recipe: Recipe, exact: Amounts, display: Display, scale: Scale) -> list[WeighedItem]:
    """What is rounded to the scale: what has a ceiling down, salt and sugar to the nearest step."""
    accelerator, unit, down, nearest = recipe.wanted.accelerator, display.unit, scale.says_down, scale.says_nearest
    rows: list[tuple[What, float, str, float]] = [("curing_salt", display.curing_salt, down, exact.curing_salt_g)]
    if exact.salt_g > 0:
        rows.append(("salt", display.salt, nearest, exact.salt_g))
    if exact.sugar_g > 0:
        rows.append(("sugar", display.sugar, nearest, exact.sugar_g))
    if accelerator:
        rows.append((accelerator.kind, display.accelerator, down, exact.accelerator_g))
    return [
        made(WeighedItem, what=what, amount=made(Weight, value=value, unit=unit), rounded=rounded, exact_g=exact_g)
        for what, value, rounded, exact_g in rows
    ]


def stated_item(what: What, stated: Mass | Water, exact_g: float) -> WeighedItem:
    """What the caller stated, as it was stated; exact_g is the same in grams."""
    amount = made(Weight, value=stated.value, unit=stated.unit)
    return made(WeighedItem, what=what, amount=amount, rounded="as stated", exact_g=exact_g)
