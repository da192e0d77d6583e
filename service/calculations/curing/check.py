"""POST /v1/curing/check: how a recipe, as it is written, stands to the rules."""

from collections.abc import Iterator
from datetime import date
from functools import partial
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.checking.as_written import (
    RecipeLine,
    Weights,
    WrittenAccelerator,
    WrittenCuringSalt,
    WrittenMethod,
)
from service.calculations.curing.checking.asking import (
    AFTERWARDS,
    Verdicts,
    by_importance,
    is_uncured,
    measures_in,
    recipe_facts,
    unruled,
    verdicts_of,
)
from service.calculations.curing.checking.assessing import Case, findings_of_check, weight_gain_percent
from service.calculations.curing.checking.calling_out import (
    CALL_OUTS,
    on_amount,
    on_confusions,
    on_nitrate,
    on_none,
    on_recalled,
    on_seasonings,
)
from service.calculations.curing.checking.contents import UNBOUNDED_G, Contents, Span, contents_of
from service.calculations.curing.checking.contradictions import contradictions_in, without_contradictions
from service.calculations.curing.checking.figures import CheckFigures, check_figures
from service.calculations.curing.checking.finding_out import (
    ON_MEAT,
    WET,
    Gap,
    Need,
    gaps_in_accelerators,
    gaps_in_curing_salts,
    gaps_in_ingredients,
    gaps_in_method,
    gaps_in_weights,
    needs_of,
)
from service.calculations.curing.checking.steps import check_steps
from service.calculations.curing.checking.supposing import supposed
from service.calculations.curing.checking.suspicious_salts import on_salts
from service.calculations.curing.checking.uptakes import NOT_KNOWN, Uptake, is_too_short, uptake_of
from service.calculations.curing.checking.vessel import Pot
from service.calculations.curing.checking.warning import check_cautions, is_weak
from service.calculations.curing.explaining import sources_of
from service.calculations.curing.methods import Comminuted, Dry
from service.calculations.curing.permission import NEEDS_FINISH
from service.calculations.curing.products import green_weight_g
from service.calculations.curing.question import CureQuestion
from service.calculations.curing.readings import EVER_MEASURED
from service.calculations.curing.salts import anhydrous_g
from service.calculations.declaration import Calculation
from service.calculations.remarks import CallOut, call
from service.quantities.models import Answer, IfStated
from service.quantities.quantity import Duration, Mass
from service.rules.banding import BandedFinding
from service.rules.book import Engine, Question, RuleBook
from service.rules.rule import Caution
from service.rules.vocabulary import Fact, Jurisdiction

MOST_SALTS, MOST_LINES, MOST_ACCELERATORS = 4, 60, 3


class CheckRequest(CureQuestion):
    """A recipe as it is written: what is left out is taken as not known, never as none."""

    method: WrittenMethod
    """How the cure gets in."""
    meat: IfStated[Mass] = None
    """Weight of the raw meat as it lies on the scale."""
    curing_salts: IfStated[Annotated[list[WrittenCuringSalt], Field(max_length=MOST_SALTS)]] = None
    """Every curing salt and saltpetre; an empty list says that there is none. Left out, it is not known."""
    ingredients: IfStated[Annotated[list[RecipeLine], Field(max_length=MOST_LINES)]] = None
    """Everything else that goes in; an empty list says that there is nothing. Left out, it is not known."""
    accelerators: IfStated[Annotated[list[WrittenAccelerator], Field(max_length=MOST_ACCELERATORS)]] = None
    """Cure accelerators, which are not repeated among the ingredients; an empty list says that there is none. Left out,
    it is not known."""
    smoked: IfStated[bool] = None
    """Whether the piece is smoked."""
    cured_for: IfStated[Duration] = None
    """Time in the cure."""
    weights: IfStated[Weights] = None
    """Weights taken after curing and finishing."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class CheckAnswer(Answer):
    """How a recipe stands to every rule that binds, what it leaves open, and what would settle that."""

    jurisdiction: Jurisdiction
    """Whose rules were applied."""
    on: date
    """The day whose rules were applied."""
    product_is: tuple[Fact, ...]
    """What the product was taken to be in law."""
    verdicts: Verdicts
    """All findings together."""
    call_outs: tuple[CallOut, ...]
    """What a person should look at first. GET /v1/calculations lists the codes."""
    findings: tuple[BandedFinding, ...]
    """Each rule that binds, with its figure or the range of it."""
    needs: tuple[Need, ...]
    """What would have to be weighed, read or stated to settle what cannot be told."""
    figures: CheckFigures
    """What the recipe comes to."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you follow the recipe."""
    sources: tuple[str, ...]
    """The texts behind limits and formulas; empty in brief."""
    engine: Engine
    """What computed this."""


