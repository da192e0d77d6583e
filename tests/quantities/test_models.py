"""The moulds: strict requests, frozen answers, days, names and fields that may be left out."""

from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from service.quantities.models import Answer, Day, IfStated, Name, Request


class Note(Request):
    """A request to try."""

    name: Name
    """A name."""
    on: IfStated[Day] = None
    """A day."""
    mass_g: float = 1
    """A number."""


class Told(Answer):
    """An answer to try."""

    mass_g: float
    """A number."""


REFUSED: list[dict[str, Any]] = [
    {"name": "rub", "on": None},
    {"name": "rub", "on": "2026-02-30"},
    {"name": "rub", "on": "20260201"},
    {"name": "rub", "on": "2026-W05-2"},
    {"name": "rub", "on": "1969-12-31"},
    {"name": "rub", "on": 20260201},
    {"name": ""},
    {"name": "a\u0000b"},
    {"name": "rub\u202eexe"},
    {"name": "ru\u200bb"},
    {"name": "x" * 81},
    {"name": "rub", "mass_g": True},
    {"name": "rub", "mass_g": "1"},
    {"name": "rub", "mass_g": float("nan")},
    {"name": "rub", "mass_g": float("inf")},
    {"name": "rub", "colour": "red"},
]


@pytest.mark.parametrize("body", REFUSED, ids=[str(body)[:50] for body in REFUSED])
def test_a_request_is_strict(body: dict[str, Any]):
    """What is not exactly as asked for is refused."""
    with pytest.raises(ValidationError):
        Note.model_validate(body)


def test_a_request_keeps_what_was_stated():
    """A day is a day, an integer is a number, a name keeps its accents."""
    note = Note.model_validate({"name": "Jambon fumé", "on": "2028-02-29", "mass_g": 3})

    assert note.on == date(2028, 2, 29)
    assert note.mass_g == 3
    assert Note.model_validate({"name": "rub"}).on is None


def test_a_field_left_out_is_not_published_as_null():
    """The published schema of an optional field is that of the field."""
    schema = Note.model_json_schema()["properties"]["on"]

    assert schema["type"] == "string"
    assert schema["format"] == "date"
    assert "anyOf" not in schema


def test_an_answer_equals_one_that_was_validated():
    """Building without validation gives the same answer, and it cannot be changed."""
    told = Told.of(mass_g=2.5)

    assert told == Told(mass_g=2.5)
    with pytest.raises(ValidationError):
        told.mass_g = 3
