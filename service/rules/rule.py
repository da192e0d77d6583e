"""A rule as it is written down: one limit, and the dated history of its value."""

from datetime import date
from functools import cached_property
from typing import Annotated, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from service.quantities.models import Answer
from service.rules.vocabulary import (
    Basis,
    Bound,
    Circumstance,
    Evidence,
    Expression,
    Force,
    Jurisdiction,
    Measure,
    Operator,
    ProductClass,
    RuleJurisdiction,
    RuleUnit,
    Stage,
)

Percent = Annotated[float, Field(ge=0, le=100)]
SpoonfulG = Annotated[float, Field(gt=0, le=30)]


class Row(BaseModel):
    """Something read from a data file: strict, closed, frozen; unknown words are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, use_attribute_docstrings=True)


class DatedValue(Row):
    """What the limit was from one day until another."""

    since: date | None
    """First day in force; null where the age is not known and the value holds for any earlier day."""
    until: date | None = None
    """First day no longer in force; null while it stands."""
    value: float | None = Field(default=None, ge=0, le=1e6)
    """The number; null for a statement, or for a guard that borrows the ceilings of the product class."""
    early_warning: float | None = Field(default=None, ge=0, le=1e6)
    """A caution is printed from here on, before the limit itself is reached."""
    unit: RuleUnit | None = None
    expressed_as: Expression = "by_weight"
    basis: Basis | None = None
    evidence: Evidence
    force: Force
    text_as_of: str | None = Field(default=None, pattern=r"^[0-9]{4}(-[0-9]{2}){0,2}$")
    """Date of the text that was read."""
    amended_unread_since: date | None = None
    """First day of an amendment that nobody here has read: from then on a pass carries a caution."""
    design_floor: float | None = Field(default=None, ge=0, le=1e6)
    """For a required level: how far a dose that was rounded down may fall below it (this project's own band)."""
    as_printed: str | None = None
    """The form in which the source prints the number, where it is another."""
    citation: str = Field(min_length=3)
    note: str = ""

    @model_validator(mode="after")
    def _has_days(self) -> Self:
        if self.since is not None and self.until is not None and self.until <= self.since:
            raise ValueError("until must be a later day than since")
        return self

    def in_force(self, on: date) -> bool:
        return (self.since is None or self.since <= on) and (self.until is None or on < self.until)


class Rule(Row):
    """One limit of one authority for one group of products."""

    id: str = Field(pattern=r"^[a-z0-9]+([.-][a-z0-9]+)*$", max_length=60)
    title: str = Field(min_length=5, max_length=160)
    jurisdiction: RuleJurisdiction
    applies_to: tuple[ProductClass, ...]
    """Product classes it governs: any one of them suffices; empty means every product."""
    when: tuple[Circumstance, ...] = ()
    """Circumstances that must all hold."""
    unless: tuple[Circumstance, ...] = ()
    """Circumstances of which none may hold."""
    audience: tuple[Operator, ...] = ()
    """Who is bound; empty means everybody."""
    except_in: tuple[Jurisdiction, ...] = ()
    """For a guard that is ours: places whose own law says the same, so that it is not said twice."""
    measure: Measure
    stage: Stage
    bound: Bound
    plan_needed: bool = False
    """An option open only under a plan or a variance: shown as such, never as met."""
    values: tuple[DatedValue, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _history_is_in_order(self) -> Self:
        for earlier, later in zip(self.values, self.values[1:], strict=False):
            if earlier.until is None or later.since is None or later.since < earlier.until:
                raise ValueError("dated values must follow one another without overlap")
        return self

    @model_validator(mode="after")
    def _number_has_a_unit(self) -> Self:
        for dated in self.values:
            if dated.value is not None and (dated.unit is None or dated.basis is None):
                raise ValueError("a value needs its unit and its basis")
            if self.measure == "piece_weight" and dated.unit != "lb":
                raise ValueError("the weight of a piece is written in pounds")
        return self

    @model_validator(mode="after")
    def _number_belongs(self) -> Self:
        for dated in self.values:
            if self.bound == "statement" and dated.value is not None:
                raise ValueError("a statement has no number")
            if self.bound != "statement" and dated.value is None and dated.force != "guard":
                raise ValueError("only a statement, or a guard that borrows its ceiling, has no number")
        return self

    @model_validator(mode="after")
    def _guards_are_own(self) -> Self:
        for dated in self.values:
            if (dated.force == "guard") != (dated.evidence == "own") or (
                dated.force == "guard" and self.jurisdiction != "ANY"
            ):
                raise ValueError("a guard is this project's own, for every place: evidence own, jurisdiction ANY")
        return self

    @cached_property
    def conditions(self) -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
        return frozenset(self.applies_to), frozenset(self.when), frozenset(self.unless)

    def governs(self, facts: frozenset[str], operator: Operator) -> bool:
        classes, when, unless = self.conditions
        return (
            (not classes or bool(classes & facts))
            and when <= facts
            and not unless & facts
            and (not self.audience or operator in self.audience)
        )


class Premix(Row):
    """A curing salt as labels and handbooks describe it. For recognising one, never a default strength."""

    id: str
    name: str
    nitrite_percent: tuple[Percent, Percent]
    """Low and high, percent by weight."""
    nitrite_as: Expression
    nitrate_percent: Percent | None
    nitrate_as: Expression | None = None
    salt_percent: Percent | None
    other: str | None = None
    teaspoon_g: tuple[SpoonfulG, SpoonfulG, SpoonfulG] | None = None
    """Low, typical and high weight of a level teaspoon."""
    evidence: Evidence
    note: str = ""

    @model_validator(mode="after")
    def _ranges_are_in_order(self) -> Self:
        for numbers in (self.nitrite_percent, self.teaspoon_g or ()):
            if list(numbers) != sorted(numbers):
                raise ValueError("a range is written from low to high")
        return self


class Caution(Answer):
    """A warning printed with an answer, and why it applies there."""

    id: str
    """Stable code, for translation."""
    text: str
    """The warning."""
    why: str
    """What set it off."""


class CautionRow(Row):
    """A warning as it is written down, with its trigger and its source."""

    id: str
    text: str
    applies_to: str
    source: str
    evidence: Evidence

    @cached_property
    def told(self) -> Caution:
        """The warning as an answer prints it."""
        return Caution.of(id=self.id, text=self.text, why=self.applies_to)
