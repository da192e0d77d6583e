"""POST /v1/labels/statement: what a label has to say, from the recipe as it is made."""

from datetime import date
from math import fsum
from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from service.calculations.declaration import Calculation
from service.calculations.labels.labelling.comparing import LabelDifference, difference_of
from service.calculations.labels.labelling.composition import Contents, composition_of
from service.calculations.labels.labelling.explaining import sources_of, steps_of
from service.calculations.labels.labelling.matching import NOT_COMPARED, Liberty
from service.calculations.labels.labelling.ordering import Entry, entries_of, joined, statement_of
from service.calculations.labels.labelling.place import (
    SULPHITES,
    UNITED_STATES,
    Place,
    is_under_its_level,
    place_of,
)
from service.calculations.labels.labelling.recipe import (
    MOST_LINES,
    Allergens,
    LabelInUse,
    LabelledLine,
    LabelledProduct,
    Threshold,
)
from service.calculations.labels.labelling.refusing import REASONS, require_ids, united_states_only
from service.calculations.labels.labelling.requiring import MESSAGES, RequiredStatement, required_of, with_required
from service.calculations.labels.labelling.showing import ListedIngredient, SharedAllergen, shared, shown
from service.calculations.labels.labelling.solution import Solution, solution_of
from service.calculations.labels.labelling.telling import (
    WHY,
    AllergenStatement,
    AllergenTold,
    LabelledLineTold,
    OpenIngredient,
    allergens_told,
    is_to_be_named,
    line_told,
    open_told,
    statement_of_allergens,
)
from service.calculations.labels.labelling.wanting import Case, Certainty
from service.calculations.labels.labelling.warning import cautions_of
from service.quantities.models import Answer, Day, IfStated, Request, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.book import DayNotStated, Engine, RuleBook
from service.rules.rule import Caution
from service.rules.vocabulary import Jurisdiction, Operator

SulphitesMgPerKg = Annotated[float, Field(ge=0, le=100_000)]
TWO_MEATS, US_SULPHITES = "us-two-meats", "us-sulphites"
NO_CLAUSE_PERCENT = -1.0
"""Nothing is under it."""


class StatementRequest(Request):
    """A recipe as it is made, and what is known of everything in it. What is left out is not known, never none."""

    jurisdiction: Jurisdiction
    """Whose rules bind. Label rules are held for US, EU, DK, GB and GB-NI."""
    on: IfStated[Day] = None
    """The day; left out, it is today in the kitchen's time zone. Lists and rules are those of that day."""
    operator: Operator = "home"
    """Who works: label rules bind by audience, and nobody who cooks at home."""
    product: LabelledProduct
    """What is made."""
    lines: Annotated[list[LabelledLine], Field(min_length=1, max_length=MOST_LINES)]
    """Everything that goes in, by weight."""
    shared_equipment: IfStated[Allergens] = None
    """Allergens that went over the same equipment; an empty list says that there are none. Never taken for
    ingredients."""
    sulphites_mg_per_kg: IfStated[SulphitesMgPerKg] = None
    """Total sulphur dioxide in the food as it is eaten, where it was measured or worked out."""
    clause_percent: IfStated[Threshold] = None
    """Threshold of the clause "Contains 2% or less of"; left out, there is no such clause. United States only."""
    join_meats: bool = False
    """Whether the two largest meats are joined by "and", in the order of the lines. United States only."""
    spices: Literal["by_name", "as_one_word"] = "by_name"
    """as_one_word puts plain spices under the word "spices"; never onion, garlic or celery. United States only."""
    label_in_use: IfStated[LabelInUse] = None
    """The label that is on the product now, to be held against the recipe."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic, the notes and the list of sources."""


