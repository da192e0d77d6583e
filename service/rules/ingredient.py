"""An ingredient as it is written down: what measures of it weigh, in every figure that was published."""

from collections.abc import Iterator
from functools import cached_property
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from service.rules.rule import Row
from service.rules.vocabulary import Evidence

IngredientKind = Literal["salt", "curing_salt", "sugar", "liquid", "spice", "seasoning", "other"]
"""seasoning: a mix, powder, paste or sauce that carries salt or sodium of its own."""

PieceUnit = Literal["clove", "cube", "leaf", "slice", "stick"]
"""What one of it is called."""

TEASPOONS_PER_TABLESPOON, TEASPOONS_PER_CUP = 3, 48
"""US customary measures, exact by definition."""

MeasureG = Annotated[float, Field(gt=0, le=1000)]
PieceG = Annotated[float, Field(gt=0, le=100)]


class VolumeReading(Row):
    """What one source says of level US measures of an ingredient."""

    teaspoon_g: MeasureG | None = None
    """A teaspoon, in grams; null where the source has none."""
    tablespoon_g: MeasureG | None = None
    """A tablespoon, in grams; null where the source has none."""
    cup_g: MeasureG | None = None
    """A cup, in grams; null where the source has none."""
    teaspoon_spread_g: tuple[MeasureG, MeasureG] | None = None
    """Lowest and highest teaspoon that the source has, in grams; null where it has one figure."""
    spread_of: str | None = Field(default=None, min_length=5)
    """What the spread is of."""
    source: str = Field(min_length=5)
    """Where the figures are printed."""
    evidence: Evidence
    """How the figures are known; own for a bound that this project set where one source is known."""

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.has_figure and self.teaspoon_spread_g is None:
            raise ValueError("a reading has at least one figure")
        if self.teaspoon_spread_g is not None and self.teaspoon_spread_g[0] > self.teaspoon_spread_g[1]:
            raise ValueError("a spread is written from low to high")
        if (self.teaspoon_spread_g is None) != (self.spread_of is None):
            raise ValueError("a spread says what it is of")
        return self

    @property
    def has_figure(self) -> bool:
        """Whether it names a weight, not only a spread."""
        return any(figure is not None for figure in (self.teaspoon_g, self.tablespoon_g, self.cup_g))

    @cached_property
    def typical_teaspoon_g(self) -> dict[str, float]:
        """What a teaspoon weighs by the figure for a spoon or cup, else by that for a teaspoon, else by another."""
        figures = {
            "teaspoon": self.teaspoon_g,
            "tablespoon": self.tablespoon_g and self.tablespoon_g / TEASPOONS_PER_TABLESPOON,
            "cup": self.cup_g and self.cup_g / TEASPOONS_PER_CUP,
        }
        known = [teaspoon_g for teaspoon_g in figures.values() if teaspoon_g]
        return {name: teaspoon_g or known[0] for name, teaspoon_g in figures.items()} if known else {}

    @property
    def teaspoons_g(self) -> Iterator[float]:
        """Every figure, as what a teaspoon of it weighs."""
        if self.teaspoon_g is not None:
            yield self.teaspoon_g
        if self.tablespoon_g is not None:
            yield self.tablespoon_g / TEASPOONS_PER_TABLESPOON
        if self.cup_g is not None:
            yield self.cup_g / TEASPOONS_PER_CUP
        yield from self.teaspoon_spread_g or ()


class Piece(Row):
    """What one clove, leaf or cube weighs, and how far one differs from another."""

    unit: PieceUnit
    """What one of it is called."""
    g: PieceG
    """The published weight of one, in grams."""
    low_g: PieceG
    """The lightest one that the band allows for, in grams."""
    high_g: PieceG
    """The heaviest one that the band allows for, in grams."""
    source: str = Field(min_length=5)
    """Where the weight is printed."""
    evidence: Evidence
    """How the weight is known."""
    band_source: str = Field(min_length=5)
    """Where the band is printed, or that this project set it."""
    band_evidence: Evidence
    """How the band is known."""

    @model_validator(mode="after")
    def _lies_in_its_band(self) -> Self:
        if not self.low_g <= self.g <= self.high_g:
            raise ValueError("the weight of a piece lies in its band")
        return self


class Sodium(Row):
    """The sodium in an ingredient."""

    mg_per_100g: float = Field(ge=0, le=40_000)
    """Milligrams in 100 g of it."""
    source: str = Field(min_length=5)
    """Where that is printed."""
    evidence: Evidence
    """How that is known."""

    @property
    def fraction(self) -> float:
        return self.mg_per_100g / 1e5


class Ingredient(Row):
    """One ingredient in one form, with all that was published of what its measures weigh."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    name: str = Field(min_length=3, max_length=80)
    """In words, never a brand."""
    form: str = Field(min_length=3, max_length=80)
    """Whole, ground, packed, flaked: the form that was weighed."""
    kind: IngredientKind
    """What it is in a recipe."""
    readings: tuple[VolumeReading, ...] = ()
    """Figures by volume. The first is the one taken as typical; the band spans all of them."""
    piece: Piece | None = None
    """Weight of one piece; null where it does not come in pieces."""
    sodium: Sodium | None = None
    """Its sodium; null where none is known."""
    note: str = ""
    """What else a kitchen should know."""

    @model_validator(mode="after")
    def _can_be_weighed(self) -> Self:
        if not self.readings and self.piece is None:
            raise ValueError("an ingredient has a reading or a piece")
        if self.readings and not self.readings[0].has_figure:
            raise ValueError("the first reading has a figure, not a spread alone")
        return self

    @cached_property
    def teaspoon_band_g(self) -> tuple[float, float] | None:
        """The lightest and the heaviest teaspoon of all readings; None where there are none."""
        every_g = [teaspoon_g for reading in self.readings for teaspoon_g in reading.teaspoons_g]
        return (min(every_g), max(every_g)) if every_g else None
