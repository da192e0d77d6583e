"""Chains written shortly, and asked."""

import json
from typing import Any

from service.calculations.butchery.chain import ChainAnswer, ChainRequest, chain
from service.calculations.refusals import Impossible
from service.quantities.models import written
from service.rules.book import RuleBook

Body = dict[str, Any]


def mass(value: float, unit: str = "kg") -> Body:
    """A weight."""
    return {"value": value, "unit": unit}


def left(percent: float, low: float | None = None, high: float | None = None) -> Body:
    """What is left."""
    ends = {"low_percent": low, "high_percent": high}
    return {"kind": "left", "percent": percent} | {name: end for name, end in ends.items() if end is not None}


def lost(percent: float, low: float | None = None, high: float | None = None) -> Body:
    """What is lost."""
    return {**left(percent, low, high), "kind": "lost"}


def gained(percent: float, low: float | None = None, high: float | None = None) -> Body:
    """What is gained."""
    return {**left(percent, low, high), "kind": "gained"}


def own_test(before_kg: float, after_kg: float) -> Body:
    """A test of one's own."""
    return {"kind": "own_test", "before": mass(before_kg), "after": mass(after_kg)}


def stage(kind: str, change: Body | None = None, **more: Any) -> Body:
    """A stage."""
    return {"kind": kind, **({"change": change} if change else {}), **more}


def smoke(change: Body | None = None, **more: Any) -> Body:
    """A stage in the smoke."""
    return stage("cook", change, method="smoke", **more)


def bought(value: float, unit: str = "kg", **more: Any) -> Body:
    """Forwards."""
    return {"kind": "bought", "weight": mass(value, unit), **more}


def weight_wanted(value: float, unit: str = "kg") -> Body:
    """Backwards from a weight."""
    return {"kind": "weight_wanted", "weight": mass(value, unit)}


def portions_wanted(how_many: int, size: float, unit: str) -> Body:
    """Backwards from portions."""
    return {"kind": "portions_wanted", "how_many": how_many, "portion": mass(size, unit)}


def corned(cut: str, **more: Any) -> Body:
    """Corned beef in the United States."""
    return {"jurisdiction": "US", "product": {"kind": "corned_beef", "cut": cut}, **more}


def made_of(kind: str, *, sold_as: str | None = None, **product: Any) -> Body:
    """Another product in the United States."""
    named = {"sold_as": sold_as} if sold_as else {}
    return {"jurisdiction": "US", "product": {"kind": kind, **product}, **named}


def answer_to(book: RuleBook, task: Body, *stages: Body, **more: Any) -> ChainAnswer:
    """The answer."""
    return chain(ChainRequest.model_validate({"task": task, "stages": list(stages), "on": "2026-12-01", **more}), book)


def told_of(answer: ChainAnswer) -> Body:
    """An answer as a caller reads it."""
    told: Body = json.loads(written(answer))
    return told


def refusal_of(book: RuleBook, body: Body) -> Impossible | None:
    """Why a chain is refused; None where it is answered."""
    try:
        chain(ChainRequest.model_validate(body), book)
    except Impossible as refusal:
        return refusal
    return None


def codes(answer: ChainAnswer) -> list[str]:
    """What is called out."""
    return [one.code for one in answer.call_outs]
