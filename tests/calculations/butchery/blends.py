"""Asking for blends in tests."""

from datetime import date
from typing import Any

import orjson

from service.calculations.butchery.blend import BlendAnswer, blend
from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.refusals import Impossible, LimitExceeded, Refusal
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import Body

ON = date(2026, 12, 1)


def answer_to(book: RuleBook, body: Body, **changed: Any) -> BlendAnswer:
    """The answer to a request with something else about it."""
    return blend(BlendRequest.model_validate({"on": ON, **body, **changed}), book)


def told_by(book: RuleBook, body: Body) -> Body:
    """The same as its JSON."""
    told: Body = orjson.loads(written(answer_to(book, body)))
    return told


def refusal_of(book: RuleBook, body: Body, **changed: Any) -> Refusal | None:
    """Why it is refused; None where it is answered."""
    try:
        answer_to(book, body, **changed)
    except (Impossible, LimitExceeded) as refusal:
        return refusal
    return None


def problem_of(refusal: Refusal) -> Body:
    """What a problem document says of it."""
    if isinstance(refusal, Impossible):
        return {"code": refusal.code, "nearest": refusal.nearest}
    assert isinstance(refusal, LimitExceeded)
    return {"code": "limit_exceeded", "findings": [vars(finding) for finding in refusal.findings]}


def grams_of(answer: BlendAnswer) -> dict[str, float]:
    """Grams of each material that is used."""
    return {item.name: item.exact_g for item in answer.weigh}
