"""Reference data that callers may keep: the ingredients, with what their measures weigh."""

import json
from collections.abc import Mapping
from functools import cache, partial

from starlette.requests import Request as HttpRequest
from starlette.responses import Response

from service.api.faults import asked_in_query
from service.api.pages import READING_PROBLEMS, REFERENCE, Page, answer_page, page_of
from service.api.reading import read_query
from service.api.routes import Example, Operation
from service.calculations.measures.table import IngredientList, list_ingredients
from service.quantities.models import IfStated, Request
from service.rules.book import RuleBook
from service.rules.ingredient import IngredientKind


class IngredientQuestion(Request):
    """Which ingredients."""

    kind: IfStated[IngredientKind] = None
    """What they are in a recipe; without it, every ingredient."""


class IngredientShelf:
    """The ingredients as pages, one for each kind and one of all, made when they are first asked for."""

    def __init__(self, book: RuleBook) -> None:
        self._page = cache(lambda kind: page_of(list_ingredients(book, kind)))

    def listed(self, query: Mapping[str, str]) -> Page:
        """The page of a list of ingredients."""
        asked = asked_in_query(IngredientQuestion, query)
        return self._page(asked.kind)

    def examples(self) -> tuple[Example, ...]:
        """One example of a list."""
        parameters = {"kind": "curing_salt"}
        answer = json.loads(self.listed(parameters).body)
        return (Example("curing_salt", "Why curing salt is weighed", parameters=parameters, answer=answer),)


async def _answer_ingredients(shelf: IngredientShelf, request: HttpRequest) -> Response:
    return answer_page(request, shelf.listed(read_query(request)))


def ingredient_operation(book: RuleBook) -> Operation:
    """Everything here, as an operation."""
    shelf = IngredientShelf(book)
    return Operation(
        id="list_ingredients", method="GET", path="/v1/ingredients", tag=REFERENCE, summary="The ingredients",
        description="What a teaspoon, a tablespoon, a cup or a piece of each ingredient weighs, from the lightest to "
        "the heaviest figure that was published, with every figure and its source.",
        handle=partial(_answer_ingredients, shelf), query=IngredientQuestion, answer=IngredientList,
        answer_means="The ingredients.", problems=READING_PROBLEMS, examples=shelf.examples, cacheable=True,
    )  # fmt: skip
