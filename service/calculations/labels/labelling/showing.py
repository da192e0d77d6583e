"""The ingredients one by one, and what went over the same equipment."""

from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.telling import AllergenTold, Presence
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.vocabulary import AllergenName

SHOWN_DECIMALS = 6


class ListedIngredient(Answer):
    """One ingredient of the list."""

    name: str
    """As it was stated."""
    text: str
    """As it stands in the list."""
    weight: Weight
    """All of it that goes in."""
    percent: float
    """Its share of everything that goes in."""
    in_clause: bool
    """Whether it stands in the clause at the end."""
    lines: tuple[int, ...]
    """The lines that it comes from, counted from 1."""


class SharedAllergen(Answer):
    """An allergen that went over the same equipment, as stated."""

    allergen: AllergenName
    """Its id."""
    in_recipe: Presence
    """What the recipe says of it, which is another matter."""


def shown(entry: Entry, limit_percent: float, units: Units) -> ListedIngredient:
    """One ingredient, in the units that were asked for."""
    return made(
        ListedIngredient,
        name=entry.name,
        text=entry.text,
        weight=present_weight(entry.weight_g, units),
        percent=round(entry.percent, SHOWN_DECIMALS),
        in_clause=entry.percent <= limit_percent,
        lines=entry.lines,
    )


def shared(stated: list[AllergenName] | None, told: tuple[AllergenTold, ...]) -> tuple[SharedAllergen, ...] | None:
    """Allergens on the same equipment, each with what the recipe says of it."""
    if stated is None:
        return None
    return tuple(
        made(SharedAllergen, allergen=one.allergen, in_recipe=one.verdict) for one in told if one.allergen in stated
    )
