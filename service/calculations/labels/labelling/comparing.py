"""The recipe held against the label in use: what the label leaves off first."""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.place import Place
from service.calculations.labels.labelling.reading import Written, comparable, written_on
from service.calculations.labels.labelling.recipe import LabelInUse, Node
from service.calculations.labels.labelling.telling import (
    AllergenSource,
    AllergenStatement,
    AllergenTold,
    is_to_be_named,
    kinds_of,
)
from service.quantities.models import Answer, made
from service.rules.checker import Verdict
from service.rules.spelling import folded, tidy
from service.rules.vocabulary import AllergenName

NotComparedCode = Literal["parts_not_on_label", "parts_not_in_recipe", "kinds_not_stated"]

NOT_COMPARED: dict[str, str] = {
    "parts_not_on_label": "The recipe says what it consists of and the label, as stated, does not.",
    "parts_not_in_recipe": "The label says what it consists of and the recipe does not.",
    "kinds_not_stated": "Which nuts, cereals, fish or crustaceans the label names was not stated.",
}
"""What could not be compared, and why."""


class AllergenLeftOff(Answer):
    """An allergen that is in, that the label does not name, and that the law of the place, or one not held, wants."""

    allergen: AllergenName
    """Its id."""
    name: str
    """In words."""
    came_from: tuple[AllergenSource, ...]
    """Where it came from."""


class AllergenNotFound(Answer):
    """An allergen that the label names and that was not found in what was stated."""

    allergen: AllergenName
    """Its id."""
    name: str
    """In words."""
    code: Literal["not_in_what_was_stated", "cannot_be_excluded"]
    """cannot_be_excluded where an ingredient stays open. In neither case is it a reason to take it off the label."""


class NotCompared(Answer):
    """Something that the law asks for and that could not be compared."""

    name: str
    """What it is about."""
    code: NotComparedCode
    """Stable code of the reason."""
    message: str
    """The same in a sentence."""


class LabelDifference(Answer):
    """How the label in use differs from the recipe."""

    version: str
    """Which label."""
    verdict: Verdict
    """met where nothing differs, everything was compared and everything could be told; not_met; cannot_tell."""
    left_off: tuple[AllergenLeftOff, ...]
    """Allergens that the label leaves off: the dangerous difference."""
    kinds_left_off: tuple[str, ...]
    """Nuts, cereals, fish and crustaceans that are in, and that the label does not name by their kind."""
    not_found: tuple[AllergenNotFound, ...]
    """Allergens that the label names and that were not found."""
    missing: tuple[str, ...]
    """Ingredients that the label leaves out, each with the way to it."""
    extra: tuple[str, ...]
    """Ingredients on the label that are not in the recipe, or stand there more often than in it."""
    out_of_order: tuple[str, ...]
    """Ingredients that stand on the label before a heavier one, or in a clause that they are too heavy for."""
    not_compared: tuple[NotCompared, ...]
    """What the law asks for and what was stated does not show."""


class Compared:
    """What came out while the label was read."""

    __slots__ = ("extra", "missing", "out_of_order", "unknown")

    def __init__(self) -> None:
        self.missing: list[str] = []
        self.extra: list[str] = []
        self.out_of_order: list[str] = []
        self.unknown: list[tuple[str, NotComparedCode]] = []


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


def difference_of(
    label: LabelInUse,
    entries: tuple[Entry, ...],
    told: tuple[AllergenTold, ...],
    statement: AllergenStatement,
    contents: Contents,
    *,
    liberty: Liberty,
) -> LabelDifference:
    """The label in use against the recipe."""
    compared, place = Compared(), contents.place
    _compare_list(label, entries, place, liberty, compared)
    left_off = tuple(_left_off(label, told))
    kinds = tuple(_kinds(told, contents))
    kinds_left_off = tuple(_kinds_left_off(kinds, label))
    if kinds and label.kinds is None:
        compared.unknown += [(kind, "kinds_not_stated") for kind in kinds]
    differs = bool(left_off or kinds_left_off or compared.missing or compared.extra or compared.out_of_order)
    is_open = bool(compared.unknown) or statement.verdict == "cannot_tell" or contents.doubtful
    return made(
        LabelDifference,
        version=label.version,
        verdict="not_met" if differs else "cannot_tell" if is_open else "met",
        left_off=left_off,
        kinds_left_off=kinds_left_off,
        not_found=tuple(_not_found(label, told)),
        missing=tuple(compared.missing),
        extra=tuple(compared.extra),
        out_of_order=tuple(dict.fromkeys(compared.out_of_order)),
        not_compared=tuple(
            made(NotCompared, name=name, code=code, message=NOT_COMPARED[code])
            for name, code in dict.fromkeys(compared.unknown)
        ),
    )


