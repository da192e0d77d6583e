"""A recipe, what there is of it, and the factor: everything that the answer is told from."""

from dataclasses import dataclass
from functools import cached_property

from service.calculations.curing.warning import COARSE_SHARE
from service.calculations.measures.spoons import Grams
from service.calculations.measures.warning import WITHOUT_ALLERGENS
from service.calculations.seasoning.scaling.limiting import Held, tightest_ratio, together
from service.calculations.seasoning.scaling.lines import Line, scaled
from service.calculations.seasoning.scaling.recipe import key_of
from service.calculations.seasoning.scaling.salting import Salting, salting_of
from service.quantities.models import made
from service.quantities.quantity import Weight
from service.quantities.scale import Scale


@dataclass(frozen=True)
class Recipe:
    """A recipe with its lines in grams."""

    meat_g: float
    """As written."""
    lines: tuple[Line, ...]
    held: tuple[Held, ...]
    scale: Scale | None

    @cached_property
    def by_ratio(self) -> float:
        """What everything is multiplied by."""
        return tightest_ratio(self.held)

    @cached_property
    def salting(self) -> Salting:
        return salting_of(self.lines)

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

    def shown(self, line: Line) -> Weight | None:
        """What the scale shows of a line; nothing without a scale, or under its step."""
        if self.scale is None or line.place in self.under_step:
            return None
        return made(Weight, value=self.scale.nearest(line.grams.typical_g * self.by_ratio), unit=self.scale.unit)

    @cached_property
    def coarse(self) -> bool:
        """Whether the step of the scale changes a line by more than a twentieth."""
        if self.scale is None:
            return False
        scale = self.scale
        weights_g = [line.grams.typical_g * self.by_ratio for line in self.lines]
        shown_g = [scale.steps_nearest(weight_g) * scale.step_g for weight_g in weights_g]
        return any(abs(a - b) > COARSE_SHARE * b for a, b in zip(shown_g, weights_g, strict=True))

    @cached_property
    def under_step(self) -> tuple[int, ...]:
        """Lines that weigh less than one step of the scale."""
        scale, by_ratio = self.scale, self.by_ratio
        if scale is None:
            return ()
        return tuple(line.place for line in self.lines if scale.steps_down(line.grams.typical_g * by_ratio) < 1)

    @cached_property
    def spooned_salts(self) -> tuple[int, ...]:
        return tuple(line.place for line in self.lines if line.is_salt and line.by_measure)

    @cached_property
    def seasoned(self) -> tuple[int, ...]:
        """Lines that may bring an allergen in."""
        return tuple(line.place for line in self.lines if may_carry_allergens(line))

    def places_of(self, name: str) -> tuple[int, ...]:
        """The lines of one ingredient."""
        key = key_of(name)
        return tuple(line.place for line in self.lines if line.key == key)


def may_carry_allergens(line: Line) -> bool:
    """Anything but salt, sugar and water: the same as for a single measure."""
    listed = line.ingredient
    if listed is None:
        return not line.is_salt
    return listed.kind not in WITHOUT_ALLERGENS and listed.id != "water"
