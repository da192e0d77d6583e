"""POST /v1/seasoning/scale: a recipe scaled to what there is."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.declaration import Calculation
from service.calculations.seasoning.scaling.advising import CODES, ScalingAdvice, advice_for
from service.calculations.seasoning.scaling.at_hand import MOST_LIMITS, Limit
from service.calculations.seasoning.scaling.cures import require_no_cure
from service.calculations.seasoning.scaling.explaining import sources_of, steps_of
from service.calculations.seasoning.scaling.limiting import limits_of
from service.calculations.seasoning.scaling.lines import lines_of
from service.calculations.seasoning.scaling.recipe import MOST_LINES, SeasoningLine
from service.calculations.seasoning.scaling.reckoning import Recipe, recipe_of
from service.calculations.seasoning.scaling.refusing import REASONS
from service.calculations.seasoning.scaling.showing import limits_told, lines_told, liquid_told, salt_told
from service.calculations.seasoning.scaling.telling import (
    LimitAtHand,
    LiquidTold,
    SaltTold,
    ScaledLine,
    told_band,
    told_weight,
)
from service.calculations.seasoning.scaling.warning import cautions_for
from service.quantities.bands import WeightBand
from service.quantities.models import Answer, IfStated, Request, made
from service.quantities.quantity import Mass, Units, Weight
from service.quantities.scale import scale_of
from service.rules.book import Engine, RuleBook
from service.rules.rule import Caution

Lines = Annotated[list[SeasoningLine], Field(min_length=1, max_length=MOST_LINES)]
Limits = Annotated[list[Limit], Field(min_length=1, max_length=MOST_LIMITS)]


class ScaleRequest(Request):
    """A recipe, and what there is."""

    meat: Mass
    """The meat that the recipe is written for."""
    lines: Lines
    """Everything else in it, liquids too. Curing salt is left out: it is dosed."""
    at_hand: Limits
    """What there is: meat, an ingredient, a vessel, each once. The tightest decides."""
    scale_step: IfStated[Mass] = None
    """The smallest step that your scale shows; with it every line says what to weigh."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class ScaleAnswer(Answer):
    """The recipe as it is made today, in grams with their spread."""

    factor_ratio: float
    """What everything is multiplied by."""
    limits: tuple[LimitAtHand, ...]
    """What there is, in the order stated: what each would allow, which decides, what is left over."""
    meat: Weight
    """The meat to take."""
    lines: tuple[ScaledLine, ...]
    """The lines, in the order of the recipe."""
    weight: WeightBand
    """Meat and all lines together."""
    salt: SaltTold
    """All the salt in it, and the sodium."""
    liquid: LiquidTold | None
    """Water, beer and vinegar; null where there are none."""
    advice: tuple[ScalingAdvice, ...]
    """What a factor does not say."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you weigh."""
    sources: tuple[str, ...]
    """Where the figures are printed and how that is known; empty in brief."""
    engine: Engine
    """What computed this."""


def scale(request: ScaleRequest, book: RuleBook) -> ScaleAnswer:
    """A recipe in any mix of weights, spoons, cups and pieces, scaled to what there is and told in grams.

    State the meat that the recipe is written for, its lines, and what there is: so much meat, so much of an
    ingredient, a vessel. The tightest decides; of the others you are told what is left over. A weighed line is one
    weight; a spoon or a clove keeps the band of every figure that was published for it. The salt of stock powders,
    blends and sauces is counted with the rest; where nobody knows it, the total is an at least.

    **Curing salt is never scaled.** Anything that carries nitrite or nitrate is refused, by whatever name and even by
    weight: `POST /v1/curing/dose` says what to weigh of it for the scaled meat. Days, smoke and heat do not scale
    either. Your local code and your inspector come before this answer.
    """
    recipe, units, full = _recipe(request, book), request.units, request.detail == "full"
    return made(
        ScaleAnswer,
        factor_ratio=recipe.by_ratio,
        limits=limits_told(recipe, units),
        meat=told_weight(recipe.meat_g, recipe.by_ratio, units),
        lines=lines_told(recipe, units),
        weight=told_band(recipe.weight, recipe.by_ratio, units),
        salt=salt_told(recipe, units),
        liquid=liquid_told(recipe, units),
        advice=advice_for(recipe),
        steps=tuple(steps_of(recipe)) if full else (),
        cautions=book.cautions_of(cautions_for(recipe)),
        sources=sources_of(recipe) if full else (),
        engine=book.engine,
    )


def _recipe(request: ScaleRequest, book: RuleBook) -> Recipe:
    """The recipe in grams, with its factor. Raises Impossible."""
    written, limits = tuple(request.lines), tuple(request.at_hand)
    require_no_cure(written, limits, book)
    lines = lines_of(written, book)
    held = limits_of(request.meat, lines, limits, book)
    step = request.scale_step
    return recipe_of(request.meat.g, lines, held, None if step is None else scale_of(step))


SCALE = Calculation(
    name="seasoning/scale",
    summary="Scale a recipe to what there is",
    request=ScaleRequest,
    answer=ScaleAnswer,
    run=scale,
    reasons=REASONS,
    codes=CODES,
)
