"""Ways to ask for a label statement, and to read what is told."""

from typing import Any

from service.calculations.labels.statement import StatementAnswer, StatementRequest, statement
from service.rules.book import RuleBook


def told(body: dict[str, Any], book: RuleBook) -> StatementAnswer:
    """The answer to a body."""
    return statement(StatementRequest.model_validate(body), book)


def verdicts(answer: StatementAnswer) -> dict[str, str]:
    """The verdict of each allergen."""
    return {one.allergen: one.verdict for one in answer.allergens}


def contained(answer: StatementAnswer) -> set[str]:
    """The allergens that are in."""
    return {one.allergen for one in answer.allergens if one.verdict == "contains"}


def ways(answer: StatementAnswer, allergen: str) -> list[tuple[str, ...]]:
    """The ways in which an allergen came in."""
    return [found.path for one in answer.allergens if one.allergen == allergen for found in one.came_from]


def required(answer: StatementAnswer, item: str) -> Any:
    """What is told of one thing that a label has to say; None where it is not asked for."""
    return next((one for one in answer.required if one.item == item), None)
