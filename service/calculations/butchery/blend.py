"""POST /v1/butchery/blend: a meat block from trims and other materials, to a fat target and at least cost."""

from datetime import date

from service.calculations.butchery.blending.asked import REASONS as ASKED_REASONS
from service.calculations.butchery.blending.asked import BlendRequest, require_consistent
from service.calculations.butchery.blending.calling_out import (
    CODES,
    call_outs_of_batch,
    call_outs_of_block,
    call_outs_of_scale,
)
from service.calculations.butchery.blending.explaining import SOURCES, WATER_SOURCE, steps_of, steps_of_batch
from service.calculations.butchery.blending.finishing import (
    FinishedBatch,
    Mixed,
    finished_batch,
    require_fat_for,
)
from service.calculations.butchery.blending.judging import advice_on, findings_of
from service.calculations.butchery.blending.lawful import MEASURES
from service.calculations.butchery.blending.nearest import REASONS as NEAREST_REASONS
from service.calculations.butchery.blending.rules_of import Terms, terms_of
from service.calculations.butchery.blending.salting import REASONS as SALTING_REASONS
from service.calculations.butchery.blending.salting import mixed_of, require_curable
from service.calculations.butchery.blending.solution import REASONS as SOLUTION_REASONS
from service.calculations.butchery.blending.solution import Solution, solution_of
from service.calculations.butchery.blending.sorting import REASONS as SORTING_REASONS
from service.calculations.butchery.blending.sorting import sorted_out
from service.calculations.butchery.blending.telling import Teller
from service.calculations.butchery.blending.told import (
    AnimalShare,
    BlendItem,
    BlockComposition,
    BlockTotal,
    ChosenBlend,
    LeftOutMaterial,
    LimitTold,
    NextBestTold,
)
from service.calculations.butchery.blending.warning import caution_ids
from service.calculations.curing.readings import EVER_MEASURED
from service.calculations.declaration import Calculation
from service.calculations.refusals import Impossible, LimitExceeded
from service.calculations.remarks import CallOut
from service.quantities.models import Answer, made
from service.rules.book import Engine, RuleBook
from service.rules.finding import Finding
from service.rules.rule import Caution


class BlendAnswer(Answer):
    """What to weigh for the block, what that comes to, and what would be otherwise."""

    on: date | None
    """The day whose rules were applied."""
    weigh: tuple[BlendItem, ...]
    """What to weigh, in the order of the request."""
    total: BlockTotal
    """What all of it weighs and costs."""
    composition: BlockComposition
    """What the block holds."""
    animals: tuple[AnimalShare, ...]
    """Animals of the block, the most first: as a label names them."""
    chosen: ChosenBlend
    """What decided between the blends that keep every limit."""
    limits: tuple[LimitTold, ...]
    """Every limit with what the blend as weighed comes to; in brief those that bind."""
    left_out: tuple[LeftOutMaterial, ...]
    """Materials that are not used, and why."""
    next_best: NextBestTold | None
    """The cheapest blend without one of the materials that are used; null where there is none, or no prices."""
    call_outs: tuple[CallOut, ...]
    """What the animals of the block, what was cured before, and the scale ask for."""
    batch: FinishedBatch | None
    """The block with salt, water, seasoning and cure; null where no batch is asked for."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you weigh."""
    sources: tuple[str, ...]
    """Where the method is printed; empty in brief."""
    engine: Engine
    """What computed this."""


