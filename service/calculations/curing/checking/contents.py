"""What a recipe as written can come to in grams: a low and a high weight for each part of it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from service.calculations.curing.checking.as_written import Label, Pieces, RecipeLine, WrittenCuringSalt
from service.calculations.curing.cure_names import cure_kind
from service.calculations.curing.salts import CuringSalt
from service.calculations.measures.sodium import salt_equivalent_fraction
from service.calculations.measures.spoons import (
    band_of_curing_salt,
    band_of_kind,
    grams_of,
    grams_of_pieces,
    ingredient_of,
    is_spoon_known,
)
from service.calculations.refusals import Impossible
from service.quantities.quantity import Measure
from service.rules.book import RuleBook
from service.rules.cure_name import Cure
from service.rules.ingredient import IngredientKind

UNBOUNDED_G = 1e12
"""Stands for a weight of which nothing is known, so that what is divided by it comes to nothing."""

DENSEST_G_PER_ML = 2.2
"""No powder of a kitchen is denser than a salt crystal, which is 2.16 (from memory)."""

STRONGEST_LABEL_PERCENT = 10.0
"""Stronger than any curing salt known here (own bound, see premixes): taken for neat nitrite, whose spoons nobody
weighed."""

Role = Literal["salt", "sugar", "seasoning", "dissolved", "solid", "either", "curing_salt"]

ROLES: dict[str, Role] = {
    "salt": "salt", "sugar": "sugar", "seasoning": "seasoning", "liquid": "dissolved", "spice": "solid",
    "curing_salt": "curing_salt", "other": "either",
}  # fmt: skip
"""What an ingredient of each kind does in a pickle or a batch."""


@dataclass(frozen=True, slots=True)
class Span:
    """A weight between two bounds; the same twice where it was weighed."""

    low_g: float = 0.0
    high_g: float = 0.0

    def __add__(self, other: "Span") -> "Span":
        return Span(self.low_g + other.low_g, self.high_g + other.high_g)

    def times(self, fraction: float) -> "Span":
        return Span(self.low_g * fraction, self.high_g * fraction)


NOTHING = Span()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the recipe, weighed as well as its words allow."""

    place: int
    name: str
    role: Role
    weight: Span | None
    """None where it cannot be known without a scale."""
    salt: Span | None
    """Salt in it; None where it is not known."""
    by_spoon: bool

    @property
    def is_cure(self) -> bool:
        """Whether a curing salt seems to stand there."""
        return self.role == "curing_salt"


@dataclass(frozen=True, slots=True)
class CuringSaltLine:
    """One curing salt of the recipe."""

    place: int
    written: WrittenCuringSalt
    weight: Span | None
    reads_like: Cure | None
    """What it is by its name."""

    @property
    def known(self) -> bool:
        """Whether its nitrite and nitrate can be worked out."""
        return self.weight is not None and self.is_read and self.label_adds_up

    @property
    def is_read(self) -> bool:
        """Whether there is a label, and it is not empty under the name of a curing salt."""
        label = self.written.label
        if label is None:
            return False
        return bool(label.nitrite or label.nitrate) or self.reads_like is None

    @property
    def salt(self) -> Span | None:
        """Salt in it, where its label says so."""
        label = self.written.label
        return self.weight.times(label.salt_fraction) if self.weight and label else None

    @property
    def label_adds_up(self) -> bool:
        """Whether the percentages of its label leave room for each other."""
        return self.written.label is None or self.written.label.named_fraction <= 1 + 1e-9


@dataclass(frozen=True, slots=True)
class Contents:
    """Every part of a recipe."""

    curing_salts: tuple[CuringSaltLine, ...] | None
    """None where the recipe does not say; empty where there is none."""
    lines: tuple[Line, ...] | None
    """None where the recipe does not say what else goes in."""
    unstated: Span = Span(0.0, UNBOUNDED_G)
    """What everything else is taken to weigh where the recipe does not say."""

    @property
    def labels(self) -> list[Label]:
        """The labels that the recipe gives."""
        return [line.written.label for line in self.curing_salts or () if line.written.label]

    @property
    def labels_known(self) -> bool:
        """Whether every curing salt has its label, and none hides among the other ingredients."""
        hidden = any(line.is_cure for line in self.lines or ())
        salts = self.curing_salts
        return salts is not None and not hidden and all(line.is_read for line in salts)

    @property
    def is_weighed(self) -> bool:
        """Whether everything beside the curing salts is stated, and has a weight or the range of a spoon."""
        return self.lines is not None and all(line.weight is not None for line in self.lines)

    @property
    def nitrite_known(self) -> bool:
        """Whether every curing salt and its label are known, and none hides among the other ingredients."""
        return self.labels_known and all(line.known for line in self.curing_salts or ())

    def of(self, *roles: Role) -> Span:
        """The lines of these roles together; what is not known may be nothing, or as much as is ever left unstated."""
        if self.lines is None:
            return self.unstated if "either" in roles else NOTHING
        return sum((line.weight or self.unstated for line in self.lines if line.role in roles), NOTHING)

    @property
    def unknown_cure(self) -> Span:
        """What curing salts may weigh of which no weight is known: they add to a pickle, whatever is in them."""
        if self.curing_salts is None:
            return Span(0.0, UNBOUNDED_G)
        hidden = [line.weight.high_g if line.weight else UNBOUNDED_G for line in self.lines or () if line.is_cure]
        unweighed = [UNBOUNDED_G for line in self.curing_salts if line.weight is None]
        return Span(0.0, sum(hidden) + sum(unweighed))

    @property
    def salt(self) -> Span:
        """Salt in the lines; of a seasoning whose salt is not known, anything up to all of it."""
        if self.lines is None:
            return Span(0.0, UNBOUNDED_G)
        return sum((_salt_of(line) for line in self.lines), NOTHING)

    @property
    def salt_of_seasonings(self) -> Span:
        """Salt that is known to come with stock powder and whatever else is not salt."""
        known = [line.salt for line in self.lines or () if line.salt and line.role not in ("salt", "curing_salt")]
        return sum(known, NOTHING)

    @property
    def hides_an_accelerator(self) -> bool:
        """Whether an accelerator seems to stand among the other ingredients."""
        return any(ACCELERATOR_NAME.search(line.name) for line in self.lines or ())


