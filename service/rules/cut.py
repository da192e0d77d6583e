"""A cut as it is written down: its trade item number, what it weighs, what it consists of, and what became of it."""

from functools import cached_property
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from service.rules.rule import Percent, Row
from service.rules.vocabulary import Animal, Evidence

CutKind = Literal["cut", "trimming", "product"]
"""cut: a piece as it is bought. trimming: fat or ground meat. product: cured, cooked or stuffed already."""

PartKind = Literal["meat", "fat", "bone", "skin", "connective_tissue", "scrap", "trim"]
"""What a part of a cut is made of. trim: meat and fat that came off together. scrap: what nobody eats."""

WeightStage = Literal["as_purchased", "trimmed", "cured", "cooked", "sold"]
"""At which point of the work a weight was taken."""

Way = Literal["smoke", "steam", "roast", "braise", "simmer", "bake", "pan_fry", "slice"]
"""What is done to a piece, as a stage of a chain names it."""

PartOf = Literal[
    "brisket", "tongue", "ham", "shoulder", "butt", "loin", "tenderloin", "spareribs", "belly",
]  # fmt: skip
"""Parts of an animal that a standard of identity names, or that a usual yield was measured of."""

Pounds = Annotated[float, Field(gt=0, le=500)]
Inches = Annotated[float, Field(gt=0, le=60)]


class Reading(Row):
    """Something that one source says."""

    source: str = Field(min_length=5)
    """Where it is printed."""
    evidence: Evidence
    """How it is known."""
    note: str = ""
    """What else should be known about it."""


class PieceWeight(Reading):
    """A weight range that the trade sorts the cut by, or that was weighed."""

    low_lb: Pounds
    """The lightest, in pounds."""
    high_lb: Pounds | None
    """The heaviest, in pounds; null for a range that is open upwards."""


class PieceSize(Reading):
    """One measure of a piece."""

    measure: Literal["thickness", "diameter", "length"]
    """Which."""
    low_in: Inches
    """The least, in inches."""
    high_in: Inches
    """The most, in inches."""


class ShareReading(Reading):
    """A share in percent, as one figure or as a range."""

    low_percent: Percent
    """The least; equal to high where one figure is printed."""
    typical_percent: Percent | None = None
    """What is called usual; null where a range alone is printed."""
    high_percent: Percent
    """The most."""
    pieces: int | None = Field(default=None, ge=1, le=100_000)
    """How many pieces were weighed; null where it is not said."""

    @model_validator(mode="after")
    def _goes_from_low_to_high(self) -> Self:
        if not self.low_percent <= (self.typical_percent or self.low_percent) <= self.high_percent:
            raise ValueError("a share is written from low to high")
        return self


class PartShare(ShareReading):
    """What one part of it comes to, of the weight as purchased."""

    part: str = Field(min_length=3, max_length=80)
    """Bone, skin, fat, usable meat."""
    consists_of: tuple[PartKind, ...] = ()
    """What was weighed together for it; empty where other tests do not cut it that way."""
    added_with: str | None = Field(default=None, pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=40)
    """One word for all parts of one test or table, which may be added up; null for a part that stands alone."""
    comes_off: bool = False
    """Whether it comes off a piece that is trimmed, although what it consists of is not told."""


class YieldShare(ShareReading):
    """What was left of it, of what it weighed before."""

    method: str = Field(min_length=3, max_length=80)
    """What was done to it."""
    done_by: tuple[Way, ...]
    """Stages that it is a yield of; empty where it is none of theirs."""
    of: WeightStage
    """The weight that the share is of."""
    left: WeightStage
    """The weight that was left."""
    usable: bool = True
    """Whether it may be planned with; false where start and end come from different pieces."""


class Composition(Reading):
    """What it consists of, percent by weight of the part that is eaten."""

    of: str = Field(min_length=3, max_length=80)
    """Which part, trimmed how."""
    water_percent: Percent
    """Water."""
    protein_percent: Percent
    """Protein."""
    fat_percent: Percent
    """Fat."""
    sodium_mg_per_100g: Annotated[float, Field(ge=0, le=40_000)] | None = None
    """Sodium, where that was read; null where it was not."""


