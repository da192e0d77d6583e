"""POST /v1/curing/dose: what to weigh for a cure."""

from collections.abc import Iterator
from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.amounts import Recipe, Wanted
from service.calculations.curing.classes import kind_of
from service.calculations.curing.exact import exact_amounts
from service.calculations.curing.explaining import sources_of, steps_of
from service.calculations.curing.figures import DoseFigures, figures_of
from service.calculations.curing.items import WeighedItem, scaled_items, stated_item
from service.calculations.curing.makeable import (
    REASONS,
    require_consistent_storage,
    require_makeable,
    require_weighable,
    require_weighed_skin,
)
from service.calculations.curing.methods import Bath, Method, bath_of, stay_of, way_of
from service.calculations.curing.products import green_weight_g
from service.calculations.curing.question import CureQuestion
from service.calculations.curing.readings import EVER_MEASURED, read, substances_of
from service.calculations.curing.rulings import DoseKind, ruling_on
from service.calculations.curing.salts import Accelerator, CuringSalt, StockPowder
from service.calculations.curing.taking_up import REASONS as STAY_REASONS
from service.calculations.curing.taking_up import stayed_of
from service.calculations.curing.verdicts import findings_of_dose, refuse_over_limits
from service.calculations.curing.warning import caution_ids, is_coarse
from service.calculations.curing.weighing import weighed
from service.calculations.declaration import Calculation
from service.quantities.models import Answer, IfStated, Request, made
from service.quantities.quantity import MASS_SYMBOLS, Mass, Units
from service.quantities.scale import scale_of
from service.rules.book import Engine, RuleBook
from service.rules.finding import Finding
from service.rules.rule import Caution
from service.rules.vocabulary import Fact, Jurisdiction


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
    """Percent of the meat as weighed (dry, comminuted, injected) or of meat plus water (immersion): 0.25, not
    0.0025."""


SaltPercent = Annotated[float, Field(ge=0.1, le=20)]
SugarPercent = Annotated[float, Field(ge=0.05, le=20)]
Target = Annotated[IngoingNitrite | CuringSaltShare, Field(discriminator="kind")]


class DoseRequest(CureQuestion):
    """What is cured, how, with which curing salt, and what is to be reached."""

    meat: Mass
    """Weight of the raw meat as it lies on the scale, before anything is added."""
    method: Method
    """How the cure gets in."""
    curing_salt: CuringSalt
    """The curing salt by its label."""
    target: Target
    """What to reach."""
    salt_percent: IfStated[SaltPercent] = None
    """All salt, that in curing salt and stock powder included. Percent of the meat as weighed (dry, comminuted,
    injected) or of meat plus water (immersion): 2.2, not 0.022. Left out, none is added."""
    sugar_percent: IfStated[SugarPercent] = None
    """All sugar, reckoned like salt."""
    accelerator: IfStated[Accelerator] = None
    """A cure accelerator. Pumped bacon in the United States must have one."""
    stock_powder: IfStated[StockPowder] = None
    """A salty seasoning whose salt counts."""
    dissolved_ingredients: IfStated[Mass] = None
    """What else dissolves in a pickle or is mixed into a batch: phosphate, honey, milk powder. Its weight counts."""
    other_ingredients: IfStated[Mass] = None
    """Solids: spice, vegetables. They count in a comminuted batch; in a pickle or a rub they dilute nothing."""
    scale_step: Mass
    """The smallest step of the scale that weighs the curing salt. Doses are rounded down to it."""
    units: Units = "metric"
    """Units for worked-out weights. What is to be weighed is in the unit of the scale; arithmetic is in grams."""
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
    """What to put on the scale, the curing salt first."""
    figures: DoseFigures
    """What the weighed amounts come to."""
    findings: tuple[Finding, ...]
    """Each rule on what goes in that binds, its figure, its limit and the room between them."""
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
    require_consistent_storage(request.product)
    recipe = _recipe(request)
    ruling = ruling_on(_kind(request), book)
    exact = exact_amounts(recipe)
    scale = scale_of(request.scale_step)
    asked = read(recipe, exact)
    refuse_over_limits(ruling, asked, scale)
    require_makeable(asked)
    on_scale = weighed(asked, scale)
    require_weighable(exact, on_scale.display, scale)
    readings = read(recipe, on_scale.amounts)
    require_makeable(readings)
    held = ruling.figures(readings)
    findings = findings_of_dose(ruling, held, readings, scale)
    full, stays = request.detail == "full", recipe.bath is not None and recipe.bath.stayed is not None
    figures = figures_of(asked, readings, request.units, every_basis=full)
    coarse = is_coarse(exact, on_scale.amounts)
    ids = caution_ids(ruling.watch, recipe, held, findings, salt_percent=figures.salt_in_piece_percent, coarse=coarse)
    return made(
        DoseAnswer,
        jurisdiction=request.jurisdiction,
        on=request.on,
        product_is=ruling.facts,
        weigh=(*scaled_items(recipe, exact, on_scale.display, scale), *_stated(request, recipe)),
        figures=figures,
        findings=findings,
        steps=steps_of(exact, on_scale.curing_salt_before_rounding_g, readings, findings) if full else (),
        cautions=book.cautions_of(ids),
        sources=sources_of(findings, stays=stays) if full else (),
        engine=book.engine,
    )


