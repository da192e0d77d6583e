"""The arithmetic of a label in words, and where its rules are printed."""

from collections.abc import Iterator

from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.place import Place
from service.calculations.labels.labelling.requiring import RequiredStatement
from service.calculations.labels.labelling.solution import Solution

Number = int | float

WORDS_SOURCE = "Words of ingredient lists (rules/data/substances.yaml); each row says where it is from"


def steps_of(
    entries: tuple[Entry, ...], whole_g: float, clause: str | None, solution: Solution | None, contents: Contents
) -> Iterator[str]:
    """From weights to the list, and from words to allergens."""
    yield f"Everything that goes in weighs {_n(whole_g)} g."
    for one in entries:
        lines = ", ".join(str(line) for line in one.lines)
        yield f"{one.name} (line {lines}): {_n(one.weight_g)} g / {_n(whole_g)} g = {_n(one.percent)} percent."
    if clause is not None:
        tail = [one.name for one in entries if one.percent <= float(clause)]
        yield f"At or under {clause} percent, and so in the clause: {', '.join(tail) if tail else 'nothing'}."
    if solution is not None:
        solution_g, meat_g, percent = (_n(figure) for figure in solution)
        yield f"Added solution: {solution_g} g / {meat_g} g of meat = {percent} percent."
    for found in dict.fromkeys(contents.found):
        told = f'the word "{found.word}"' if found.word else "the specification"
        yield f"{' > '.join(found.path)}: {told} brings in {found.allergen.replace('_', ' ')}."
    for opened in dict.fromkeys(contents.opened):
        yield f"{' > '.join(opened.path)}: open, {opened.why.replace('_', ' ')}."


def sources_of(place: Place, required: tuple[RequiredStatement, ...]) -> tuple[str, ...]:
    """The lists of allergens, the rules that were applied, and the words."""
    lists = [f"{one.citation} ({one.evidence})" for one in place.listed.values()]
    rules = [f"{one.citation} ({one.evidence})" for one in required]
    return tuple(dict.fromkeys([*lists, *rules, WORDS_SOURCE]))


def _n(figure: Number) -> str:
    return f"{figure:,.4f}".rstrip("0").rstrip(".") if abs(figure) >= 1 else f"{figure:.4g}"
