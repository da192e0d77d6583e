"""What can be calculated: every calculation with its paths, formulas, reasons, rules and sources."""

import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from starlette.requests import Request
from starlette.responses import Response

from service.api.examples import examples_of
from service.api.faults import require_no_parameters
from service.api.formulas import Formula, formulas_of
from service.api.line_operations import CALCULATIONS, lines_path
from service.api.pages import READING_PROBLEMS, Page, answer_page, page_of
from service.api.pictures import calendar_path, chart_path
from service.api.problem_bodies import CodeDescription
from service.api.routes import Example, Operation
from service.calculations.declaration import AnyCalculation, Cost
from service.quantities.models import Answer
from service.rules.book import Engine, RuleBook
from service.rules.rule import Rule


class CalculationDescription(Answer):
    """A calculation: where to ask, what it works with, and on what it rests."""

    name: str
    """Its name, as a line of many calculations says it."""
    path: str
    """Where to ask for one."""
    lines_path: str
    """Where to ask for many, a line of JSON each."""
    chart_path: str | None
    """Where to ask for a chart of the answer; null where there is nothing to draw."""
    calendar_path: str | None
    """Where to ask for a calendar of what is to be done; null where nothing is."""
    summary: str
    """What it does, in a few words."""
    description: str
    """What it does, and what it does not do."""
    cost: Cost
    """light: answered at once. heavy: may have to wait for others, and has a deadline."""
    formulas: tuple[Formula, ...]
    """The published formulas that it works with."""
    reasons: tuple[CodeDescription, ...]
    """Codes with which it says that something is impossible."""
    codes: tuple[CodeDescription, ...]
    """Other stable codes in its answers, for translation."""
    rules: tuple[str, ...]
    """Ids of the rules that it may hold a figure against; GET /v1/rules/{id} tells each."""
    sources: tuple[str, ...]
    """Where those rules and formulas are written."""
    examples: int
    """How many examples the document shows."""


class CalculationList(Answer):
    """Everything that can be calculated."""

    engine: Engine
    """What answered."""
    items: tuple[CalculationDescription, ...]
    """The calculations."""


class CalculationShelf:
    """The list as a page, made on first use."""

    def __init__(self, calculations: Sequence[AnyCalculation], book: RuleBook) -> None:
        self._calculations = calculations
        self._book = book

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        return answer_page(request, self.page)

    @cached_property
    def page(self) -> Page:
        items = tuple(describe(calculation, self._book) for calculation in self._calculations)
        return page_of(CalculationList.of(engine=self._book.engine, items=items))

    def examples(self) -> tuple[Example, ...]:
        """The list itself."""
        return (Example("calculations", "Every calculation", answer=json.loads(self.page.body)),)


def describe(calculation: AnyCalculation, book: RuleBook) -> CalculationDescription:
    """What is published about one calculation."""
    formulas = formulas_of(calculation)
    rules = [rule for _, rule in sorted(book.rules.items()) if rule.measure in calculation.measures]
    return CalculationDescription.of(
        name=calculation.name,
        path=f"/v1/{calculation.name}",
        lines_path=lines_path(calculation.name),
        chart_path=chart_path(calculation),
        calendar_path=calendar_path(calculation),
        summary=calculation.summary,
        description=calculation.description,
        cost=calculation.cost,
        formulas=formulas,
        reasons=_described(calculation.reasons),
        codes=_described(calculation.codes),
        rules=tuple(rule.id for rule in rules),
        sources=tuple(dict.fromkeys(_sources(formulas, rules))),
        examples=len(examples_of(calculation)),
    )


def _described(codes: Mapping[str, str]) -> tuple[CodeDescription, ...]:
    return tuple(CodeDescription.of(code=code, meaning=means) for code, means in codes.items())


def _sources(formulas: Sequence[Formula], rules: Sequence[Rule]) -> Iterator[str]:
    for formula in formulas:
        yield from formula.references
    for rule in rules:
        yield from (dated.citation for dated in rule.values)


def list_operation(calculations: Sequence[AnyCalculation], book: RuleBook) -> Operation:
    """The operation of the list."""
    shelf = CalculationShelf(calculations, book)
    return Operation(
        id="list_calculations", method="GET", path="/v1/calculations", tag=CALCULATIONS, summary="The calculations",
        description="Everything that can be calculated: where to ask, by which formulas, under which rules.",
        handle=shelf, answer=CalculationList, answer_means="The calculations.", problems=READING_PROBLEMS,
        examples=shelf.examples, cacheable=True,
    )  # fmt: skip