def check(request: CheckRequest, book: RuleBook) -> CheckAnswer:
    """How a recipe, by weight or by spoon, stands to every limit that binds: met, not met, or cannot tell.

    State what the recipe says and leave out what it does not: what is left out is taken as **not known**, and no
    verdict of met is built on it. A spoon counts as everything that such a spoon is known to hold. Where the recipe
    does not say how a piece is taken out of its pickle, the official readings are shown side by side. `needs` says
    what would have to be weighed, `call_outs` what looks wrong, with the confusion that would explain it.

    A check judges what is written, not what is in the food. Your local code, your inspector and a process authority
    come before this answer.
    """
    contents = contents_of(request.curing_salts, request.ingredients, book, _most_unstated(request))
    pot, cure_d = _pot(request, contents), request.cured_for.d if request.cured_for else None
    uptake = uptake_of(request.method, meat_g=pot.meat_g, green_g=pot.green_g, cure_d=cure_d) if pot else NOT_KNOWN
    case = _case(request, contents, pot, uptake)
    facts = recipe_facts(request.product, request.method, contents)
    measures = measures_in(contents, None if contents.hides_an_accelerator else request.accelerators)
    question = Question(request.jurisdiction, request.on, request.operator, facts, measures)
    binding = book.binding(question)
    findings = findings_of_check(case, binding)
    figures = check_figures(case, contents)
    lacking = unruled(contents, binding)
    permitted = not lacking and not is_uncured(contents)
    call_outs = (
        *contradictions_in(request.product, uptake, case, contents),
        *_call_outs(request, case, contents, lacking, book),
        *on_recalled(findings),
    )
    contradicted = uptake.known and not case.uptake.known
    full = request.detail == "full"
    return CheckAnswer.of(
        jurisdiction=request.jurisdiction,
        on=request.on,
        product_is=tuple(sorted(facts)),
        verdicts=verdicts_of(findings, permitted=permitted),
        call_outs=call_outs,
        findings=by_importance(findings),
        needs=needs_of(_gaps(request, case, contents, permitted=permitted, contradicted=contradicted), findings),
        figures=figures,
        steps=check_steps(case, contents, figures) if full else (),
        cautions=book.cautions_of(
            check_cautions(request.product, request.method, contents, call_outs, findings, is_weak=is_weak(case, book))
        ),
        sources=sources_of(findings, stays=case.uptake.stays) if full else (),
        engine=book.engine,
    )


def _case(request: CheckRequest, contents: Contents, pot: Pot | None, uptake: Uptake) -> Case:
    labels, weights = contents.labels, request.weights or Weights()
    strongest_percent = max((100 * label.nitrite_fraction for label in labels), default=0.0)
    return Case(
        pot=pot,
        uptake=without_contradictions(uptake, pot, request.product, weights) if pot else NOT_KNOWN,
        weights=weights,
        label_percent=strongest_percent if contents.labels_known else None,
        nitrite_known=contents.nitrite_known,
        accelerators_stated=request.accelerators is not None and not contents.hides_an_accelerator,
        on_labels=frozenset(name for name in ("nitrite", "nitrate") if any(getattr(label, name) for label in labels)),
        too_short=is_too_short(uptake, request.cured_for.d if request.cured_for else None),
    )


