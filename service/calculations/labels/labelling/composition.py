"""What is in a recipe: every allergen with the way it came in, and everything that stays open."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.place import Facts, Place
from service.calculations.labels.labelling.recipe import AllergenSpecification, LabelledLeaf, LabelledLine, Node
from service.calculations.labels.labelling.refusing import over_whole, too_many
from service.calculations.labels.labelling.words import WhyOpen
from service.rules.vocabulary import AllergenName

LABELS_ROUND_PERCENT = 1.0
"""Percents of a label may miss a hundred by so much (own bound)."""

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
    is_specified: bool


QUIET = InLine((), (), (), is_specified=False)


class Contents:
    """What was found while walking through the lines."""

    __slots__ = (
        "contradicted", "cures", "doubtful", "found", "lines", "natural_sources", "nodes", "opened", "place",
        "specified", "with_additive",
    )  # fmt: skip

    def __init__(self, place: Place) -> None:
        self.place = place
        self.found: list[Found] = []
        self.opened: list[Opened] = []
        self.contradicted: list[AllergenName] = []
        self.lines: list[InLine] = []
        self.specified = self.nodes = 0
        self.cures: set[str] = set()
        self.natural_sources: list[str] = []
        self.doubtful = False
        self.with_additive = False

    def add(self, line: LabelledLine) -> None:
        """Everything that one line brings in. Raises Impossible."""
        self.nodes += 1
        facts = self.place.facts(line.name, line.ingredient)
        if facts.is_quiet and line.sub_ingredients is None and line.specification is None:
            self.lines.append(QUIET)
            return
        found, opened, contradicted, specified = (
            len(self.found), len(self.opened), len(self.contradicted), self.specified,
        )  # fmt: skip
        self._walk(line, facts, (), NOTHING)
        self.lines.append(
            InLine(
                self.found[found:],
                self.opened[opened:],
                self.contradicted[contradicted:],
                is_specified=self.specified > specified,
            )
        )

    def _walk(self, node: Node, facts: Facts, above: Path, covered: frozenset[AllergenName]) -> None:
        path = (*above, facts.name)
        first = len(self.found)
        self.found += [Found(one.allergen, path, one.word, one.says, "word") for one in facts.carried]
        self._note(facts)
        specification = node.specification
        if specification is not None:
            covered = covered | self.place.covered[specification.by_list]
            self.specified += 1
        parts = parts_of(node)
        if parts is not None:
            self._walk_parts(parts, path, covered)
        elif facts.why is not None:
            self._open(path, facts.why, facts.words, facts.open_to - covered, facts.usually)
        if specification is not None:
            self._hold_against(specification, path, first)

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
        total_percent = sum(stated)
        if total_percent > 100 + LABELS_ROUND_PERCENT:
            raise over_whole(path, total_percent)
        if len(stated) == len(parts) and total_percent < 100 - LABELS_ROUND_PERCENT:
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
        by_words = {one.allergen for one in self.found[first:] if one.by == "word"}
        self.found += [
            Found(allergen, path, "", "", "specification")
            for allergen in sorted(declared | wider)
            if allergen not in by_words
        ]
        spoken_of = self.place.covered[specification.by_list] - declared - wider - parts
        self.contradicted += sorted(by_words & spoken_of)
        not_named = frozenset(one for one in parts - declared if _whole(one, self.place) not in by_words)
        if not_named:
            self.opened.append(Opened(path, "cereal_not_named", (), not_named, ()))


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
