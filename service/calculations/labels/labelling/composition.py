"""What is in a recipe: every allergen with the way it came in, and everything that stays open."""

from collections.abc import Sequence
from math import fsum
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.place import Facts, Place, covered_by
from service.calculations.labels.labelling.recipe import AllergenSpecification, LabelledLeaf, LabelledLine, Node
from service.calculations.labels.labelling.refusing import over_whole, too_many
from service.calculations.labels.labelling.words import WhyOpen
from service.rules.vocabulary import AllergenName

LABELS_ROUND_PERCENT = 1.0
"""Percents of a label may miss a hundred by so much at the most (own bound)."""
ROUNDED_BY = 0.5
"""Parts in the last digit by which a percent that was rounded may miss."""

DECIMALS = 9

MOST_NODES = 1500
"""So many ingredients are read in less than a tenth of a second, whatever their names are (own bound)."""

NOTHING: frozenset[AllergenName] = frozenset()

Path = tuple[str, ...]
By = Literal["word", "specification", "measurement"]


class Found(NamedTuple):
    """An allergen, and where it came from."""

    allergen: AllergenName
    path: Path
    word: str
    says: str
    by: By
    counts: bool = True
    """Whether the law of the place means it."""


class Opened(NamedTuple):
    """Something that it cannot be told of what is in it."""

    path: Path
    why: WhyOpen
    words: tuple[str, ...]
    open_to: frozenset[AllergenName]
    usually: tuple[AllergenName, ...]


class InLine(NamedTuple):
    """What one line brings in."""

    found: Sequence[Found]
    opened: Sequence[Opened]
    contradicted: Sequence[AllergenName]
    unusual: Sequence[AllergenName]
    is_specified: bool


QUIET = InLine((), (), (), (), is_specified=False)


