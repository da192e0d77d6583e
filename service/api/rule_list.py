"""Reference data that callers may keep: the rules, with their history and sources."""

import json
from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache, partial
from typing import Annotated

from pydantic import Field
from starlette.requests import Request as HttpRequest
from starlette.responses import Response

from service.api.faults import asked_in_query
from service.api.pages import READING_PROBLEMS, REFERENCE, Page, answer_page, page_of
from service.api.problems import Problem
from service.api.reading import read_query
from service.api.routes import Example, Operation
from service.quantities.models import Day, IfStated, Request
from service.rules.book import RuleBook, UnknownRule
from service.rules.listing import RuleDetail, RuleList, describe_rule, list_rules
from service.rules.vocabulary import Jurisdiction, Measure

PAGES_KEPT = 32


class RuleQuestion(Request):
    """Which rules, and on which day."""

    jurisdiction: IfStated[Jurisdiction] = None
    """The place whose rules bind; without it, every place."""
    measure: IfStated[Measure] = None
    """What the rule limits; without it, everything."""
    on: IfStated[Day] = None
    """The day that in_force is about; without it, today."""


class DayQuestion(Request):
    """On which day."""

    on: IfStated[Day] = None
    """The day that in_force is about; without it, today."""


class RuleAddress(Request):
    """Which rule."""

    id: Annotated[str, Field(pattern=r"^[a-z0-9]+([.-][a-z0-9]+)*$", max_length=60)]
    """Its id, as findings name it."""


class RuleShelf:
    """The rules as pages, the latest few kept."""

    def __init__(self, book: RuleBook, today: Callable[[], date]) -> None:
        self._book = book
        self._today = today
        self._listed = lru_cache(maxsize=PAGES_KEPT)(self._make_list)

    def listed(self, query: Mapping[str, str]) -> Page:
        """The page of a list of rules."""
        asked = asked_in_query(RuleQuestion, query)
        return self._listed(asked.jurisdiction, asked.measure, asked.on or self._today())

    def described(self, id: str, query: Mapping[str, str]) -> Page:
        """The page of one rule."""
        asked = asked_in_query(DayQuestion, query)
        try:
            return page_of(describe_rule(self._book, id, asked.on or self._today()))
        except UnknownRule:
            raise Problem("not-found", "No rule has this id; GET /v1/rules lists them.") from None

    def _make_list(self, jurisdiction: Jurisdiction | None, measure: Measure | None, on: date) -> Page:
        return page_of(list_rules(self._book, jurisdiction=jurisdiction, measure=measure, on=on))

    def list_examples(self) -> tuple[Example, ...]:
        """One example of a list."""
        parameters = {"jurisdiction": "US", "measure": "erythorbic_acid", "on": "2026-12-01"}
        answer = json.loads(self.listed(parameters).body)
        return (Example("accelerator", "What limits erythorbic acid", parameters=parameters, answer=answer),)

    def rule_examples(self) -> tuple[Example, ...]:
        """One example of a rule, where there are rules."""
        return tuple(
            Example(
                "history", "A rule with its history", parameters={"id": id, "on": "2026-12-01"},
                answer=json.loads(self.described(id, {"on": "2026-12-01"}).body),
            )
            for id in sorted(self._book.rules)[:1]
        )  # fmt: skip


async def _answer_rules(shelf: RuleShelf, request: HttpRequest) -> Response:
    return answer_page(request, shelf.listed(read_query(request)))


async def _answer_rule(shelf: RuleShelf, request: HttpRequest) -> Response:
    return answer_page(request, shelf.described(request.path_params["id"], read_query(request)))


def rule_operations(book: RuleBook, today: Callable[[], date]) -> tuple[Operation, ...]:
    """Everything here, as operations."""
    shelf = RuleShelf(book, today)
    return (
        Operation(
            id="list_rules", method="GET", path="/v1/rules", tag=REFERENCE, summary="The rules",
            description="The rules that bind in a place, with what each says on a day, its history and its sources.",
            handle=partial(_answer_rules, shelf), query=RuleQuestion, answer=RuleList, answer_means="The rules.",
            problems=READING_PROBLEMS, examples=shelf.list_examples, cacheable=True,
        ),
        Operation(
            id="read_rule", method="GET", path="/v1/rules/{id}", tag=REFERENCE, summary="One rule",
            description="One rule with its whole history and its sources.",
            handle=partial(_answer_rule, shelf), path_parameters=RuleAddress, query=DayQuestion, answer=RuleDetail,
            answer_means="The rule.", problems=(*READING_PROBLEMS, "not-found"), examples=shelf.rule_examples,
            cacheable=True,
        ),
    )  # fmt: skip