class StatementAnswer(Answer):
    """What the label has to say, what stays open, and how the label in use differs."""

    jurisdiction: Jurisdiction
    """Whose rules were applied."""
    on: date
    """The day whose lists and rules were applied."""
    rules_held: bool
    """Whether label rules of the place are held here; false: this answer says nothing of the law there."""
    allergen_statement: AllergenStatement
    """What the allergens come to."""
    open_ingredients: tuple[OpenIngredient, ...]
    """What keeps it from being told: find these out first."""
    allergens: tuple[AllergenTold, ...]
    """Every allergen that any law here lists, each with its verdict."""
    ingredient_statement: str
    """The list of ingredients as one text."""
    ingredients: tuple[ListedIngredient, ...]
    """The same, one by one, heaviest first; equal weights in the order of the lines."""
    total: Weight
    """Everything that goes in."""
    added_solution_percent: float | None
    """Solution by the weight of the meat; null where no line is in a solution, or none states an animal."""
    lines: tuple[LabelledLineTold, ...]
    """What is known of each line."""
    shared_equipment: tuple[SharedAllergen, ...] | None
    """Allergens on the same equipment, as stated; null where nothing was."""
    required: tuple[RequiredStatement, ...]
    """What else the label has to say."""
    difference: LabelDifference | None
    """How the label in use differs; null where none was stated."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you print."""
    sources: tuple[str, ...]
    """Where lists, rules and words are printed; empty in brief."""
    engine: Engine
    """What computed this."""


def statement(request: StatementRequest, book: RuleBook) -> StatementAnswer:
    """What a label has to say: ingredients in order, allergens with where they came from, and the other statements.

    Every allergen has one of three verdicts: contains, does_not_contain, cannot_tell. **An unknown is never none**: as
    soon as one ingredient is neither known by its name, nor stated with what it consists of, nor declared by a
    specification, the statement of allergens is cannot_tell, and what was found is told all the same. Claims such as
    "soy free" prove nothing. Shared equipment is told apart from ingredients.

    With `label_in_use` the label is held against the recipe, allergens that it leaves off first. Nothing here approves
    a label: an authority does, or whoever sells the food answers for it. Your local code and your inspector come before
    this answer.
    """
    worked = _worked_out(request, book)
    place, contents, entries, told = worked.place, worked.contents, worked.entries, worked.told
    threshold, full = request.clause_percent, request.detail == "full"
    limit_percent = NO_CLAUSE_PERCENT if threshold is None else float(threshold)
    difference = _difference(request, worked)
    required = required_of(_case(request, worked, difference, book), place.rules, full=full)
    difference = difference and with_required(difference, required)
    whole_g = fsum(entry.weight_g for entry in entries)
    steps = steps_of(entries, whole_g, threshold, worked.solution, contents) if full else ()
    return made(
        StatementAnswer,
        jurisdiction=request.jurisdiction,
        on=place.on,
        rules_held=place.has_list,
        allergen_statement=worked.allergens,
        open_ingredients=tuple(open_told(one, place) for one in dict.fromkeys(contents.opened)),
        allergens=told,
        ingredient_statement=statement_of(entries, threshold=threshold, meats=worked.meats, unplaced=_unplaced(worked)),
        ingredients=tuple(shown(one, limit_percent, request.units) for one in entries),
        total=present_weight(whole_g, request.units),
        added_solution_percent=worked.solution.percent if worked.solution else None,
        lines=tuple(
            line_told(place, number, line, inside)
            for number, (line, inside) in enumerate(zip(request.lines, contents.lines, strict=True), 1)
        ),
        shared_equipment=shared(request.shared_equipment, told),
        required=required,
        difference=difference,
        steps=tuple(steps),
        cautions=book.cautions_of(
            cautions_of(required, worked.allergens, contents, is_shared_stated=request.shared_equipment is not None)
        ),
        sources=sources_of(place, required) if full else (),
        engine=book.engine,
    )


class Worked(NamedTuple):
    """What follows from the recipe alone."""

    place: Place
    contents: Contents
    entries: tuple[Entry, ...]
    meats: tuple[Entry, Entry] | None
    told: tuple[AllergenTold, ...]
    allergens: AllergenStatement
    solution: Solution | None


