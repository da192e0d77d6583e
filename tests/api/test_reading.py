"""The reader of JSON by itself."""

import json
from functools import partial
from timeit import repeat
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.json_text import read_json
from service.api.problems import Problem

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=12) | st.sampled_from(['a":b', "::", "\\ud", "[[{"])
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**63), 2**64 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | TEXT,
    lambda inside: st.lists(inside, max_size=5) | st.dictionaries(TEXT, inside, max_size=5),
    max_leaves=40,
)


@given(VALUES, st.booleans(), st.sampled_from([None, 1]))
@settings(max_examples=100, deadline=None)
def test_what_is_read_is_what_was_written(value: Any, ascii_only: bool, indent: int | None):
    """The two readers behind the front door agree with the standard library's."""
    body = json.dumps(value, ensure_ascii=ascii_only, indent=indent).encode()

    assert read_json(body) == json.loads(body)


@given(st.integers(2**64, 2**200) | st.integers(-(2**200), -(2**63) - 1))
@settings(max_examples=50, deadline=None)
def test_a_number_too_long_for_the_machine_keeps_its_size(value: int):
    """Digits beyond 64 bits are read as the nearest float at worst."""
    assert float(read_json(str(value).encode())) == float(value)


@given(st.lists(st.sampled_from(["a", "b:", "c", "d"]), min_size=2, max_size=4), st.sampled_from(['"x:"', "1", "[]"]))
@settings(max_examples=100, deadline=None)
def test_a_key_never_stands_twice(keys: list[str], value: str):
    """Every object with a key twice is found, and no other, whatever else has a colon."""
    body = ("{" + ", ".join(f'"{key}" : {value}' for key in keys) + "}").encode()

    if len(set(keys)) == len(keys):
        assert list(read_json(body)) == keys
    else:
        with pytest.raises(Problem) as caught:
            read_json(body)
        assert caught.value.code == "json_duplicate_key"


def test_nesting_is_read_to_its_limit():
    """32 levels are read, 33 are not; RFC 8259, section 9, lets a reader set such a limit."""
    deepest = b"[" * 32 + b"]" * 32

    assert read_json(deepest) is not None
    with pytest.raises(Problem):
        read_json(b"[" + deepest + b"]")


def test_a_long_list_is_not_a_deep_one():
    """Thousands of brackets side by side are no nesting."""
    assert len(read_json(b"[" + b"{},[]," * 5000 + b"1]")) == 10_001


def test_reading_strictly_costs_little_more_than_reading():
    """The way of an ordinary body is bounded by a few passes of compiled code, not by its characters."""
    body = json.dumps({f"key{number}": {"value": number, "unit": "kg"} for number in range(16)}).encode()

    strict_s, plain_s = (min(repeat(partial(read, body), number=500, repeat=5)) for read in (read_json, json.loads))

    assert strict_s < 3 * plain_s
