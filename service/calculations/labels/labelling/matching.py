"""The list of a label in use held against the recipe: ingredient by ingredient, with what it consists of."""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.composition import parts_of
from service.calculations.labels.labelling.naming import added_words
from service.calculations.labels.labelling.ordering import Entry, declared_words
from service.calculations.labels.labelling.place import Facts, Place
from service.calculations.labels.labelling.reading import Written, comparable, is_same_additive, written_on
from service.calculations.labels.labelling.recipe import LabelClause, Node
from service.rules.spelling import folded, tidy

NotComparedCode = Literal[
    "parts_not_on_label", "parts_not_in_recipe", "kinds_not_stated", "not_read", "other_function", "usual_not_in_parts",
    "kind_not_found",
]  # fmt: skip

NOT_COMPARED: dict[str, str] = {
    "parts_not_on_label": "The recipe says what it consists of and the label, as stated, does not.",
    "parts_not_in_recipe": "The label says what it consists of and the recipe does not.",
    "kinds_not_stated": "Which nuts, cereals, fish or crustaceans the label names was not stated.",
    "not_read": "Something on the label stands outside its parentheses, or they do not close: it was not read.",
    "other_function": "The label says that the additive does something else than the usual: ask whether it does.",
    "usual_not_in_parts": "Its parts have none of what things of its name usually bring in: ask once more.",
    "kind_not_found": "The label names it by its kind and nothing that was stated brings it in: ask the supplier.",
}
"""What could not be compared, and why."""


class Compared:
    """What came out while the label was read."""

    __slots__ = ("allergens_not_named", "extra", "missing", "names_not_used", "out_of_order", "unknown")

    def __init__(self) -> None:
        self.missing: list[str] = []
        self.allergens_not_named: list[str] = []
        self.names_not_used: list[str] = []
        self.extra: list[str] = []
        self.out_of_order: list[str] = []
        self.unknown: list[tuple[str, NotComparedCode]] = []

    @property
    def differs(self) -> bool:
        """Whether anything on the list is otherwise."""
        return bool(self.missing or self.extra or self.out_of_order or self.allergens_not_named or self.names_not_used)


class Placed(NamedTuple):
    """An ingredient where it stands on the label, with the share that its place speaks of."""

    name: str
    percent: float


class Liberty(NamedTuple):
    """What may stand on a label in another order than by weight."""

    small_percent: float
    """Up to here any order will do at the end of the list."""
    joined: frozenset[str]
    """Meats that may be joined by "and"."""


def compare_list(
    written: Sequence[str],
    clause: LabelClause | None,
    entries: tuple[Entry, ...],
    place: Place,
    liberty: Liberty,
    compared: Compared,
) -> None:
    """Ingredient by ingredient, each once, with what it consists of; then the order."""
    ours: dict[str, list[Entry]] = {}
    for one in entries:
        ours.setdefault(one.plain, []).append(one)
    main = _placed(written, ours, place, liberty, compared)
    small = _placed(clause.ingredients, ours, place, liberty, compared) if clause else []
    compared.missing += [one.name for left in ours.values() for one in left]
    limit_percent = float(clause.percent) if clause else 0.0
    compared.out_of_order += _before_heavier(main)
    compared.out_of_order += [one.name for one in small if one.percent > limit_percent]


def _placed(
    written: Sequence[str], ours: dict[str, list[Entry]], place: Place, liberty: Liberty, compared: Compared
) -> list[Placed]:
    """The ingredients in the order of the label; what is free to stand anywhere has no share here."""
    placed: list[Placed] = []
    for one in written_on(written, ours, place):
        left = ours.get(one.key)
        if not left:
            compared.extra.append(one.text)
            continue
        entry = left.pop(0)
        _compare_one(one, entry.node, entry.facts, entry.name, place, compared)
        if not (one.is_joined and entry.plain in liberty.joined):
            placed.append(Placed(entry.name, 0.0 if entry.percent <= liberty.small_percent else entry.percent))
    return placed


