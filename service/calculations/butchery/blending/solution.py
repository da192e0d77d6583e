"""From a request to the blend that is taken: sorted, solved, weighed, and held against every limit again."""

from dataclasses import dataclass, replace

from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.choosing import Choice, Wishes, choose
from service.calculations.butchery.blending.lawful import lawful_limits, rules_on
from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled
from service.calculations.butchery.blending.line_solving import solver_of
from service.calculations.butchery.blending.nearest import refusal_of
from service.calculations.butchery.blending.programme import Solver, programme_of
from service.calculations.butchery.blending.rules_of import Terms, limits_of
from service.calculations.butchery.blending.savings import Prices
from service.calculations.butchery.blending.stepping import neighbour
from service.calculations.butchery.blending.weighing import is_coarse, on_scale, passed, told_tolerance
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.checker import RuleInForce

REASONS = {
    "scale_too_coarse": "The scale that weighs the meat is too coarse for this block.",
    "no_weight_asked": "Nothing says that any of it is to be made.",
}
MOST_TRIES = 4
EXACT: Scaled = 1e-12
"""What floating-point sums may be off."""


@dataclass(frozen=True, slots=True)
class Solution:
    """The blend that is taken, with everything that is told of it."""

    terms: Terms
    limits: tuple[Limit, ...]
    solved: tuple[Limit, ...]
    """The same, with those of the law a little further in where rounding would break them."""
    lawful: tuple[RuleInForce, ...]
    choice: Choice
    weighed: PerMaterial
    """The amounts as the scale shows them; exact ones where no scale is stated."""
    step: Scaled
    """Of the scale; 0 where none is stated."""
    solver: Solver
    wishes: Wishes

    def grams(self, amounts: PerMaterial) -> PerMaterial:
        """Scaled amounts in grams."""
        return tuple([amount * self.terms.scale_g for amount in amounts])

    @property
    def passed(self) -> tuple[Limit, ...]:
        """Limits that no whole steps beside the blend keep."""
        return passed(self.limits, self.weighed) if self.step else ()

    @property
    def is_coarse(self) -> bool:
        """Whether the scale changes an amount by so much that it is worth a word."""
        return is_coarse(self.weighed, self.choice.amounts)

    @property
    def prices(self) -> Prices | None:
        """The same programme, to be asked what would be otherwise; None without prices."""
        self.solver.restore()
        costs = self.wishes.costs
        return Prices(self.solver, self.solved, costs, self.choice.amounts) if costs else None


def solution_of(request: BlendRequest, terms: Terms, book: RuleBook, *, within_the_law: bool = True) -> Solution:
    """The blend to take. Raises Impossible where there is none."""
    rules, batch = rules_on(request, book), request.batch
    lawful = lawful_limits(batch, terms.in_play.materials, rules) if within_the_law and batch else ()
    limits, wishes = (*limits_of(request, terms), *lawful), wishes_of(request, terms)
    step = request.scale_step.g / terms.scale_g if request.scale_step else 0.0
    solved = limits
    for attempt in range(MOST_TRIES):
        solver, choice = _chosen(solved, wishes, terms.many, tightened=attempt > 0)
        if not any(choice.amounts):
            raise _nothing_asked()
        weighed = _weighed(choice.amounts, limits, step)
        broken = [limit.law is not None and not limit.is_kept(weighed, EXACT) for limit in limits] if step else []
        if any(weighed) and not any(broken):
            return Solution(terms, limits, solved, rules, choice, weighed, step, solver, wishes)
        solved = _tightened(solved, broken, choice.amounts, step)
    raise _too_coarse()


def _weighed(amounts: PerMaterial, limits: tuple[Limit, ...], step: Scaled) -> PerMaterial:
    """As the scale shows it; where that passes a limit, a step beside it that does not."""
    if not step:
        return amounts
    weighed = on_scale(amounts, limits, step)
    return (neighbour(weighed, amounts, limits, step) or weighed) if passed(limits, weighed) else weighed


def _tightened(solved: tuple[Limit, ...], broken: list[bool], amounts: PerMaterial, step: Scaled) -> tuple[Limit, ...]:
    """A limit of the law that rounding broke, held further in by what rounding can do."""
    return tuple(
        [
            replace(limit, value=limit.value - told_tolerance(limit, amounts, step)) if one else limit
            for limit, one in zip(solved, broken, strict=True)
        ]
    )


def _nothing_asked() -> Impossible:
    return Impossible(
        code="no_weight_asked",
        reason="The block may weigh anything, and no limit asks for any of it: the lightest blend is none.",
        nearest="State block.at_least, or how much of a material is used at least.",
    )


def _too_coarse() -> Impossible:
    return Impossible(
        code="scale_too_coarse",
        reason="In whole steps of the scale no blend keeps every limit, or there is nothing to weigh.",
        nearest="Take a scale with a finer step, or leave scale_step out.",
    )


def wishes_of(request: BlendRequest, terms: Terms) -> Wishes:
    """What decides between blends; prices so that the dearest material costs 1."""
    prices = [float(each.price.of_a_gram) for each in terms.in_play.materials if each.price]
    ages = [each.age_d for each in terms.in_play.materials if each.age_d is not None]
    dearest = max(prices, default=0.0) or 1.0
    return Wishes(
        costs=tuple([price / dearest for price in prices]) if prices else None,
        ages=tuple(ages) if len(ages) == terms.many else None,
        free_weight=request.block.kind != "whole_block",
    )


def _chosen(limits: tuple[Limit, ...], wishes: Wishes, many: int, *, tightened: bool) -> tuple[Solver, Choice]:
    solver = solver_of(programme_of(limits, many))
    choice = choose(solver, wishes, many)
    if choice is None:
        raise _too_coarse() if tightened else refusal_of(limits, many)
    return solver, choice
