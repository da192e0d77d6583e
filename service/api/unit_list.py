"""Reference data that callers may keep: the units."""

import asyncio
import json
from functools import cache

from starlette.requests import Request
from starlette.responses import Response

from service.api.faults import require_no_parameters
from service.api.pages import READING_PROBLEMS, REFERENCE, Page, answer_page, page_of
from service.api.routes import Example, Operation
from service.quantities.models import Answer
from service.quantities.units import BASE_UNITS, Dimension, units


class UnitDescription(Answer):
    """A unit that quantities may be written in: base = value * factor + offset."""

    symbol: str
    """As it is written in the unit of a quantity."""
    name: str
    """In words."""
    dimension: Dimension
    """What it measures."""
    base_unit: str
    """The unit that factor and offset lead to."""
    factor: str
    """Exact decimal number of base units in one of this unit."""
    offset: str
    """Exact decimal number of base units at zero of this unit."""
    ucum: str
    """Its code in the Unified Code for Units of Measure."""
    rec20: str
    """Its code in UN/CEFACT Recommendation 20."""


class UnitList(Answer):
    """Every unit there is here."""

    items: tuple[UnitDescription, ...]
    """The units, by dimension."""


@cache
def unit_page() -> Page:
    """The list of units, made on first use because pint takes its time to start."""
    items = (
        UnitDescription.of(
            symbol=unit.symbol, name=unit.spelling.name, dimension=unit.spelling.dimension,
            base_unit=BASE_UNITS[unit.spelling.dimension], factor=f"{unit.factor:f}", offset=f"{unit.offset:f}",
            ucum=unit.spelling.ucum, rec20=unit.spelling.rec20,
        )
        for unit in units().values()
    )  # fmt: skip
    return page_of(UnitList.of(items=tuple(items)))


def _unit_examples() -> tuple[Example, ...]:
    return (Example("units", "Every unit", answer=json.loads(unit_page().body)),)


async def _answer_units(request: Request) -> Response:
    require_no_parameters(request)
    return answer_page(request, await asyncio.to_thread(unit_page))


UNITS = Operation(
    id="list_units", method="GET", path="/v1/units", tag=REFERENCE, summary="The units",
    description="Every unit that a quantity may be written in, with its exact factor.",
    handle=_answer_units, answer=UnitList, answer_means="The units.", problems=READING_PROBLEMS,
    examples=_unit_examples, cacheable=True,
)  # fmt: skip
