"""The recipe held against the label in use: what the label leaves off first."""

from collections.abc import Iterator, Sequence
from typing import Literal

from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.matching import (
    NOT_COMPARED,
    Compared,
    Liberty,
    NotComparedCode,
    compare_list,
)
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.recipe import LabelInUse, LabelledLine
from service.calculations.labels.labelling.telling import (
    AllergenSource,
    AllergenStatement,
    AllergenTold,
    is_to_be_named,
    kinds_of,
)
from service.quantities.models import Answer, made
from service.rules.checker import Verdict
from service.rules.spelling import folded
from service.rules.vocabulary import AllergenName, LabelItem


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
    allergens_not_named: tuple[str, ...]
    """Allergens that the list of Europe has to name beside an ingredient, and does not."""
    names_not_used: tuple[str, ...]
    """Names that the list has to have and has not: water for ice, in Europe what an additive does."""
    required_items: tuple[LabelItem, ...]
    """What hangs on the ingredients and is asked for (required), and is not met."""
    not_compared: tuple[NotCompared, ...]
    """What the law asks for and what was stated does not show."""


def difference_of(
    label: LabelInUse,
    entries: tuple[Entry, ...],
    told: tuple[AllergenTold, ...],
    statement: AllergenStatement,
    contents: Contents,
    lines: Sequence[LabelledLine],
    *,
    liberty: Liberty,
    unplaced: tuple[str, ...] = (),
) -> LabelDifference:
    """The label in use against the recipe. What was measured and is of no ingredient has a sentence of its own."""
    compared, place = Compared(), contents.place
    sentences = {folded(f"contains {one}"): one for one in unplaced}
    written = label.ingredients
    if sentences:
        written = [one for one in written if sentences.pop(folded(one), None) is None]
    compare_list(written, label.clause, entries, place, liberty, compared)
    compared.allergens_not_named += sentences.values()
    left_off = tuple(_left_off(label, told))
    kinds = tuple(_kinds(told, contents))
    kinds_left_off = tuple(_kinds_left_off(kinds, label))
    if kinds and label.kinds is None:
        compared.unknown += [(kind, "kinds_not_stated") for kind in kinds]
    compared.unknown += [(line.name, "usual_not_in_parts") for line in _unusual(lines, contents)]
    compared.unknown += [(kind, "kind_not_found") for kind in _kinds_not_found(label, contents)]
    differs = bool(left_off or kinds_left_off) or compared.differs
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
        allergens_not_named=tuple(compared.allergens_not_named),
        names_not_used=tuple(compared.names_not_used),
        required_items=(),
        not_compared=tuple(
            made(NotCompared, name=name, code=code, message=NOT_COMPARED[code])
            for name, code in dict.fromkeys(compared.unknown)
        ),
    )


def _left_off(label: LabelInUse, told: tuple[AllergenTold, ...]) -> Iterator[AllergenLeftOff]:
    for one in told:
        if is_to_be_named(one) and one.allergen not in label.allergens:
            yield made(AllergenLeftOff, allergen=one.allergen, name=one.name, came_from=one.came_from)


def _unusual(lines: Sequence[LabelledLine], contents: Contents) -> Iterator[LabelledLine]:
    """Lines of which the service itself says that something is usually in them that the place lists."""
    listed = contents.place.listed
    for line, inside in zip(lines, contents.lines, strict=True):
        if any(one in listed for one in inside.unusual):
            yield line


def _kinds_not_found(label: LabelInUse, contents: Contents) -> Iterator[str]:
    """Kinds on the label that no word and no specification names."""
    if not label.kinds:
        return
    found = [set(folded(one.says).replace(" and ", " ").split()) for one in contents.found if one.says]
    for kind in label.kinds:
        words = set(folded(kind).split())
        if not any(words <= one or one <= words for one in found):
            yield kind


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
