"""The weights of a chain against the law: weighed figures are judged, planned ones are a forecast."""

from collections.abc import Callable
from datetime import date
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import CureStage, Standard
from service.calculations.butchery.chaining.bands import NOISE
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.comparing import Points, ToState, points_of
from service.calculations.curing.classes import facts_of, kind_of
from service.calculations.curing.on_green import finished_percent, gained_percent
from service.quantities.models import Answer, holding, made
from service.quantities.units import factor
from service.rules.book import Question, RuleBook
from service.rules.checker import RuleInForce, verdict_of
from service.rules.finding import Finding, gauge_of
from service.rules.vocabulary import Bound, Evidence, Fact, Force, Measure
from service.rules.wording import told_apart

MEASURES: frozenset[Measure] = frozenset({"weight_gain", "weight_loss", "finished_weight", "piece_weight"})
"""What a scale alone can tell."""


class WeightForecast(Answer):
    """A figure worked out from planned shares, beside the limit that it will be held against once it is weighed."""

    rule: str
    """Rule id; the rule's history and sources are at GET /v1/rules/{id}."""
    measure: Measure
    """What the rule measures."""
    outlook: Literal["expected", "at_risk"]
    """expected: the whole range keeps the limit. at_risk: some or all of it does not. Never met: it is not weighed."""
    low: float
    """The least that it may come to."""
    typical: float
    """What it usually comes to."""
    high: float
    """The most."""
    unit: str
    """Unit of the figures and of the limit."""
    limit: float
    """The limit, in the source's unit."""
    bound: Bound
    """maximum or minimum."""
    basis: str | None
    """The weight that the figures are divided by, and the limit with it."""
    evidence: Evidence
    """How the limit is known: read, reported, recalled."""
    force: Force
    """law, policy, advice or guard."""
    citation: str
    """Where the limit is written."""
    text_as_of: str | None
    """Date of the text that was read."""
    code: Literal["whole_range_keeps", "part_breaks", "whole_range_breaks"]
    """Stable code of the message, for translation."""
    message: str
    """The same in a sentence."""
    cautions: tuple[str, ...]
    """Cautions that belong to the limit: a reported source."""


class Figure(NamedTuple):
    """What a rule asks for, between two sides."""

    low_percent: float
    typical_percent: float
    high_percent: float


class Product(NamedTuple):
    """What is being made, to the law."""

    standard: Standard
    facts: frozenset[Fact]
    comes_cured: bool


def standing_of(
    standard: Standard | None, on: date | None, chain: Chain, book: RuleBook, *, cured: bool
) -> tuple[tuple[Finding, ...], tuple[WeightForecast, ...]]:
    """Every weight rule that binds: a finding where it can be judged or cannot be told, else a forecast."""
    if standard is None:
        return (), ()
    product = Product(standard, frozenset(_facts(standard, chain)), cured)
    binding = book.binding(Question(standard.jurisdiction, on, standard.operator, product.facts, MEASURES))
    held = [_held(rule, chain, product) for rule in binding.rules]
    findings = tuple(one for one in held if isinstance(one, Finding))
    return findings, tuple(one for one in held if isinstance(one, WeightForecast))


def _facts(standard: Standard, chain: Chain) -> tuple[Fact, ...]:
    """What the product is to the law; what the chain cooks is cooked, whatever else is stated."""
    is_wet = any(
        isinstance(link.stage, CureStage) and chain.share(link.number, link.number - 1).typical_fraction > 1
        for link in chain.links
    )
    named: tuple[Fact, ...] = (standard.sold_as,) if standard.sold_as else ()
    cooked: tuple[Fact, ...] = ("cooked",) if chain.is_cooked else ()
    return (*facts_of(kind_of(standard.product), "injected" if is_wet else "dry"), *named, *cooked)


def _held(rule: RuleInForce, chain: Chain, product: Product) -> Finding | WeightForecast:
    if rule.limit is None or not rule.witnessed:
        return gauge_of(rule).finding(None)
    if rule.measure == "piece_weight":
        return _of_piece(rule, product.standard, chain)
    points = points_of(rule.measure, chain, product.standard, product.facts, cured=product.comes_cured)
    if isinstance(points, ToState):
        return gauge_of(rule).untold(points.what)
    figure = _figure(rule, chain, points)
    is_weighed = all(chain.is_fact(one) for one in (*points.greens, *points.laters))
    return _finding(rule, figure, points) if is_weighed else _forecast(rule, figure)