def _compare_parts(node: Node, label: Written, facts: Facts, path: str, place: Place, compared: Compared) -> None:
    """What stands in parentheses on the label against what it consists of."""
    parts = parts_of(node)
    if parts is None:
        if label.inside and _named(label.inside, node, facts, place):
            compared.unknown.append((path, "parts_not_in_recipe"))
        return
    if not label.inside:
        compared.unknown.append((path, "parts_not_on_label"))
        return
    left = list(parts)
    found = [(one, _taken(one, left, place)) for one in label.inside]
    compared.missing += [f"{path} > {part.name}" for part in left]
    if len(found) > len(parts) - len(left):
        others = [one for one, part in found if part is None]
        compared.extra += [f"{path} > {one.text}" for one in _named(others, node, facts, place)]
    known = [(one, part) for one, part in found if part is not None]
    compared.out_of_order += [f"{path} > {name}" for name in _not_as_stated([part for _, part in known], parts)]
    for one, part in known:
        _compare_one(one, part, place.facts(part.name), f"{path} > {part.name}", place, compared)


def _taken(one: Written, left: list[Node], place: Place) -> Node | None:
    """The part that it is, taken out of those that are left."""
    for number, part in enumerate(left):
        if one.name == part.name:
            return left.pop(number)
    key = comparable(place.facts(one.name).label)
    for number, part in enumerate(left):
        if key == comparable(place.facts(part.name).label) or is_same_additive(one.name, part.name, place):
            return left.pop(number)
    return None


def _not_as_stated(known: list[Node], parts: Sequence[Node]) -> list[str]:
    """Parts that stand before a heavier one; where a share is not known, in another order than the supplier's."""
    shares = [getattr(part, "percent", None) or 0.0 for part in parts]
    ranks = shares if all(shares) else [float(len(parts) - number) for number in range(len(parts))]
    rank_of = {id(part): rank for part, rank in zip(parts, ranks, strict=True)}
    return _before_heavier([Placed(part.name, rank_of[id(part)]) for part in known])


def _compare_one(written: Written, node: Node, facts: Facts, path: str, place: Place, compared: Compared) -> None:
    """One ingredient: the words that the law wants with it, and what it consists of."""
    if not written.is_whole:
        compared.unknown.append((path, "not_read"))
    _compare_names(written, node, facts, path, place, compared)
    _compare_parts(node, written, facts, path, place, compared)


def _named(inside: Sequence[Written], node: Node, facts: Facts, place: Place) -> list[Written]:
    """What stands in parentheses and is no remark."""
    said = frozenset(_may_be_said(node, facts, place))
    return [one for one in inside if not one.is_remark(said)]


def _may_be_said(node: Node, facts: Facts, place: Place) -> Iterator[str]:
    """What may stand in parentheses and is no part: the allergens that it brings in, and the names of an additive."""
    declared = node.specification.allergens if node.specification else ()
    ids = {one.allergen for one in facts.carried}.union(declared)
    yield from (folded(one.name) for one in place.allergens if one.id in ids)
    yield from (folded(one.says) for one in facts.carried)
    yield from (folded(one) for one in declared_words(node, facts, place))
    if facts.additive and facts.additive.additive:
        yield from (folded(facts.additive.additive.e_number), *map(folded, facts.additive.words))


def _compare_names(written: Written, node: Node, facts: Facts, path: str, place: Place, compared: Compared) -> None:
    """The name on a label, and in Europe the allergen beside it and what an additive does."""
    label = place.facts(written.name).label
    if label != written.name and tidy(label) != tidy(written.name):
        compared.names_not_used.append(f"{path}: {label}")
    if not place.emphasises:
        return
    words = set(folded(written.text).split())
    for said in (*added_words(facts.carried, place), *declared_words(node, facts, place)):
        if not set(folded(said).split()) <= words:
            compared.allergens_not_named.append(f"{path}: {said}")
    if facts.additive and facts.additive.additive:
        category = folded(facts.additive.additive.category)
        if not set(category.split()) <= words and not written.category:
            compared.names_not_used.append(f"{path}: {facts.additive.additive.category}")
        elif written.category and folded(written.category) != category:
            compared.unknown.append((path, "other_function"))


def _before_heavier(ordered: list[Placed]) -> list[str]:
    most_percent, early = 0.0, []
    for one in reversed(ordered):
        if one.percent < most_percent:
            early.append(one.name)
        most_percent = max(most_percent, one.percent)
    return early
