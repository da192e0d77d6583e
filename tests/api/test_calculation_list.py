"""The list of what can be calculated: everything in it is read from where it is declared."""

from typing import Any

import pytest
from starlette.testclient import TestClient

from service.api.formulas import formulas_of
from service.app import create_app
from service.calculations.curing.dose import DOSE
from service.calculations.curing.ingoing import ingoing_ppm
from service.calculations.registry import CALCULATIONS
from service.rules.book import RuleBook
from service.settings import Settings
from tests.api.toys import RUB


@pytest.fixture(scope="module")
def dose(book: RuleBook) -> dict[str, Any]:
    """The dose as the real service lists it."""
    with TestClient(create_app(Settings(log="off"), book)) as caller:
        listed = caller.get("/v1/calculations").json()["items"]
    assert [one["name"] for one in listed] == [one.name for one in CALCULATIONS]
    return next(one for one in listed if one["name"] == "curing/dose")


def test_every_calculation_is_listed_with_its_paths(client: TestClient):
    """Names, paths that exist, cost, and what answered."""
    told = client.get("/v1/calculations").json()
    costs = {one["name"]: one["cost"] for one in told["items"]}

    assert costs == {"toys/rub": "light", "toys/light": "light", "toys/heavy": "heavy"}
    assert told["engine"]["rules"]
    for one in told["items"]:
        for path in (one["path"], one["lines_path"]):
            assert client.options(path).headers["allow"] == "OPTIONS, POST"


def test_formulas_are_those_of_the_docstrings(dose: dict[str, Any]):
    """Name, equation and source of a formula stand in the list as beside the code."""
    (formula,) = (one for one in dose["formulas"] if one["name"] == "ingoing_ppm")
    written = " ".join((ingoing_ppm.__doc__ or "").split())

    assert formula["equation"] == r"ppm = additive / green \times 10^6"
    assert formula["equation"] in written
    assert formula["references"][0].startswith("FSIS Directive 7620.3")
    assert all(reference in written for reference in formula["references"])


def test_every_formula_has_an_equation_and_a_source(dose: dict[str, Any]):
    """Nothing is listed half, and nothing twice."""
    names = [one["name"] for one in dose["formulas"]]

    assert len(names) == len(set(names)) >= 7
    assert all(one["means"] and one["equation"] and one["references"] for one in dose["formulas"])


def test_a_folder_without_formulas_lists_none():
    """A calculation may have none."""
    assert formulas_of(RUB) == ()


def test_rules_are_those_on_what_is_measured(dose: dict[str, Any], book: RuleBook):
    """Every finding of a dose names one of them; their citations are among the sources."""
    named = {finding["rule"] for finding in example_findings()}
    limits = [limit for id in dose["rules"] for limit in book.rule(id).values]

    assert named <= set(dose["rules"]) < book.rules.keys()
    assert {limit.citation for limit in limits} <= set(dose["sources"])
    assert {reference for one in dose["formulas"] for reference in one["references"]} <= set(dose["sources"])


def example_findings() -> list[dict[str, Any]]:
    """Every finding in the answers of the published examples."""
    from service.api.examples import examples_of

    answers = [one.answer for one in examples_of(DOSE) if one.status == 200]
    return [finding for answer in answers for finding in answer["findings"]]


def test_reasons_are_listed_with_their_meaning(dose: dict[str, Any]):
    """The codes with which a dose says that it is impossible."""
    assert {one["code"]: one["meaning"] for one in dose["reasons"]} == dict(DOSE.reasons)
    assert dose["examples"] >= 7