def _kind(request: DoseRequest) -> DoseKind:
    return DoseKind(
        request.jurisdiction,
        request.on,
        request.operator,
        kind_of(request.product),
        way_of(request.method),
        substances_of(request.curing_salt, request.accelerator),
        request.curing_salt.strength_on_label,
    )


def _recipe(request: DoseRequest) -> Recipe:
    """The request as numbers in grams. Raises Impossible where the weights without and with skin contradict."""
    product, meat_g = request.product, request.meat.g
    green_g = green_weight_g(product, meat_g)
    require_weighed_skin(product, meat_g=meat_g, green_g=green_g)
    method, target, powder = request.method, request.target, request.stock_powder
    dissolved, other, cure = request.dissolved_ingredients, request.other_ingredients, request.curing_salt
    water = None if method.kind == "dry" else method.water
    return Recipe(
        meat_g=meat_g,
        green_g=green_g,
        comminuted=method.kind == "comminuted",
        weighed_skin=product.kind == "bacon" and product.skin_free is not None,
        bath=_bath(request, green_g=green_g, meat_g=meat_g),
        water_g=water.g if water else 0.0,
        water_by_volume=water is not None and water.unit not in MASS_SYMBOLS,
        stock_powder_g=powder.mass.g if powder else 0.0,
        stock_salt_g=powder.salt_g if powder else 0.0,
        dissolved_g=dissolved.g if dissolved else 0.0,
        other_g=other.g if other else 0.0,
        cure=cure,
        shares=cure.shares,
        wanted=Wanted(
            target_ppm=target.ppm if target.kind == "ingoing_nitrite" else None,
            curing_salt_percent=target.percent if target.kind == "curing_salt" else None,
            salt_percent=request.salt_percent,
            sugar_percent=request.sugar_percent,
            accelerator=request.accelerator,
        ),
    )


def _bath(request: DoseRequest, *, green_g: float, meat_g: float) -> Bath | None:
    method = request.method
    bath = bath_of(method, green_g=green_g, meat_g=meat_g)
    if bath is None or not bath.immersed:
        return bath
    stay = stay_of(method)
    if stay is None or method.kind == "dry" or method.water is None:
        return bath
    return bath._replace(stayed=stayed_of(stay, meat_g=meat_g, water_g=method.water.g, injected_g=bath.injected_g))


def _stated(request: DoseRequest, recipe: Recipe) -> Iterator[WeighedItem]:
    powder, dissolved, other = request.stock_powder, request.dissolved_ingredients, request.other_ingredients
    method = request.method
    if powder:
        yield stated_item("stock_powder", powder.mass, recipe.stock_powder_g)
    if dissolved:
        yield stated_item("dissolved_ingredients", dissolved, recipe.dissolved_g)
    if other:
        yield stated_item("other_ingredients", other, recipe.other_g)
    if method.kind != "dry" and method.water:
        yield stated_item("water", method.water, recipe.water_g)
    yield stated_item("meat", request.meat, recipe.meat_g)


DOSE = Calculation(
    name="curing/dose",
    summary="Weigh a cure",
    request=DoseRequest,
    answer=DoseAnswer,
    run=dose,
    reasons=REASONS | STAY_REASONS,
    measures=EVER_MEASURED,
)
