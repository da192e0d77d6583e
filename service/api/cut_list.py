"""Reference data that callers may keep: the cuts, with what is published of each."""

import json
from collections.abc import Mapping
from functools import cache, partial
from typing import Annotated

from pydantic import Field
from starlette.requests import Request as HttpRequest
from starlette.responses import Response

from service.api.faults import asked_in_query
from service.api.pages import READING_PROBLEMS, REFERENCE, Page, answer_page, page_of
from service.api.reading import read_query
from service.api.routes import Example, Operation
from service.calculations.butchery.cutting.table import CutList, ids_of, list_cuts
from service.quantities.models import IfStated, Request
from service.rules.book import RuleBook
from service.rules.cut import CutKind
from service.rules.vocabulary import Animal

ItemNumber = Annotated[str, Field(pattern=r"^[0-9]{2,4}[A-Z]?$", max_length=5)]


class CutQuestion(Request):
    """Which cuts."""

    animal: IfStated[Animal] = None
    """The animal or bird; without it, every one."""
    kind: IfStated[CutKind] = None
    """cut, trimming or product; without it, all three."""
    item_number: IfStated[ItemNumber] = None
    """Item number of the Institutional Meat Purchase Specifications, such as 406A; without it, any and none."""


class CutShelf:
    """The cuts as pages, one for each choice that finds other cuts, made when it is first asked for."""

    def __init__(self, book: RuleBook) -> None:
        self._book = book
        self._page = cache(lambda ids: page_of(list_cuts(book, ids)))

    def listed(self, query: Mapping[str, str]) -> Page:
        """The page of a list of cuts. Numbers that nothing has share one page, so that no caller fills the memory."""
        asked = asked_in_query(CutQuestion, query)
        return self._page(ids_of(self._book, asked.animal, asked.kind, asked.item_number))

    def examples(self) -> tuple[Example, ...]:
        """One example of a list."""
        parameters = {"item_number": "233A"}
        answer = json.loads(self.listed(parameters).body)
        return (Example("leg_of_lamb", "A cut by its item number", parameters=parameters, answer=answer),)


async def _answer_cuts(shelf: CutShelf, request: HttpRequest) -> Response:
    return answer_page(request, shelf.listed(read_query(request)))


def cut_operation(book: RuleBook) -> Operation:
    """Everything here, as an operation."""
    shelf = CutShelf(book)
    return Operation(
        id="list_cuts", method="GET", path="/v1/cuts", tag=REFERENCE, summary="The cuts",
        description="What is published of each cut, trimming and cured product: its item number, what pieces weigh and "
        "measure, what it is cut into, what is left of it after cooking or smoking, and what it consists of, every "
        "figure with its source and how it is known.",
        handle=partial(_answer_cuts, shelf), query=CutQuestion, answer=CutList,
        answer_means="The cuts.", problems=READING_PROBLEMS, examples=shelf.examples, cacheable=True,
    )  # fmt: skip