def _water_g(request: CheckRequest) -> float:
    water = None if isinstance(request.method, Dry) else request.method.water
    return water.g if water else 0.0


def _most_unstated(request: CheckRequest) -> Span:
    """What is not stated may be nothing, or as much as the water of a pickle, the meat of a batch (own bound)."""
    if isinstance(request.method, Dry | Comminuted):
        return Span(0.0, request.meat.g if request.meat else UNBOUNDED_G)
    return Span(0.0, _water_g(request))


MOST_ACCELERATOR_SHARE = 0.05
"""An accelerator that is not stated is taken to weigh no more than this share of the water (own bound)."""


def _accelerator(request: CheckRequest) -> Span:
    if request.accelerators is None:
        return Span(0.0, MOST_ACCELERATOR_SHARE * _water_g(request))
    mass_g = sum(one.amount.g for one in request.accelerators)
    return Span(mass_g, mass_g)


def _pot(request: CheckRequest, contents: Contents) -> Pot | None:
    if request.meat is None:
        return None
    accelerators = request.accelerators or ()
    return Pot(
        meat_g=request.meat.g,
        green_g=green_weight_g(request.product, request.meat.g),
        water_g=_water_g(request),
        comminuted=isinstance(request.method, Comminuted),
        contents=contents,
        accelerator=_accelerator(request),
        accelerators=tuple((one.kind, anhydrous_g(one.kind, one.amount.g)) for one in accelerators),
    )


def _call_outs(
    request: CheckRequest,
    case: Case,
    contents: Contents,
    lacking: tuple[str, ...],
    book: RuleBook,
) -> Iterator[CallOut]:
    yield from on_amount(case, smoked=request.smoked)
    yield from on_salts(contents, partial(supposed, case, book), green_g=case.pot.green_g if case.pot else None)
    if is_uncured(contents):
        yield from on_none(request.product, smoked=request.smoked)
    yield from on_confusions(contents, case.pot, request.method)
    yield from on_nitrate(request.product, request.cured_for.d if request.cured_for else None, contents)
    yield from on_seasonings(contents)
    for substance in () if is_uncured(contents) else lacking:
        known = f"No ceiling of {request.jurisdiction} for {substance} in this product was read or reported here"
        yield call("no_rule_in_force", f"{known}: no rule is not a pass.")


def _gaps(
    request: CheckRequest, case: Case, contents: Contents, *, permitted: bool, contradicted: bool
) -> Iterator[Gap]:
    if request.meat is None:
        yield Gap("#/meat", "Weigh the raw meat.", ON_MEAT)
    if not permitted and request.product.finish is None and request.jurisdiction in NEEDS_FINISH:
        how = "State how the piece is finished: rules there depend on it (fresh, matured, cooked, sterilised)."
        yield Gap("#/product/finish", how, frozenset(), always=True)
    if contradicted:
        yield Gap("#/method", "What is stated contradicts itself (see call_outs): weigh again.", WET)
    weighed = case.pot is not None and case.weights.cured is not None
    gain_percent = weight_gain_percent(case, limit_percent=0.0) if weighed else None
    yield from gaps_in_curing_salts(contents)
    yield from gaps_in_method(request.method, gain_percent=gain_percent, too_short=case.too_short)
    yield from gaps_in_ingredients(contents, request.method)
    if request.accelerators is None:
        yield from gaps_in_accelerators(request.method)
    yield from gaps_in_weights(request.weights or Weights())


CHECK = Calculation(
    name="curing/check",
    summary="Check a recipe",
    request=CheckRequest,
    answer=CheckAnswer,
    run=check,
    codes=CALL_OUTS,
    measures=EVER_MEASURED | AFTERWARDS,
)
