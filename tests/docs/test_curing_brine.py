"""The page on brine tells what the service answers."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.calculations.curing.brine import BrineAnswer, BrineRequest, brine
from service.calculations.curing.brining.refusing import REASONS
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/curing-brine.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


def answered(book: RuleBook, body: dict[str, Any]) -> BrineAnswer:
    """The answer to a body."""
    return brine(BrineRequest.model_validate(body), book)


def weighed(answer: BrineAnswer) -> dict[str, str]:
    """What to weigh, as the page writes it."""
    return {one.what: f"{one.amount.value:g} {one.amount.unit}" for one in answer.weigh}


def test_the_numbers_in_the_text_are_those_of_the_answers(book: RuleBook):
    """Each figure below a command is the one that the command is answered with."""
    made, covering, reading, adjusted, iced, cooled = (answered(book, body) for body in BODIES)

    assert "8.644 lb of salt and 64.13 lb of water: 11.878 percent" in PAGE
    assert (weighed(made), made.brine.salt_percent) == ({"salt": "8.644 lb", "water": "64.13 lb"}, 11.878)
    assert made.readiness == "ready"
    assert covering.vessel is not None
    assert covering.vessel.level is not None
    assert (
        f"{covering.vessel.brine_to_cover.value:g} l of brine cover them, standing {covering.vessel.level.value:g} cm"
        in PAGE
    )
    assert (covering.vessel.floats, round(covering.brine.density_kg_per_l, 1)) == (True, 1.1)
    assert f"The brine is {reading.brine.salometer_deg:g} degrees" in PAGE
    assert f"Add {weighed(adjusted)['salt']} of salt" in PAGE
    assert f"{weighed(iced)['ice']} of ice and {weighed(iced)['water']} of water" in PAGE
    assert cooled.cooling is not None
    assert f"{cooled.cooling.temperature.value:g} degC, so `readiness` is `{cooled.readiness}`" in PAGE


def scale_line(book: RuleBook, deg: int) -> str:
    """A line of the table of scales, for a brine at 60 degF."""
    how_much = {"kind": "finished_brine", "amount": {"value": 1, "unit": "gal"}}
    task = {
        "kind": "make", "strength": {"kind": "salometer", "deg": deg}, "how_much": how_much,
        "temperature": {"value": 60, "unit": "degF"},
    }  # fmt: skip
    told = answered(book, {"task": task, "units": "us"}).brine
    freezes = f"{told.freezing_point.value} {told.freezing_point.unit}" if told.freezing_point else "-"
    cells = (
        deg, told.salt_percent, told.salt_g_per_l, told.specific_gravity_ratio, told.baume_deg,
        told.salt_per_us_gallon_of_water_lb, freezes,
    )  # fmt: skip
    return "| " + " | ".join(str(cell) for cell in cells) + " |"


def test_the_table_of_scales_is_that_of_the_service(book: RuleBook):
    """Every tenth degree has its line, and no other."""
    printed = [line for line in PAGE.splitlines() if re.match(r"\| [0-9]+ \|", line)]

    assert printed == [scale_line(book, deg) for deg in range(10, 101, 10)]


def test_every_refusal_is_described():
    """Each code with which a brine is declined stands on the page."""
    assert [code for code in REASONS if f"`{code}`" not in PAGE] == []


def test_what_is_said_of_other_instruments_is_so(book: RuleBook):
    """Stems of 60 and 38 degF are 1.6 degrees apart at 40, and a scale of 25 percent is a twentieth off."""

    def read(**graded: str) -> float:
        hydrometer = {"kind": "salometer", "deg": 40, **graded}
        task = {"kind": "read", "hydrometer": hydrometer, "temperature": {"value": 38, "unit": "degF"}}
        return answered(book, {"task": task}).brine.salometer_deg

    assert read(graded_at="38_degF") - read() == pytest.approx(1.6, abs=0.1)
    assert read(graded_at="38_degF", full_scale="25_percent") / read(graded_at="38_degF") == pytest.approx(
        0.95, abs=0.01
    )