def _of_piece(rule: RuleInForce, standard: Standard, chain: Chain) -> Finding:
    piece = standard.smallest_piece
    if piece is None or rule.unit is None:
        return gauge_of(rule).untold("State standard.smallest_piece, the lightest piece when it was cured, weighed.")
    if piece.g > max(weight.high_g for weight in chain.points) * (1 + NOISE):
        return gauge_of(rule).untold(
            "The lightest piece is heavier than the whole batch: look at the units, and state standard.smallest_piece "
            "anew."
        )
    return _shown(gauge_of(rule).finding(piece.g / factor(rule.unit)))


def _figure(rule: RuleInForce, chain: Chain, points: Points) -> Figure:
    """What the rule asks for, between the least and the most that it may be, in percent."""
    read = READERS[rule.measure]
    shares = [chain.share(later, green) for green in points.greens for later in points.laters]
    low = read(min(one.low_fraction for one in shares))
    high = read(max(one.high_fraction for one in shares))
    typical = read(shares[-1].typical_fraction)
    return Figure(high, typical, low) if rule.measure == "weight_loss" else Figure(low, typical, high)


def _finding(rule: RuleInForce, figure: Figure, points: Points) -> Finding:
    """Judged where every weight that it may be comes to the same."""
    if verdict_of(rule, figure.low_percent)[0] != verdict_of(rule, figure.high_percent)[0]:
        return gauge_of(rule).untold(points.open_question, (figure.low_percent, figure.high_percent))
    return _shown(gauge_of(rule).finding(figure.low_percent if rule.bound == "minimum" else figure.high_percent))


def _shown(found: Finding) -> Finding:
    """Judged in full; what is shown is without the noise of the last bits."""
    if found.figure is None or found.margin is None:
        return found
    shown = {"figure": round(found.figure, DIGITS), "margin": round(found.margin, DIGITS)}
    return holding(Finding, {**vars(found), **shown})


DIGITS = 9
"""Of a figure as it is shown: far more than any scale tells."""

READERS: dict[Measure, Callable[[float], float]] = {
    "weight_gain": lambda cured: gained_percent(1.0, cured_g=cured),
    "finished_weight": lambda finished: finished_percent(1.0, finished_g=finished),
    "weight_loss": lambda finished: 0.0 - gained_percent(1.0, cured_g=finished),
}
"""The figure of a rule, from a weight for one of green weight."""


def _forecast(rule: RuleInForce, figure: Figure) -> WeightForecast:
    kept = [verdict_of(rule, one)[0] == "met" for one in (figure.low_percent, figure.high_percent)]
    low, high = (told_apart(one, limit=rule.limit) for one in (figure.low_percent, figure.high_percent))
    code = "whole_range_keeps" if all(kept) else "part_breaks" if any(kept) else "whole_range_breaks"
    return made(
        WeightForecast,
        rule=rule.id,
        measure=rule.measure,
        outlook="expected" if all(kept) else "at_risk",
        low=round(figure.low_percent, DIGITS),
        typical=round(figure.typical_percent, DIGITS),
        high=round(figure.high_percent, DIGITS),
        unit=rule.unit,
        limit=rule.limit,
        bound=rule.bound,
        basis=rule.basis,
        evidence=rule.evidence,
        force=rule.force,
        citation=rule.citation,
        text_as_of=rule.text_as_of,
        code=code,
        message=f"{low} to {high} {rule.unit} against {rule.bound} {rule.limit:.6g} {rule.unit}: {MESSAGES[code]}",
        cautions=("reported-source",) if rule.evidence == "reported" else (),
    )


MESSAGES = {
    "whole_range_keeps": "the whole range keeps it. Planned, not weighed.",
    "part_breaks": "part of the range breaks it. Planned, not weighed.",
    "whole_range_breaks": "the whole range breaks it. Planned, not weighed.",
}