class Contents:
    """What was found while walking through the lines."""

    __slots__ = (
        "contradicted", "cures", "doubtful", "facts", "found", "lines", "natural_sources", "nodes", "opened", "place",
        "specified", "unusual", "with_additive",
    )  # fmt: skip

    def __init__(self, place: Place) -> None:
        self.place = place
        self.found: list[Found] = []
        self.opened: list[Opened] = []
        self.contradicted: list[AllergenName] = []
        self.unusual: list[AllergenName] = []
        self.lines: list[InLine] = []
        self.facts: list[Facts] = []
        self.specified = self.nodes = 0
        self.cures: set[str] = set()
        self.natural_sources: list[str] = []
        self.doubtful = False
        self.with_additive = False

    def add(self, line: LabelledLine) -> None:
        """Everything that one line brings in. Raises Impossible."""
        self.nodes += 1
        facts = self.place.facts(line.name, line.ingredient)
        self.facts.append(facts)
        if facts.is_quiet and line.sub_ingredients is None and line.specification is None:
            self.lines.append(QUIET)
            return
        found, opened, contradicted, unusual, specified = (
            len(self.found), len(self.opened), len(self.contradicted), len(self.unusual), self.specified,
        )  # fmt: skip
        self._walk(line, facts, (), NOTHING)
        self.lines.append(
            InLine(
                self.found[found:],
                self.opened[opened:],
                self.contradicted[contradicted:],
                self.unusual[unusual:],
                is_specified=self.specified > specified,
            )
        )

    def _walk(self, node: Node, facts: Facts, above: Path, covered: frozenset[AllergenName]) -> None:
        path = (*above, facts.name)
        first = len(self.found)
        self.found += [Found(one.allergen, path, one.word, one.says, "word", one.counts) for one in facts.carried]
        self._note(facts)
        specification = node.specification
        if specification is not None:
            covered = covered | covered_by(self.place, specification.by_list, specification.dated)
            self.specified += 1
        parts = parts_of(node)
        if parts is not None:
            self._walk_parts(parts, path, covered)
            self._miss(facts, first, covered)
        elif facts.why is not None:
            self._open(path, facts.why, facts.words, facts.open_to - covered, facts.usually)
        if specification is not None:
            self._hold_against(specification, path, first)
        if len(self.found) > first:
            self._ask_for_kinds(path, first)

    def _miss(self, facts: Facts, first: int, covered: frozenset[AllergenName]) -> None:
        """What a generic name usually brings in, and neither its parts nor a specification speak of."""
        if facts.why == "generic_word":
            found = {one.allergen for one in self.found[first:]}
            self.unusual += [one for one in facts.usually if one not in found and one not in covered]

    def _ask_for_kinds(self, path: Path, first: int) -> None:
        """An allergen of which the law wants the kind, and neither this name nor anything in it says which."""
        inside = self.found[first:]
        if self.place.by_kind.isdisjoint([one.allergen for one in inside if not one.says]):
            return
        named = {one.allergen for one in inside if one.says and one.counts}
        here = {one.allergen for one in inside if one.path == path and not one.says and one.counts}
        asked = frozenset(here & self.place.by_kind - named)
        if asked:
            parts = {one.id for one in self.place.allergens if one.part_of in asked}
            self.opened.append(Opened(path, "kind_not_named", (), asked | parts, ()))

    def _note(self, facts: Facts) -> None:
        self.with_additive = self.with_additive or facts.is_additive
        if facts.cures:
            self.cures |= facts.cures
            if "natural_source" in facts.cures:
                self.natural_sources.append(facts.name)

    def _walk_parts(self, parts: Sequence[Node], path: Path, covered: frozenset[AllergenName]) -> None:
        self.nodes += len(parts)
        if self.nodes > MOST_NODES:
            raise too_many(MOST_NODES)
        for part in parts:
            self._walk(part, self.place.facts(part.name), path, covered)
        stated = [part.percent for part in parts if isinstance(part, LabelledLeaf) and part.percent is not None]
        total_percent = fsum(stated)
        if total_percent > 100 + LABELS_ROUND_PERCENT:
            raise over_whole(path, total_percent)
        if stated and (len(stated) < len(parts) or not _come_to_the_whole(stated, total_percent)):
            self._open(path, "rest_not_stated", (), self.place.every_allergen - covered, ())

    def _open(
        self,
        path: Path,
        why: WhyOpen,
        words: tuple[str, ...],
        open_to: frozenset[AllergenName],
        usually: tuple[AllergenName, ...],
    ) -> None:
        self.doubtful = self.doubtful or why != "may_carry"
        if open_to:
            self.opened.append(Opened(path, why, words, open_to, usually))

    def _hold_against(self, specification: AllergenSpecification, path: Path, first: int) -> None:
        """What the specification declares is in; what it leaves out although a word brings it in is in as well."""
        declared = {*specification.allergens}
        parts = {one.id for one in self.place.allergens if one.part_of in declared}
        wider = {one.part_of for one in self.place.allergens if one.part_of and one.id in declared}
        by_words = {one.allergen for one in self.found[first:] if one.by == "word" and one.counts}
        self.found += [
            Found(allergen, path, "", _kind(allergen, declared, self.place), "specification")
            for allergen in sorted(declared | wider)
            if allergen not in by_words
        ]
        spoken_of = covered_by(self.place, specification.by_list, specification.dated) - declared - wider - parts
        self.contradicted += sorted(by_words & spoken_of)
        not_named = frozenset(one for one in parts - declared if _whole(one, self.place) not in by_words)
        if not_named and not any(_whole(one, self.place) in self.place.by_kind for one in not_named):
            self.opened.append(Opened(path, "kind_not_named", (), not_named, ()))


def _come_to_the_whole(stated: Sequence[float], total_percent: float) -> bool:
    """Whether rounding explains what is missing: by half of the last digit of each, and never of one alone."""
    missing = round(100 - total_percent, DECIMALS)
    if missing <= 0 or len(stated) == 1:
        return missing <= 0
    return missing <= LABELS_ROUND_PERCENT and missing < fsum(ROUNDED_BY / 10 ** _decimals(one) for one in stated)


def _decimals(percent: float) -> int:
    return next(digits for digits in range(DECIMALS + 1) if digits == DECIMALS or round(percent, digits) == percent)


def _kind(allergen: AllergenName, declared: set[AllergenName], place: Place) -> str:
    """The cereal, where the specification declares it and so the wider allergen."""
    return ", ".join(one.name for one in place.allergens if one.part_of == allergen and one.id in declared)


def _whole(part: AllergenName, place: Place) -> AllergenName | None:
    return next(one.part_of for one in place.allergens if one.id == part)


def parts_of(node: Node) -> Sequence[Node] | None:
    """What a line or an ingredient consists of, where that was stated."""
    return getattr(node, "sub_ingredients", None)


def composition_of(place: Place, lines: Sequence[LabelledLine]) -> Contents:
    """Everything that the lines bring in."""
    contents = Contents(place)
    for line in lines:
        contents.add(line)
    return contents
