"""The moulds: strict requests, frozen answers, days, names and fields that may be left out."""

from copy import copy, deepcopy
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from service.quantities.models import Answer, Day, IfStated, Name, Request, holding, made, written


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

    assert told == made(Told, mass_g=2.5) == holding(Told, {"mass_g": 2.5}) == Told(mass_g=2.5)
    with pytest.raises(ValidationError):
        told.mass_g = 3


class Sheet(Answer):
    """An answer with everything in it that answers hold."""

    on: date
    """A day."""
    text: str | None
    """Words."""
    count: int
    """How many."""
    kept: bool
    """Yes or no."""
    weighed: tuple[Told, ...]
    """Answers within."""


@given(
    st.dates(),
    st.none() | st.text(st.characters(exclude_categories=["Cs"])),
    st.integers(-(2**63), 2**63 - 1),
    st.booleans(),
    st.lists(st.floats()),
)
def test_an_answer_is_written_as_pydantic_writes_it(on: date, text: str, count: int, kept: bool, masses_g: list[float]):
    """Byte for byte: every day, text, whole number and float, in the order of the fields."""
    weighed = tuple(Told.of(mass_g=mass_g) for mass_g in masses_g)
    sheet = Sheet.of(on=on, text=text, count=count, kept=kept, weighed=weighed)

    assert written(sheet) == sheet.model_dump_json().encode()


def test_what_pydantic_asks_of_an_answer_is_there():
    """It can be copied, represented and dumped without its defaults like one that was validated."""
    told = Told.of(mass_g=2.5)

    assert copy(told) == deepcopy(told) == told
    assert told.model_copy(update={"mass_g": 3.0}).mass_g == 3
    assert told.model_dump(exclude_unset=True) == {"mass_g": 2.5}
    assert repr(told) == "Told(mass_g=2.5)"


def test_a_name_that_an_answer_does_not_have_is_an_error():
    """Nothing is made up but what pydantic keeps for itself."""
    with pytest.raises(AttributeError):
        _ = Told.of(mass_g=2.5).colour  # type: ignore[attr-defined]