def _worked_out(request: StatementRequest, book: RuleBook) -> Worked:
    place = _place(request, book)
    _require_place(request)
    require_ids(request.lines, book)
    contents = composition_of(place, request.lines)
    entries = entries_of(place, request.lines, contents.facts, spices=request.spices == "as_one_word")
    meats = joined(entries, _least_percent(book)) if request.join_meats else None
    told = allergens_told(place, contents, request.sulphites_mg_per_kg)
    allergens = statement_of_allergens(place, contents, told, is_listed=len(entries) > 1)
    return Worked(place, contents, entries, meats, told, allergens, solution_of(request.lines))


def _case(request: StatementRequest, worked: Worked, difference: LabelDifference | None, book: RuleBook) -> Case:
    return Case(
        product=request.product,
        lines=request.lines,
        entries=worked.entries,
        contents=worked.contents,
        allergens=worked.allergens,
        label=request.label_in_use,
        difference=difference,
        operator=request.operator,
        sulphites=_sulphites(request, worked, book),
        solution=worked.solution,
    )


def _place(request: StatementRequest, book: RuleBook) -> Place:
    if request.on is None:
        raise DayNotStated
    place = place_of(book, request.jurisdiction, request.on)
    if is_under_its_level(place, request.sulphites_mg_per_kg):
        return place_of(book, request.jurisdiction, request.on, with_sulphites=False)
    return place


def _sulphites(request: StatementRequest, worked: Worked, book: RuleBook) -> Certainty:
    """Whether they have to be named for another reason than a list of allergens: by what was measured, or by words."""
    level, measured = book.label_rules[US_SULPHITES].level_mg_per_kg, request.sulphites_mg_per_kg
    if level is not None and measured is not None:
        return "yes" if measured >= level else "no"
    verdict = next(one.verdict for one in worked.told if one.allergen == SULPHITES)
    return "yes" if verdict == "contains" else "cannot_tell" if verdict == "cannot_tell" else "no"


def _unplaced(worked: Worked) -> tuple[str, ...]:
    """What was measured and no ingredient is known to bring in: in Europe the list has to name it all the same."""
    if not worked.place.emphasises:
        return ()
    return tuple(
        one.name.upper()
        for one in worked.told
        if is_to_be_named(one) and all(way.by == "measurement" for way in one.came_from)
    )


def _require_place(request: StatementRequest) -> None:
    """The liberties of one law are not taken under another."""
    if request.jurisdiction == UNITED_STATES:
        return
    asked = {
        "clause_percent": request.clause_percent is not None,
        "join_meats": request.join_meats,
        "label_in_use.clause": request.label_in_use is not None and request.label_in_use.clause is not None,
        "spices": request.spices == "as_one_word",
    }
    options = [option for option, is_asked in asked.items() if is_asked]
    if options:
        raise united_states_only(options)


def _least_percent(book: RuleBook) -> tuple[float, float]:
    each, both = book.label_rules[TWO_MEATS].figures_percent
    return each, both


def _difference(request: StatementRequest, worked: Worked) -> LabelDifference | None:
    if request.label_in_use is None:
        return None
    small = [figure for rule in worked.place.rules if rule.item == "ingredients" for figure in rule.figures_percent]
    liberty = Liberty(max(small, default=0.0), frozenset(one.plain for one in worked.meats or ()))
    return difference_of(
        request.label_in_use,
        worked.entries,
        worked.told,
        worked.allergens,
        worked.contents,
        request.lines,
        liberty=liberty,
        unplaced=_unplaced(worked),
    )


STATEMENT = Calculation(
    name="labels/statement",
    summary="Say what a label has to say",
    request=StatementRequest,
    answer=StatementAnswer,
    run=statement,
    reasons=REASONS,
    codes={**WHY, **MESSAGES, **NOT_COMPARED},
)
