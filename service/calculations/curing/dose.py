"""POST /v1/curing/dose: what to weigh for a cure."""

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.amounts import Amounts, Recipe, Steps, Wanted
from service.calculations.curing.exact import exact_amounts
from service.calculations.curing.explaining import cautions_for, sources_of, steps_of
from service.calculations.curing.figures import DoseFigures, WeighedItem, What, figures_of, scaled_items, stated_item
from service.calculations.curing.methods import Comminuted, Dry, Injected, Method, bath_of
from service.calculations.curing.products import Product, green_weight_g, product_facts
from service.calculations.curing.readings import measures_of, read
from service.calculations.curing.salts import Accelerator, CuringSalt, StockPowder
from service.calculations.curing.verdicts import findings_of_dose, refuse_over_limits, require_rules
from service.calculations.curing.weighing import weighed
from service.calculations.declaration import Calculation
from service.calculations.refusals import Impossible
from service.quantities.models import Answer, Day, IfStated, Request
from service.quantities.quantity import Mass, Units, Water
from service.quantities.scale import Scale
from service.rules.book import Engine, Question, RuleBook
from service.rules.finding import Finding
from service.rules.rule import Caution
from service.rules.vocabulary import Fact, Jurisdiction, Operator


class IngoingNitrite(Request):
    """Reach an ingoing nitrite."""

    kind: Literal["ingoing_nitrite"]
    """The kind of target."""
    ppm: float = Field(ge=1, le=1000)
    """Parts per million of the nitrite salt on the label: per green weight, or per meat plus pickle at equilibrium."""


class CuringSaltShare(Request):
    """Use a percentage of curing salt and see what it comes to."""

    kind: Literal["curing_salt"]
    """The kind of target."""
    percent: float = Field(ge=0.05, le=10)
    """Percent of the green weight (dry, comminuted, injected) or of meat plus water (immersion): 0.25, not 0.0025."""


SaltPercent = Annotated[float, Field(ge=0.1, le=20)]
SugarPercent = Annotated[float, Field(ge=0.05, le=20)]
Target = Annotated[IngoingNitrite | CuringSaltShare, Field(discriminator="kind")]


class DoseRequest(Request):
    """What is cured, how, with which curing salt, and what is to be reached."""

    jurisdiction: Jurisdiction
    """Whose rules bind."""
    on: IfStated[Day] = None
    """The day of curing; left out, it is today in the kitchen's time zone. Rules are those of that day."""
    operator: Operator = "home"
    """Who works: rules bind by audience."""
    product: Product
    """What is being made."""
    meat: Mass
    """Weight of the raw meat as it lies on the scale, before anything is added."""
    method: Method
    """How the cure gets in."""
    curing_salt: CuringSalt
    """The curing salt by its label."""
    target: Target
    """What to reach."""
    salt_percent: IfStated[SaltPercent] = None
    """All salt, that in curing salt and stock powder included. Percent of the green weight (dry, comminuted, injected)
    or of meat plus water (immersion): 2.2, not 0.022."""
    sugar_percent: IfStated[SugarPercent] = None
    """All sugar, reckoned like salt."""
    accelerator: IfStated[Accelerator] = None
    """A cure accelerator. Pumped bacon in the United States must have one."""
    stock_powder: IfStated[StockPowder] = None
    """A salty seasoning whose salt counts."""
    other_ingredients: IfStated[Mass] = None
    """Everything else that goes in: spice, honey, beer. It adds weight and nothing more."""
    scale_step: Mass
    """The smallest step of the scale that weighs the curing salt. Doses are rounded down to it."""
    units: Units = "metric"
    """Units for worked-out weights. What is to be weighed is in the unit of the scale."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class DoseAnswer(Answer):
    """What to weigh, what it comes to, and how that stands to every rule that binds."""

    jurisdiction: Jurisdiction
    """Whose rules were applied."""
    on: date
    """The day whose rules were applied."""
    product_is: tuple[Fact, ...]
    """What the product was taken to be in law."""
    weigh: tuple[WeighedItem, ...]
    """What to put on the scale, in the order of the recipe."""
    figures: DoseFigures
    """What the weighed amounts come to."""
    findings: tuple[Finding, ...]
    """Each rule that binds, its figure, its limit and the room between them."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you weigh."""
    sources: tuple[str, ...]
    """The texts behind limits and formulas; empty in brief."""
    engine: Engine
    """What computed this."""


