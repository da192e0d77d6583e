"""A butcher's block: cutting tests to write down shortly."""

from typing import Any

from service.calculations.butchery.cut_test import CutTestAnswer, CutTestRequest, cut_test
from service.rules.book import RuleBook


def mass(text: str) -> dict[str, Any]:
    """A weight such as 2.5 kg."""
    value, unit = text.split()
    return {"value": float(value), "unit": unit}


def part(name: str, use: str, *weights: str, what: str | None = None) -> dict[str, Any]:
    """A part with its weighings; none where it was not weighed."""
    made_of = {"what": what} if what else {}
    return {"name": name, "use": use, **made_of, **({"weights": [mass(one) for one in weights]} if weights else {})}


def body_of(purchased: str, *parts: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A request."""
    return {"purchased": mass(purchased), "parts": list(parts), **more}


def answer_to(book: RuleBook, purchased: str, *parts: dict[str, Any], **more: Any) -> CutTestAnswer:
    """The answer to a cutting test."""
    return cut_test(CutTestRequest.model_validate(body_of(purchased, *parts, **more)), book)


def codes(answer: CutTestAnswer) -> list[str]:
    """What is called out."""
    return [one.code for one in answer.call_outs]
