"""POST /v1/yields/chain: what is left after every stage, and how much to buy."""

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.butchery.chaining import advising
from service.calculations.butchery.chaining.advising import advice_for
from service.calculations.butchery.chaining.asking import Bought, BoughtAs, PieceRange, Stage, Standard, Task
from service.calculations.butchery.chaining.buying import PieceOption, Portions, pieces_for, portions_of, wanted_g
from service.calculations.butchery.chaining.calling_out import CALL_OUTS, Asked, call_outs_on
from service.calculations.butchery.chaining.carrying import backwards, forwards
from service.calculations.butchery.chaining.explaining import sources_of, steps_of
from service.calculations.butchery.chaining.judging import MEASURES, WeightForecast, standing_of
from service.calculations.butchery.chaining.lacking import require_all
from service.calculations.butchery.chaining.links import bought_as, comes_cured, links_of
from service.calculations.butchery.chaining.matching import meat_of, require_match
from service.calculations.butchery.chaining.naming_defaults import (
    DefaultTaken,
    ReadingTold,
    defaults_told,
    published_for,
)
from service.calculations.butchery.chaining.picturing import drawing_of
from service.calculations.butchery.chaining.refusing import REASONS
from service.calculations.butchery.chaining.telling import StageTold, band_of, stages_told, unit_for
from service.calculations.butchery.chaining.warning import chain_cautions
from service.calculations.butchery.cutting.naming import cut_named
from service.calculations.declaration import Calculation
from service.calculations.remarks import Advice, CallOut
from service.quantities.bands import WeightBand
from service.quantities.models import Answer, Day, IfStated, Name, Request
from service.quantities.quantity import Units
from service.rules.book import Engine, RuleBook
from service.rules.finding import Finding
from service.rules.rule import Caution

MOST_STAGES = 10


class ChainRequest(Request):
    """What is bought or wanted, and every stage in its order."""

    task: Task
    """Forwards from a weight that was bought, or backwards from portions or a weight that is wanted."""
    stages: Annotated[list[Stage], Field(min_length=1, max_length=MOST_STAGES)]
    """In the order in which they are done."""
    cut: IfStated[Name] = None
    """Id of a cut of GET /v1/cuts: where a stage states no share, what is published for it is taken."""
    bought_as: IfStated[BoughtAs] = None
    """What comes in. Left out, it is untrimmed, or what the cut is."""
    pieces: IfStated[PieceRange] = None
    """What pieces weigh as bought, to be told how many to buy; left out, it is as published for the cut."""
    standard: IfStated[Standard] = None
    """The product that weights are held against the law for; left out, nothing is."""
    on: IfStated[Day] = None
    """The day whose rules apply; left out, it is today in the kitchen's time zone."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class ChainAnswer(Answer):
    """What is left after every stage, from what is bought to what is sold."""

    task: Literal["bought", "portions_wanted", "weight_wanted"]
    """The task."""
    on: date | None
    """The day whose rules applied; null where nothing is held against the law."""
    bought_as: BoughtAs
    """What comes in."""
    purchased: WeightBand
    """What was bought, or is to be bought: low where every stage leaves most, high where every one leaves least."""
    sold: WeightBand
    """What is left after the last stage, or is wanted there."""
    stages: tuple[StageTold, ...]
    """Every stage, with what is there after it."""
    portions: Portions | None
    """Whole portions; null where no size is stated."""
    pieces: tuple[PieceOption, ...]
    """Whole pieces to buy, for each range of weight; empty forwards, and where no range with two ends is known."""
    defaults: tuple[DefaultTaken, ...]
    """Every share that nobody stated, with its sources."""
    published: tuple[ReadingTold, ...]
    """Published yields of this cut over the whole chain, percent of purchased, to compare with."""
    findings: tuple[Finding, ...]
    """Limits on weight that were held against weighed figures, or that nothing stated lets be held."""
    forecasts: tuple[WeightForecast, ...]
    """Limits on weight beside planned figures: expected or at_risk, never met."""
    call_outs: tuple[CallOut, ...]
    """What a person should look at first. GET /v1/calculations lists the codes."""
    advice: tuple[Advice, ...]
    """Where a point of yield is worth most, and what to weigh."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you follow it."""
    sources: tuple[str, ...]
    """Where shares, limits and formulas are printed; empty in brief."""
    engine: Engine
    """What computed this."""


def chain(request: ChainRequest, book: RuleBook) -> ChainAnswer:
    """What is left after every stage of trimming, curing, cooking, chilling and slicing; or how much to buy.

    Each share is of the weight that enters its stage, and every figure names both of its weights: 70 percent of a
    **cured** piece is not 70 percent of the fresh one. Low and high come from all low shares together and all high
    ones together, so that every combination lies between. Whole pieces are rounded up last.

    A stage without a share takes what is published for the cut, or what is usual, and says so with its source. A cure
    is always stated or weighed. With a `standard`, weighed figures are judged against the ceilings on weight gained and
    finished weight, and planned ones are a forecast: `expected` or `at_risk`, never met.

    A yield says nothing of whether meat is cooked through. Your local code and your inspector come before this answer.
    """
    cut = cut_named(book, request.cut) if request.cut is not None else None
    begins, meat = bought_as(request.bought_as, cut), meat_of(cut, request.standard)
    links = links_of(request.stages, begins, meat, book)
    require_all(links, meat, book)
    require_match(request.standard, cut)
    start_g = wanted_g(request.task)
    one = forwards(start_g, links) if isinstance(request.task, Bought) else backwards(start_g, links)
    unit = unit_for(request.units, one.points[0].high_g)
    pieces = () if one.is_bought else pieces_for(one.points[0], request.pieces, cut, unit)
    cured, full = comes_cured(begins, cut), request.detail == "full"
    standing = findings, forecasts = standing_of(request.standard, request.on, one, book, cured=cured)
    published = published_for(cut, one, book)
    asked = Asked(request.task, begins, request.standard, cured, cut, published, standing)
    return ChainAnswer.of(
        task=request.task.kind,
        on=request.on if request.standard else None,
        bought_as=begins,
        purchased=band_of(one.points[0], unit),
        sold=band_of(one.points[-1], unit),
        stages=stages_told(one, unit),
        portions=portions_of(request.task, one.points[-1], request.units),
        pieces=pieces,
        defaults=defaults_told(one),
        published=published,
        findings=findings,
        forecasts=forecasts,
        call_outs=call_outs_on(one, asked),
        advice=advice_for(one, forecasts, unit),
        steps=steps_of(request.task, one, pieces) if full else (),
        cautions=book.cautions_of(chain_cautions(one, begins, findings, forecasts)),
        sources=sources_of(one, findings, forecasts) if full else (),
        engine=book.engine,
    )


CHAIN = Calculation(
    name="yields/chain",
    summary="Carry weights through a chain of yields",
    request=ChainRequest,
    answer=ChainAnswer,
    run=chain,
    drawing=drawing_of,
    reasons=REASONS,
    codes=CALL_OUTS | advising.CODES,
    measures=MEASURES,
)