def _salt_of(line: Line) -> Span:
    weight_high_g = line.weight.high_g if line.weight else UNBOUNDED_G
    return line.salt or Span(0.0, weight_high_g)


def contents_of(
    curing_salts: Sequence[WrittenCuringSalt] | None,
    ingredients: Sequence[RecipeLine] | None,
    book: RuleBook,
    unstated: Span,
) -> Contents:
    """The recipe in grams."""
    return Contents(
        None if curing_salts is None else tuple(weighed_salt(*numbered, book) for numbered in enumerate(curing_salts)),
        None if ingredients is None else tuple(_line(*numbered, book) for numbered in enumerate(ingredients)),
        unstated,
    )


def weighed_salt(place: int, written: WrittenCuringSalt, book: RuleBook) -> CuringSaltLine:
    """A curing salt in grams."""
    reads_like = cure_kind(book, written.name) if written.name else None
    return CuringSaltLine(place, written, _weight_of_salt(written, book), reads_like)


def _weight_of_salt(written: WrittenCuringSalt, book: RuleBook) -> Span | None:
    """A spoon is as heavy as any known of its strength; without a label, as any salt."""
    if written.amount is None:
        return None
    label = written.label
    if label is not None and label.nitrite is not None:
        cure = CuringSalt.model_construct(nitrite=label.nitrite, nitrate=label.nitrate)
        if is_spoon_known(book, cure):
            spoon = band_of_curing_salt(book, cure, written.amount)
            return Span(spoon.low_g, spoon.high_g)
    spoons = (band_of_kind(book, kind, written.amount) for kind in ("salt", "curing_salt"))
    low_g, high_g = zip(*((each.low_g, each.high_g) for each in spoons), strict=True)
    return Span(min(low_g), max(high_g))


def _line(place: int, line: RecipeLine, book: RuleBook) -> Line:
    role, weight = _role(line, book), _weight(line, book)
    share = _salt_fraction(line, role, book)
    salt = None if share is None or weight is None else weight.times(share)
    by_spoon = isinstance(line.amount, Pieces) or line.amount.is_volume
    return Line(place, line.ingredient, _as_stated(role, line), weight, salt, by_spoon)


ANY_OF: dict[str, IngredientKind] = {"salt": "salt", "sugar": "sugar"}
"""Names without a crystal or a type: a spoon of it may be any of that kind."""


ACCELERATOR_NAME = re.compile(r"erythorb|isoascorb|ascorb|vitamin[\s_-]*c\b|\be[\s_-]?3(0[0-2]|1[56])", re.IGNORECASE)
"""Names of accelerators among the other ingredients."""


def _id(line: RecipeLine) -> str:
    """The id that a name comes to: Kosher Salt is kosher-salt."""
    return "-".join(line.ingredient.lower().split())


def _role(line: RecipeLine, book: RuleBook) -> Role:
    listed = book.ingredients.get(_id(line))
    if listed is not None:
        return ROLES[listed.kind]
    if _id(line) in ANY_OF:
        return ROLES[ANY_OF[_id(line)]]
    is_cure = cure_kind(book, line.ingredient) is not None or _id(line) in book.premixes
    return "curing_salt" if is_cure else "either"


def _weight(line: RecipeLine, book: RuleBook) -> Span | None:
    """Grams of a line; None for pieces of what has no published weight."""
    amount = line.amount
    if isinstance(amount, Measure) and not amount.is_volume:
        return Span(amount.g, amount.g)
    try:
        if isinstance(amount, Measure) and _id(line) in ANY_OF:
            band = band_of_kind(book, ANY_OF[_id(line)], amount)
            return Span(band.low_g, band.high_g)
        listed = ingredient_of(book, _id(line))
        grams = grams_of_pieces(listed, amount.count) if isinstance(amount, Pieces) else grams_of(listed, amount)
    except Impossible:
        return Span(0.0, amount.ml * DENSEST_G_PER_ML) if isinstance(amount, Measure) else None
    return Span(grams.low_g, grams.high_g)


def _salt_fraction(line: RecipeLine, role: Role, book: RuleBook) -> float | None:
    """Salt in a line by weight: its label, else its published sodium, else what its kind has."""
    if line.salt_percent is not None:
        return line.salt_percent / 100
    if role == "salt":
        return 1.0
    listed = book.ingredients.get(_id(line))
    if listed is not None and listed.sodium is not None:
        return salt_equivalent_fraction(listed.sodium.fraction)
    return None if role in ("seasoning", "curing_salt") or (listed is None and role != "sugar") else 0.0


def _as_stated(role: Role, line: RecipeLine) -> Role:
    """What the caller says of dissolving decides, except of a curing salt."""
    if line.dissolves is None or role in ("curing_salt", "salt", "sugar"):
        return role
    return "dissolved" if line.dissolves else "solid"
