"""The recipe held against the label in use: what the label leaves off first."""

from collections.abc import Iterator, Sequence
from typing import Literal

from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.recipe import LabelInUse
from service.calculations.labels.labelling.telling import AllergenSource, AllergenStatement, AllergenTold
from service.quantities.models import Answer, made
from service.rules.checker import Verdict
from service.rules.spelling import folded, tidy
from service.rules.vocabulary import AllergenName

JOINED = " and "


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


class LabelDifference(Answer):
    """How the label in use differs from the recipe."""

    version: str
    """Which label."""
    verdict: Verdict
    """met where nothing differs and everything could be told; not_met; cannot_tell."""
    left_off: tuple[AllergenLeftOff, ...]
    """Allergens that the label leaves off: the dangerous difference."""
    not_found: tuple[AllergenNotFound, ...]
    """Allergens that the label names and that were not found."""
    missing: tuple[str, ...]
    """Ingredients that the label leaves out."""
    extra: tuple[str, ...]
    """Ingredients on the label that are not in the recipe."""
    out_of_order: tuple[str, ...]
    """Ingredients that stand on the label before a heavier one."""


def difference_of(
    label: LabelInUse,
    entries: tuple[Entry, ...],
    told: tuple[AllergenTold, ...],
    statement: AllergenStatement,
    *,
    free: frozenset[str],
) -> LabelDifference:
    """The label in use against the recipe. What is free may stand in any order."""
    ours = {one.plain: one for one in entries}
    on_label = dict(_names(label.ingredients, ours))
    left_off = tuple(_left_off(label, told))
    missing = tuple(one.name for one in ours.values() if one.plain not in on_label)
    extra = tuple(written for name, written in on_label.items() if name not in ours)
    ordered = [ours[name] for name in on_label if name in ours and name not in free]
    out_of_order = tuple(_before_heavier(ordered))
    differs = bool(left_off or missing or extra or out_of_order)
    return made(
        LabelDifference,
        version=label.version,
        verdict="not_met" if differs else "cannot_tell" if statement.verdict == "cannot_tell" else "met",
        left_off=left_off,
        not_found=tuple(_not_found(label, told)),
        missing=missing,
        extra=extra,
        out_of_order=out_of_order,
    )


def _names(ingredients: Sequence[str], ours: dict[str, Entry]) -> Iterator[tuple[str, str]]:
    """Names as they are compared, each with what was written: without parentheses and categories, meats one by one."""
    spelled = {folded(name): name for name in ours}
    for written in ingredients:
        bare = written.partition("(")[0].rpartition(":")[2].strip() or written
        name = _ours(bare, ours, spelled)
        halves = [_ours(half, ours, spelled) for half in name.split(JOINED)]
        both = name not in ours and all(half in ours for half in halves)
        yield from ((one, written) for one in (halves if both else [name]))


def _ours(bare: str, ours: dict[str, Entry], spelled: dict[str, str]) -> str:
    """As the recipe has it, in the same or in another spelling; else as it is written."""
    name = tidy(bare)
    return name if name in ours else spelled.get(folded(bare), name)


def _before_heavier(ordered: list[Entry]) -> Iterator[str]:
    most_percent = 0.0
    for one in reversed(ordered):
        if one.percent < most_percent:
            yield one.name
        most_percent = max(most_percent, one.percent)


def _left_off(label: LabelInUse, told: tuple[AllergenTold, ...]) -> Iterator[AllergenLeftOff]:
    for one in told:
        is_asked_for = one.verdict == "contains" and one.to_be_named != "no"
        if is_asked_for and one.allergen not in label.allergens:
            yield made(AllergenLeftOff, allergen=one.allergen, name=one.name, came_from=one.came_from)


def _not_found(label: LabelInUse, told: tuple[AllergenTold, ...]) -> Iterator[AllergenNotFound]:
    for one in told:
        if one.allergen in label.allergens and one.verdict != "contains":
            code = "cannot_be_excluded" if one.verdict == "cannot_tell" else "not_in_what_was_stated"
            yield made(AllergenNotFound, allergen=one.allergen, name=one.name, code=code)
