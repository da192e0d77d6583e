"""The weights of a chain against the law: weighed figures are judged, planned ones are a forecast."""

from collections.abc import Callable
from datetime import date
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import Standard
from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.curing.classes import facts_of, kind_of
from service.calculations.curing.on_green import finished_percent, gained_percent
from service.quantities.models import Answer, made
from service.quantities.units import factor
from service.rules.book import Question, RuleBook
from service.rules.checker import RuleInForce, verdict_of
from service.rules.finding import Finding, gauge_of
from service.rules.vocabulary import Bound, Evidence, Fact, Force, Measure

MEASURES: frozenset[Measure] = frozenset({"weight_gain", "weight_loss", "finished_weight", "piece_weight"})
"""What a scale alone can tell."""
DIGITS = 9
"""Of a forecast: enough to hold it against any limit, without floating-point noise."""


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

    low: float
    typical: float
    high: float
    unit: str
    is_weighed: bool


def standing_of(
    standard: Standard | None, on: date | None, chain: Chain, book: RuleBook
) -> tuple[tuple[Finding, ...], tuple[WeightForecast, ...]]:
    """Every weight rule that binds: a finding where it can be judged or cannot be told, else a forecast."""
    if standard is None:
        return (), ()
    facts = frozenset(_facts(standard, chain))
    binding = book.binding(Question(standard.jurisdiction, on, standard.operator, facts, MEASURES))
    findings, forecasts = [], []
    for rule in binding.rules:
        figure = _figure(rule, standard, chain, facts)
        if figure and not figure.is_weighed and rule.witnessed and rule.limit is not None:
            forecasts.append(_forecast(rule, figure))
        else:
            findings.append(gauge_of(rule).finding(figure.typical if figure else None))
    return tuple(findings), tuple(forecasts)


def _facts(standard: Standard, chain: Chain) -> tuple[Fact, ...]:
    """What the product is to the law; what the chain cooks is cooked, whatever else is stated."""
    is_wet = chain.cured is not None and chain.share(chain.cured, chain.cured - 1).typical_fraction > 1
    named: tuple[Fact, ...] = (standard.sold_as,) if standard.sold_as else ()
    cooked: tuple[Fact, ...] = ("cooked",) if chain.is_cooked else ()
    return (*facts_of(kind_of(standard.product), "injected" if is_wet else "dry"), *named, *cooked)


def _figure(rule: RuleInForce, standard: Standard, chain: Chain, facts: frozenset[Fact]) -> Figure | None:
    """What the rule asks for; None where nothing lets it be worked out."""
    if rule.measure == "piece_weight":
        return _of_piece(rule, standard)
    green, later = chain.green, chain.cured if rule.measure == "weight_gain" else _finished(chain, facts)
    if green is None or later is None or later < green:
        return None
    is_weighed = chain.is_fact(green) and chain.is_fact(later)
    low, typical, high = (READERS[rule.measure](fraction) for fraction in _in_order(rule, chain.share(later, green)))
    return Figure(low, typical, high, "percent", is_weighed)


def _of_piece(rule: RuleInForce, standard: Standard) -> Figure | None:
    piece = standard.smallest_piece
    if piece is None:
        return None
    unit = rule.unit or "lb"
    weight = piece.g / factor(unit)
    return Figure(weight, weight, weight, unit, is_weighed=True)


def _finished(chain: Chain, facts: frozenset[Fact]) -> int | None:
    """What is to be cooked is not finished before."""
    return None if {"cooked", "barbecued_meat"} & facts and not chain.is_cooked else chain.finished


def _in_order(rule: RuleInForce, share: Share) -> Share:
    """Most is lost where least is left."""
    return Share(*share[::-1]) if rule.measure == "weight_loss" else share


READERS: dict[Measure, Callable[[float], float]] = {
    "weight_gain": lambda cured: gained_percent(1.0, cured_g=cured),
    "finished_weight": lambda finished: finished_percent(1.0, finished_g=finished),
    "weight_loss": lambda finished: 100 - finished_percent(1.0, finished_g=finished),
}
"""The figure of a rule, from a weight for one of green weight."""


def _forecast(rule: RuleInForce, figure: Figure) -> WeightForecast:
    kept = [verdict_of(rule, one)[0] == "met" for one in (figure.low, figure.high)]
    code = "whole_range_keeps" if all(kept) else "part_breaks" if any(kept) else "whole_range_breaks"
    return made(
        WeightForecast,
        rule=rule.id,
        measure=rule.measure,
        outlook="expected" if all(kept) else "at_risk",
        low=round(figure.low, DIGITS),
        typical=round(figure.typical, DIGITS),
        high=round(figure.high, DIGITS),
        unit=figure.unit,
        limit=rule.limit,
        bound=rule.bound,
        basis=rule.basis,
        evidence=rule.evidence,
        force=rule.force,
        citation=rule.citation,
        text_as_of=rule.text_as_of,
        code=code,
        message=f"{figure.low:.6g} to {figure.high:.6g} {figure.unit} against {rule.bound} {rule.limit:.6g} "
        f"{figure.unit}: {MESSAGES[code]}",
        cautions=("reported-source",) if rule.evidence == "reported" else (),
    )


MESSAGES = {
    "whole_range_keeps": "the whole range keeps it. Planned, not weighed.",
    "part_breaks": "part of the range breaks it. Planned, not weighed.",
    "whole_range_breaks": "the whole range breaks it. Planned, not weighed.",
}
