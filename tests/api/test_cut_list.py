"""The table of cuts over HTTP."""

import pytest
from starlette.testclient import TestClient

from service.rules.book import RuleBook
from tests.api.problem_checks import codes_of, problem_of


def listed(client: TestClient, query: str = "") -> list[dict]:
    """The cuts of a choice."""
    items: list[dict] = client.get(f"/v1/cuts{query}").json()["items"]
    return items


def entry(client: TestClient, id: str) -> dict:
    """One cut of the list."""
    return next(one for one in listed(client) if one["id"] == id)


def test_every_cut_is_listed_with_its_sources(client: TestClient, book: RuleBook):
    """All there are, each figure with source and evidence."""
    told = client.get("/v1/cuts").json()
    kinds = ("weights", "sizes", "parts", "yields", "compositions")

    assert [one["id"] for one in told["items"]] == list(book.cuts)
    assert told["engine"]["rules"] == book.engine.rules
    figures = [figure for one in told["items"] for kind in kinds for figure in one[kind]]
    assert all(figure["source"] and figure["evidence"] for figure in figures)
    assert len(figures) == sum(len(one.readings) for one in book.cuts.values())


def test_weights_are_told_in_pounds_and_kilograms(client: TestClient):
    """Item 405 is sorted 4 to 6, 6 to 8 and 8 to 12 lb (teaching page); 4 lb are 1.814 kg (exact: 1.81436948)."""
    picnic = entry(client, "pork-picnic")

    assert [(one["published"]["low"], one["published"]["high"]) for one in picnic["weights"]] == [
        (4, 6),
        (6, 8),
        (8, 12),
    ]
    assert picnic["weights"][0]["published"]["unit"] == "lb"
    assert picnic["weights"][0]["metric"] == {"low": 1.814, "high": 2.722, "unit": "kg"}
    assert (picnic["item_number"], picnic["item_evidence"]) == ("405", "reported")


def test_a_range_that_is_open_has_no_top(client: TestClient):
    """12 lb and up, in both units; inches are told in millimetres."""
    piece = entry(client, "beef-brisket-deckle-off")

    assert {"low": 5.443, "high": None, "unit": "kg"} in [one["metric"] for one in piece["weights"]]
    assert piece["sizes"][0]["metric"] == {"low": 25.4, "high": 127.0, "unit": "mm"}


def test_sodium_is_told_with_and_without_the_rest(client: TestClient):
    """SR26: corned beef raw 1,217 mg, with water and fat; bacon raw 662 mg alone."""
    corned, bacon = (entry(client, id)["compositions"][0] for id in ("corned-beef-brisket", "bacon"))

    assert (corned["sodium_percent"], corned["water_percent"]) == (1.217, 66.56)
    assert (bacon["sodium_percent"], bacon["water_percent"]) == (0.662, None)


@pytest.mark.parametrize(
    ("query", "ids"),
    [
        ("?item_number=233A", ["lamb-leg"]),
        ("?item_number=406&animal=pork&kind=cut", ["pork-butt"]),
        ("?item_number=406&animal=beef", []),
        ("?item_number=0000", []),
        ("?animal=goat", []),
        ("?animal=turkey&kind=product", ["turkey-bacon"]),
    ],
)
def test_cuts_are_chosen_by_animal_kind_and_number(client: TestClient, query: str, ids: list[str]):
    """Every choice narrows; what nothing has is an empty list, and no fault."""
    assert [one["id"] for one in listed(client, query)] == ids


@pytest.mark.parametrize("animal", ["beef", "pork", "lamb", "turkey"])
def test_every_choice_is_a_part_of_the_whole(client: TestClient, animal: str):
    """By animal: those and no others."""
    assert listed(client, f"?animal={animal}") == [one for one in listed(client) if one["animal"] == animal]


@pytest.mark.parametrize(
    ("query", "parameter", "code"),
    [
        ("animal=horse", "animal", "value_not_allowed"),
        ("animal=PORK", "animal", "value_not_allowed"),
        ("kind=", "kind", "value_not_allowed"),
        ("id=pork-butt", "id", "unknown_field"),
        ("item_number=406a", "item_number", "text_invalid"),
        ("item_number=406%0A", "item_number", "text_invalid"),
        ("item_number=%D9%A4%D9%A0%D9%A6", "item_number", "text_invalid"),
        ("item_number=4", "item_number", "text_invalid"),
        ("item_number=", "item_number", "text_invalid"),
        ("item_number=../../etc", "item_number", "text_too_long"),
    ],
)
def test_a_choice_outside_the_contract_is_pointed_at(client: TestClient, query: str, parameter: str, code: str):
    """Unknown parameters and values are a 422 that names them."""
    problem = problem_of(client.get(f"/v1/cuts?{query}"))

    assert problem["status"] == 422
    assert problem["errors"][0]["parameter"] == parameter
    assert code in codes_of(problem)


def test_numbers_that_nothing_has_fill_no_memory(client: TestClient):
    """They share one page, whose tag is the same."""
    tags = {client.get(f"/v1/cuts?item_number={number}").headers["etag"] for number in range(9000, 9050)}

    assert len(tags) == 1
