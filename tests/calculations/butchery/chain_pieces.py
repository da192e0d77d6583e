"""Pieces weighed through a chain, for a standard of the United States."""

from typing import Any

from service.calculations.butchery.chain import ChainAnswer
from service.rules.book import RuleBook
from tests.calculations.butchery.chains import Body, answer_to, bought, made_of, mass, smoke, stage

BACON = made_of("bacon", skin="off")
RIPE_BACON = made_of("bacon", skin="off", finish="matured")
HAM = made_of("whole_muscle", species="pork", finish="matured", sold_as="country_ham")
UNRIPE = made_of("whole_muscle", species="pork", sold_as="country_ham")
BARBECUE = made_of("whole_muscle", species="pork", sold_as="barbecued_meat")


def weighed(kind: str, kg: float, **more: Any) -> Body:
    """A stage with its weight."""
    return stage(kind, weighed=mass(kg), **more)


def other(name: str, kg: float, **more: Any) -> Body:
    """Any other stage with its weight."""
    return weighed("other", kg, name=name, **more)


def smoked(kg: float) -> Body:
    """Out of the smoke."""
    return smoke(weighed=mass(kg))


def roasted(kg: float) -> Body:
    """Out of the oven."""
    return weighed("cook", kg, method="roast")


def asks(message: str) -> bool:
    """Whether it says what to state."""
    return any(word in message for word in ("State ", "state ", "weigh it whole", "Begin the chain"))


def judged(book: RuleBook, standard: Body, stages: list[Body], **more: Any) -> ChainAnswer:
    """Ten kilograms bought trimmed, for a standard."""
    return answer_to(book, bought(10), *stages, standard=standard, **{"bought_as": "trimmed", **more})