def blend(request: BlendRequest, book: RuleBook) -> BlendAnswer:
    """What to weigh of each trim for a meat block of a wanted fat, at the least cost that your rules allow.

    Two trims to a fat target; lean or fat to add until a trim is used up; or up to sixty materials with prices, stock,
    ages and rules. The answer says which limits bind and what moving each would save, why a material is left out and at
    which price it would come in, and what the next-best blend costs. Where no blend keeps every limit, 422 `impossible`
    names the limits in conflict and the nearest thing that can be asked for.

    With a class of sausage the blend keeps the limits on its fat and water that may refuse; where no blend can, it is
    refused with 422 `limit-exceeded`. The cure is a dose (POST /v1/curing/dose). State fat by analysis or label, never
    from a name. Your local code, your inspector and a process authority come before this answer.
    """
    require_consistent(request)
    terms = terms_of(request, sorted_out(request))
    solution = _solution(request, terms, book)
    require_curable(terms.in_play.materials, request.batch)
    full, prices = request.detail == "full", solution.prices
    teller = Teller(solution, request.units, request.scale_step)
    mixed, batch = _finished(request, solution, book)
    animals, findings = teller.animals(), batch.findings if batch else ()
    species = frozenset(one.animal for one in animals)
    steps = (*steps_of(solution, teller), *(steps_of_batch(mixed, batch) if mixed and batch else ())) if full else ()
    return made(
        BlendAnswer,
        on=request.on,
        weigh=teller.weigh(),
        total=teller.total(),
        composition=teller.composition(),
        animals=animals,
        chosen=teller.chosen(),
        limits=teller.limits(prices, findings, full=full),
        left_out=tuple(teller.left_out(prices)),
        next_best=teller.next_best(prices),
        call_outs=(
            *call_outs_of_block(species, teller.cured()),
            *call_outs_of_scale(solution.passed, solution.weighed),
        ),
        batch=batch,
        steps=steps,
        cautions=book.cautions_of(caution_ids(species, mixed, findings, coarse=solution.is_coarse)),
        sources=(*SOURCES, *((WATER_SOURCE,) if batch else ())) if full else (),
        engine=book.engine,
    )


def _solution(request: BlendRequest, terms: Terms, book: RuleBook) -> Solution:
    """The blend that keeps every limit. Where only the law stands in the way, raises LimitExceeded."""
    try:
        return solution_of(request, terms, book)
    except Impossible as refusal:
        if request.batch is None or request.batch.sausage_class is None or refusal.code != "no_such_blend":
            raise
        _refuse_by_law(request, terms, book, refusal)
        raise


def _refuse_by_law(request: BlendRequest, terms: Terms, book: RuleBook, refusal: Impossible) -> None:
    """Raises LimitExceeded where a blend is there that breaks nothing but the law."""
    without = solution_of(request, terms, book, within_the_law=False)
    mixed, findings = _mixed(request, without, book)
    if any(finding.refuses for finding in findings):
        raise LimitExceeded(findings, advice_on(findings, mixed.batch, refusal.nearest))


def _finished(request: BlendRequest, solution: Solution, book: RuleBook) -> tuple[Mixed | None, FinishedBatch | None]:
    """The batch, where one is asked for. Raises LimitExceeded where the batch as weighed breaks the law."""
    if request.batch is None:
        return None, None
    mixed, findings = _mixed(request, solution, book)
    if any(finding.refuses for finding in findings):
        raise LimitExceeded(findings, advice_on(findings, mixed.batch))
    return mixed, finished_batch(mixed, findings, call_outs_of_batch(mixed, findings), request.units)


def _mixed(request: BlendRequest, solution: Solution, book: RuleBook) -> tuple[Mixed, tuple[Finding, ...]]:
    assert request.batch is not None
    materials, amounts_g = solution.terms.in_play.materials, solution.grams(solution.weighed)
    mixed = mixed_of(request.batch, materials, amounts_g, (request.on, request.units, request.detail), book)
    require_fat_for(mixed)
    return mixed, findings_of(solution.lawful, mixed)


BLEND = Calculation(
    name="butchery/blend",
    summary="Blend a meat block",
    request=BlendRequest,
    answer=BlendAnswer,
    run=blend,
    reasons=ASKED_REASONS | SORTING_REASONS | NEAREST_REASONS | SOLUTION_REASONS | SALTING_REASONS,
    codes=CODES,
    measures=MEASURES | EVER_MEASURED,
)