def _compare_list(
    label: LabelInUse, entries: tuple[Entry, ...], place: Place, liberty: Liberty, compared: Compared
) -> None:
    """Ingredient by ingredient, each once, with what it consists of; then the order."""
    ours: dict[str, list[Entry]] = {}
    for one in entries:
        ours.setdefault(one.plain, []).append(one)
    clause = label.clause
    main = _placed(label.ingredients, ours, place, liberty, compared)
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
        left = ours.get(one.name)
        if not left:
            compared.extra.append(one.text)
            continue
        entry = left.pop(0)
        _compare_parts(entry.parts, one, tidy(entry.text) if one.inside else "", entry.name, place, compared)
        if not (one.is_joined and entry.plain in liberty.joined):
            placed.append(Placed(entry.name, 0.0 if entry.percent <= liberty.small_percent else entry.percent))
    return placed


def _compare_parts(
    parts: Sequence[Node] | None, label: Written, printed: str, path: str, place: Place, compared: Compared
) -> None:
    """What stands in parentheses on the label against what it consists of."""
    inside = label.inside
    if parts is None:
        if any(not one.is_remark(printed, place, has_parts=False) for one in inside):
            compared.unknown.append((path, "parts_not_in_recipe"))
        return
    if not inside:
        compared.unknown.append((path, "parts_not_on_label"))
        return
    ours = {comparable(place.facts(part.name).label): part for part in parts}
    found = [(one, ours.pop(one.key(place), None)) for one in inside]
    compared.missing += [f"{path} > {part.name}" for part in ours.values()]
    compared.extra += [
        f"{path} > {one.text}"
        for one, part in found
        if part is None and not one.is_remark(printed, place, has_parts=True)
    ]
    known = [(one, part) for one, part in found if part is not None]
    shares = [Placed(f"{path} > {part.name}", getattr(part, "percent", None) or 0.0) for _, part in known]
    if all(one.percent for one in shares):
        compared.out_of_order += _before_heavier(shares)
    for one, part in known:
        _compare_parts(getattr(part, "sub_ingredients", None), one, printed, f"{path} > {part.name}", place, compared)


def _before_heavier(ordered: list[Placed]) -> list[str]:
    most_percent, early = 0.0, []
    for one in reversed(ordered):
        if one.percent < most_percent:
            early.append(one.name)
        most_percent = max(most_percent, one.percent)
    return early


def _left_off(label: LabelInUse, told: tuple[AllergenTold, ...]) -> Iterator[AllergenLeftOff]:
    for one in told:
        if is_to_be_named(one) and one.allergen not in label.allergens:
            yield made(AllergenLeftOff, allergen=one.allergen, name=one.name, came_from=one.came_from)


def _kinds(told: tuple[AllergenTold, ...], contents: Contents) -> Iterator[str]:
    """The kinds that the law of the place wants named."""
    for one in told:
        if one.allergen in contents.place.by_kind and is_to_be_named(one):
            yield from kinds_of(one.allergen, contents.found, counts=True)


def _kinds_left_off(kinds: Sequence[str], label: LabelInUse) -> Iterator[str]:
    """Walnut names a California walnut, and the other way round."""
    if label.kinds is None:
        return
    named = [set(folded(kind).split()) for kind in label.kinds]
    for kind in kinds:
        words = set(folded(kind).replace(" and ", " ").split())
        if not any(words <= one or (one and one <= words) for one in [*named, set().union(*named)]):
            yield kind


def _not_found(label: LabelInUse, told: tuple[AllergenTold, ...]) -> Iterator[AllergenNotFound]:
    for one in told:
        if one.allergen in label.allergens and one.verdict != "contains":
            code = "cannot_be_excluded" if one.verdict == "cannot_tell" else "not_in_what_was_stated"
            yield made(AllergenNotFound, allergen=one.allergen, name=one.name, code=code)
