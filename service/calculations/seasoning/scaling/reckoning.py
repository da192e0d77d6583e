"""A recipe, what there is of it, and the factor: everything that the answer is told from."""

from collections.abc import Sequence
from typing import NamedTuple

from service.calculations.measures.spoons import Grams
from service.calculations.seasoning.scaling.limiting import Held, tightest_ratio, together
from service.calculations.seasoning.scaling.lines import Line, scaled
from service.calculations.seasoning.scaling.measuring import MOSTLY_SALT
from service.calculations.seasoning.scaling.recipe import key_of
from service.calculations.seasoning.scaling.salting import Salting, salting_of
from service.quantities.models import made
from service.quantities.quantity import Weight
from service.quantities.scale import Scale


class Recipe(NamedTuple):
    """A recipe with its lines in grams, and the factor."""

    meat_g: float
    """As written."""
    lines: tuple[Line, ...]
    held: tuple[Held, ...]
    scale: Scale | None
    by_ratio: float
    """What everything is multiplied by."""
    salting: Salting
    is_brine: bool
    """Whether its water is poured over the meat, not mixed into it, and has salt in it."""
    strength: Grams | None
    """Percent of salt in that brine; None where there is none, or nobody can tell."""
    steps: tuple[int, ...]
    """How many steps of the scale each line is, to the nearest; empty without a scale."""
    offs: tuple[float, ...]
    """By how much of itself that changes each line; empty without a scale."""
    under_step: tuple[int, ...]
    """Lines that weigh less than one step of the scale."""
    spooned_salts: tuple[int, ...]
    """Lines of salt, or of what is mostly salt, that are not weighed."""
    seasoned: tuple[int, ...]
    """Lines that may bring an allergen in."""

    @property
    def weight(self) -> Grams:
        """Meat and all lines, as written."""
        meat = Grams(self.meat_g, self.meat_g, self.meat_g)
        return together([meat, *(line.grams for line in self.lines)])

    def scaled(self, grams: Grams) -> Grams:
        """What it comes to in the scaled recipe."""
        return scaled(grams, self.by_ratio)

    @property
    def scale_name(self) -> str:
        return self.scale.name if self.scale else ""

    def to_weigh(self, line: Line) -> Weight | None:
        """What the scale shows of a line; nothing without a scale, or under its step."""
        if self.scale is None or line.place in self.under_step:
            return None
        return made(Weight, value=self.scale.reading(self.steps[line.place - 1]), unit=self.scale.unit)

    def off_on_scale(self, share_fraction: float) -> tuple[int, ...]:
        """The lines that the step of the scale changes by more than this share of them."""
        return tuple(place for place, off_ratio in enumerate(self.offs, 1) if off_ratio > share_fraction)

    def places_of(self, name: str) -> tuple[int, ...]:
        """The lines of one ingredient."""
        key = key_of(name)
        return tuple(line.place for line in self.lines if line.key == key)


def recipe_of(meat_g: float, lines: tuple[Line, ...], held: tuple[Held, ...], scale: Scale | None) -> Recipe:
    """The recipe with its factor, and what is to be said of its lines."""
    by_ratio = tightest_ratio(held)
    weights_g = [line.grams.typical_g * by_ratio for line in lines]
    steps = tuple(map(scale.steps_nearest, weights_g)) if scale else ()
    step_g = scale.step_g if scale else 0.0
    salting = salting_of(lines)
    is_brine = salting.is_brine(meat_g)
    return Recipe(
        meat_g,
        lines,
        held,
        scale,
        by_ratio,
        salting,
        is_brine,
        strength=salting.strength if is_brine else None,
        steps=steps,
        offs=tuple(abs(shown * step_g / g - 1) for shown, g in zip(steps, weights_g, strict=False)),
        under_step=_under_step(weights_g, scale) if scale else (),
        spooned_salts=tuple(line.place for line in lines if line.by_measure and _is_mostly_salt(line)),
        seasoned=tuple(line.place for line in lines if line.known.may_carry_allergens),
    )


def _under_step(weights_g: Sequence[float], scale: Scale) -> tuple[int, ...]:
    return tuple(place for place, weight_g in enumerate(weights_g, 1) if scale.steps_down(weight_g) < 1)


def _is_mostly_salt(line: Line) -> bool:
    return line.is_salt or (line.salt_fraction or 0.0) > MOSTLY_SALT
