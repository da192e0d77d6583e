"""The fuzzer asks in every way that the document offers, and knows which published bodies are to be answered."""

from typing import Any

from tests.contract.questions import acceptable, asked_of, published_bodies


def operation(request: dict[str, Any], answer: dict[str, Any], error: dict[str, Any]) -> dict[str, Any]:
    """An operation with these examples, that has a drawing on offer as well."""
    return {
        "requestBody": {"content": {"application/json": {"examples": request}}},
        "responses": {
            "200": {"content": {"application/json": {"examples": answer}, "image/svg+xml": {}}},
            "422": {"content": {"application/problem+json": {"examples": error}}},
        },
    }


def test_every_form_of_the_answer_is_asked_for():
    """Each media type of a success is asked for by name, by its family and among others; an error's is not."""
    asked = acceptable(operation({}, {}, {}))

    assert {"application/json", "image/svg+xml", "image/*;q=0.7", "*/*"} <= set(asked)
    assert not any("problem" in accept for accept in asked)


def test_a_body_whose_example_is_refused_is_not_among_the_lawful():
    """Only bodies whose example has an answer with success are to be answered."""
    loin, brine = {"value": {"meat": 1}}, {"value": {"meat": 0}}

    lawful = published_bodies(operation({"loin": loin, "brine": brine}, {"loin": {}}, {"brine": {}}))

    assert lawful == [{"meat": 1}]


def test_every_example_of_a_picture_is_lawful():
    """An operation without answers in JSON publishes only examples that are answered."""
    chart = operation({"loin": {"value": {"meat": 1}}}, {}, {})
    chart["responses"]["200"]["content"] = {"image/svg+xml": {}, "image/png": {}}

    assert published_bodies(chart) == [{"meat": 1}]


def test_a_chart_is_asked_as_its_calculation_is():
    """Whoever knows lawful bodies of the one knows those of the others."""
    assert {asked_of(f"curing_dose{form}") for form in ("", "_chart", "_calendar")} == {"curing_dose"}