def dose(request: DoseRequest, book: RuleBook) -> DoseAnswer:
    """How much curing salt, salt, sugar and accelerator to weigh for a piece of meat, a pickle or a sausage batch.

    The dose is rounded **down** to the step of your scale and checked again after rounding. A dose that would break
    a limit is refused with 422 `limit-exceeded` and every finding; one that cannot exist (a curing salt too weak, a
    pickle with no room for water, no rule known for the place) with 422 `impossible` and the nearest thing that can
    be done. Volumes never dose a curing salt.

    Figures are ingoing amounts, worked out from what you state; nothing here measures what is left in the finished
    piece. Your local code, your inspector and a process authority come before this answer.
    """
    recipe = _recipe(request)
    question = _question(request)
    binding = book.binding(question)
    require_rules(binding, recipe)
    exact = exact_amounts(recipe)
    refuse_over_limits(binding, read(recipe, exact))
    scale = Scale(request.scale_step)
    amounts, steps = weighed(recipe, exact, scale)
    _require_a_dose(exact, steps, scale)
    readings = read(recipe, amounts)
    findings = findings_of_dose(binding, readings)
    full = request.detail == "full"
    return DoseAnswer.of(
        jurisdiction=request.jurisdiction,
        on=request.on,
        product_is=tuple(sorted(question.facts)),
        weigh=(*scaled_items(recipe, exact, steps, scale), *_stated(request)),
        figures=figures_of(readings, request.units, every_basis=full),
        findings=findings,
        steps=steps_of(exact, readings) if full else (),
        cautions=cautions_for(request.product, readings, findings, book),
        sources=sources_of(findings) if full else (),
        engine=book.engine,
    )


def _question(request: DoseRequest) -> Question:
    """What the law asks to know of this dose."""
    wet: tuple[Fact, ...] = ()
    if not isinstance(request.method, Dry | Comminuted):
        wet = ("pickle",) if isinstance(request.method, Injected) else ("pickle", "immersed")
    read: tuple[Fact, ...] = ("strength_on_label",) if request.curing_salt.strength_on_label else ()
    facts = (*product_facts(request.product, request.method.kind), request.curing_salt.nitrite.salt, *wet, *read)
    measures = measures_of(request.curing_salt, request.accelerator)
    return Question(request.jurisdiction, request.on, request.operator, frozenset(facts), measures)


def _recipe(request: DoseRequest) -> Recipe:
    """The request as numbers in grams. Raises Impossible for a piece that weighs more without its skin."""
    meat_g = request.meat.g
    green_g = green_weight_g(request.product, meat_g)
    if green_g > meat_g:
        raise Impossible(
            code="heavier_without_skin",
            reason=f"The piece is stated to weigh {green_g:,.6g} g without its skin and {meat_g:,.6g} g with it.",
        )
    water = None if isinstance(request.method, Dry) else request.method.water
    target = request.target
    return Recipe(
        meat_g=meat_g,
        green_g=green_g,
        bath=bath_of(request.method, green_g=green_g, meat_g=meat_g),
        water_g=water.g if water else 0.0,
        stock_powder_g=request.stock_powder.mass.g if request.stock_powder else 0.0,
        stock_salt_g=request.stock_powder.salt_g if request.stock_powder else 0.0,
        other_g=request.other_ingredients.g if request.other_ingredients else 0.0,
        cure=request.curing_salt,
        wanted=Wanted(
            target_ppm=target.ppm if isinstance(target, IngoingNitrite) else None,
            curing_salt_percent=target.percent if isinstance(target, CuringSaltShare) else None,
            salt_percent=request.salt_percent,
            sugar_percent=request.sugar_percent,
            accelerator=request.accelerator,
        ),
    )


def _require_a_dose(exact: Amounts, steps: Steps, scale: Scale) -> None:
    """A dose too small for the scale is no dose."""
    if steps.curing_salt and (steps.accelerator or not exact.accelerator_g):
        return
    short_g = exact.accelerator_g if steps.curing_salt else exact.curing_salt_g
    raise Impossible(
        code="below_scale_step",
        reason=f"{short_g:.4g} g would have to be weighed; the smallest step of the scale is {scale.name}.",
        nearest=f"Make at least {scale.step_g / short_g:.4g} times as much, or take a scale with a finer step.",
    )


def _stated(request: DoseRequest) -> tuple[WeighedItem, ...]:
    water = None if isinstance(request.method, Dry) else request.method.water
    powder = request.stock_powder.mass if request.stock_powder else None
    rows: tuple[tuple[What, Mass | Water | None], ...] = (
        ("stock_powder", powder),
        ("other_ingredients", request.other_ingredients),
        ("water", water),
        ("meat", request.meat),
    )
    return tuple(stated_item(what, stated) for what, stated in rows if stated)


DOSE = Calculation(
    name="curing/dose",
    summary="Weigh a cure",
    request=DoseRequest,
    answer=DoseAnswer,
    run=dose,
)