class SodiumReading(Reading):
    """Sodium alone, where water, protein and fat were not read with it."""

    of: str = Field(min_length=3, max_length=80)
    """Which part, in which state."""
    sodium_mg_per_100g: Annotated[float, Field(ge=0, le=40_000)]
    """Sodium."""


class Cut(Row):
    """One cut, trimming or product, with all that was published of it."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    name: str = Field(min_length=3, max_length=80)
    """In words, never a brand."""
    kind: CutKind
    """What it is."""
    animal: Animal
    """The animal or bird."""
    part_of: PartOf | None = None
    """The part of the animal that it is, or is cut from; null where no law and no usual yield hangs on it."""
    bone_in: bool | None = None
    """Whether there is bone in it; null where the name leaves that open."""
    item_number: str | None = Field(default=None, pattern=r"^[0-9]{2,4}[A-Z]?$")
    """Item number of the Institutional Meat Purchase Specifications; null where it has none here."""
    item_source: str | None = Field(default=None, min_length=5)
    """Where the number is printed; null without one."""
    item_evidence: Evidence | None = None
    """How the number is known; null without one."""
    specification: str = ""
    """What the specification asks of it, in our words."""
    weights: tuple[PieceWeight, ...] = ()
    """What pieces weigh."""
    sizes: tuple[PieceSize, ...] = ()
    """How thick and long pieces are."""
    parts: tuple[PartShare, ...] = ()
    """What it is cut into, of the weight as purchased."""
    yields: tuple[YieldShare, ...] = ()
    """What was left of it after each step."""
    compositions: tuple[Composition, ...] = ()
    """Water, protein and fat."""
    sodiums: tuple[SodiumReading, ...] = ()
    """Sodium that was read alone."""
    note: str = ""
    """What else a kitchen should know."""

    @model_validator(mode="after")
    def _number_has_a_source(self) -> Self:
        if len({self.item_number is None, self.item_source is None, self.item_evidence is None}) != 1:
            raise ValueError("an item number says where it is printed and how that is known")
        return self

    @model_validator(mode="after")
    def _added_parts_are_known_alike(self) -> Self:
        known: dict[str, Evidence] = {}
        for part in self.parts:
            if part.added_with and known.setdefault(part.added_with, part.evidence) != part.evidence:
                raise ValueError("parts that are added with one another come from one source, known in one way")
        return self

    @cached_property
    def parts_together(self) -> tuple[tuple[PartShare, ...], ...]:
        """What is published of each kind of part, and not of what other tests cut another way."""
        rows: dict[frozenset[PartKind], list[PartShare]] = {}
        for row in self.parts:
            if row.consists_of:
                rows.setdefault(frozenset(row.consists_of), []).append(row)
        return tuple(tuple(each) for each in rows.values())

    @cached_property
    def spans_percent(self) -> tuple[tuple[float, float], ...]:
        """The least and the most of each of those."""
        together = self.parts_together
        return tuple((min(one.low_percent for one in each), max(one.high_percent for one in each)) for each in together)

    @cached_property
    def weighs_lb(self) -> tuple[float, float, bool]:
        """The lightest and the heaviest that is published, or where the open range begins, and whether there is one."""
        tops_lb = [one.low_lb if one.high_lb is None else one.high_lb for one in self.weights]
        return min(one.low_lb for one in self.weights), max(tops_lb), any(one.high_lb is None for one in self.weights)

    @cached_property
    def has_skin(self) -> bool:
        """Whether skin is on it as it is bought, by what is published of its parts."""
        return any("skin" in one.consists_of for one in self.parts)

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Everything that a source says of it."""
        return (*self.weights, *self.sizes, *self.parts, *self.yields, *self.compositions, *self.sodiums)
