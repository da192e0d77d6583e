"""The page on chains of yields tells what the service answers."""

import json
import re
from pathlib import Path
from typing import get_args

import pytest

from service.calculations.butchery.chain import CHAIN, ChainAnswer, ChainRequest, chain
from service.calculations.butchery.chaining.asking import BoughtAs, CookStage, Left, OtherStage, OwnTest, Standard
from service.calculations.butchery.chaining.telling import StageTold
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/yield-chain.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


@pytest.fixture(scope="module")
def told(book: RuleBook) -> list[ChainAnswer]:
    """The answers to the commands of the page: the fair, the plan, the weighing."""
    return [chain(ChainRequest.model_validate(body), book) for body in BODIES]


def test_the_fair_buys_what_the_page_says(told: list[ChainAnswer]):
    """Weights, pieces of the second range, the trim and its source, and what a point is worth."""
    fair = told[0]
    option = fair.pieces[1]

    bought = fair.purchased
    assert f"{bought.typical} g, from {bought.low} (if every stage leaves most) to {bought.high} (if" in PAGE
    low, typical, high = (one.pieces for one in option.buy)
    assert f"6 and 8 lb ({option.low.value} to {option.high.value} g) {typical}, from {low} to {high}" in PAGE
    trim = fair.defaults[0]
    assert f"{trim.low:g} percent by a national database" in PAGE
    assert f"{trim.high} by a cutting test" in PAGE
    assert {one.evidence for one in trim.readings} == {"read", "reported"}
    saved = fair.stages[0].a_point_saves
    assert saved is not None
    assert f"saves {saved.value} g of shoulder" in PAGE


def test_the_plan_is_a_forecast(told: list[ChainAnswer]):
    """Portions, and both ceilings with their ranges."""
    plan = told[1]
    finished, gain = plan.forecasts

    assert plan.portions is not None
    assert f"{plan.portions.typical} portions, from {plan.portions.low} to {plan.portions.high}. `forecasts`" in PAGE
    assert f"{finished.low} to {finished.high} percent of green against 100, is `{finished.outlook}`" in PAGE
    assert f"{gain.low:g} to {gain.high:g} percent against 10 ({gain.citation[:13]}), is `{gain.outlook}`" in PAGE
    assert [one.verdict for one in plan.findings] == ["cannot_tell"]


def test_the_weighing_is_judged(told: list[ChainAnswer]):
    """The gain is a finding, and the chain goes on from it."""
    weighed = told[2]
    gain, planned = weighed.findings[0], weighed.stages[0].planned

    assert gain.figure is not None
    assert f"{gain.figure:.6g} percent against {gain.limit:g}, `{gain.verdict}`" in PAGE
    assert planned is not None
    assert f"says {planned.low:g} to {planned.high:g} g" in PAGE
    assert weighed.portions is not None
    assert f"{weighed.portions.typical} portions, from {weighed.portions.low} to {weighed.portions.high}. `plan" in PAGE
    assert [one.code for one in weighed.call_outs] == ["weighed_outside_plan"]


def test_the_ham_is_judged_with_its_bone(told: list[ChainAnswer]):
    """As the page says, and open without the word that says what was taken."""
    body = BODIES[3] | {"stages": [{**one} for one in BODIES[3]["stages"]]}
    for one in body["stages"]:
        one.pop("takes", None)

    (loss,) = told[3].findings
    (untold,) = chain(ChainRequest.model_validate(body), load_book("pages")).findings

    assert f"{loss.figure:.6g} percent, `{loss.verdict}`" in PAGE
    assert f"the {100 - (told[3].stages[-1].of_purchased.typical or 0):.0f} percent of the last weight" in PAGE
    assert untold.verdict == "cannot_tell"


def test_what_is_usual_is_what_the_data_holds(book: RuleBook):
    """The three rows, as the page writes them."""
    trim, smoke, slices = (book.usual_yields[f"usual-{stage}"] for stage in ("trim", "smoke", "slice"))

    assert f"trimming {trim.low_percent:g} to {trim.high_percent:g} percent, usually {trim.typical_percent:g}" in PAGE
    assert (
        f"smoking {smoke.low_percent:g} to {smoke.high_percent:g} percent of the trimmed piece ({smoke.pieces}" in PAGE
    )
    assert f"slicing {slices.low_percent:g} to {slices.high_percent:g}, usually {slices.typical_percent:g}" in PAGE


def test_every_field_and_code_is_on_the_page():
    """Each field of the request, of a stage and of the answer, each code of a refusal, a call-out and an advice."""
    models = (ChainRequest, ChainAnswer, CookStage, OtherStage, Left, OtherStage, OwnTest, Standard, StageTold)
    fields = {name for model in models for name in model.model_fields} - {"engine", "number", "stage", "name"}

    words = sorted({*fields, *CHAIN.reasons, *CHAIN.codes, *get_args(BoughtAs)})
    assert [word for word in words if f"`{word}`" not in PAGE] == []
