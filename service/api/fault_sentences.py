"""What is said about one error: a stable code, and a sentence with the values, units or range that are allowed."""

import re
from collections.abc import Mapping
from datetime import date
from typing import Any, get_args

from pydantic_core.core_schema import ErrorType

from service.quantities.models import PRINTABLE
from service.quantities.units import SPELLINGS

FIELD_CODES = {
    "unknown_field": "There is no such field or parameter here.",
    "missing_field": "A field or parameter that is required is missing.",
    "null_not_allowed": "The field may be left out, but it may not be null.",
    "wrong_type": "The value is of another JSON type than is asked for.",
    "number_out_of_range": "The number is smaller or greater than is accepted.",
    "day_out_of_range": "The day is earlier or later than is accepted.",
    "not_a_day": "The value is not a day written 2026-12-01.",
    "not_a_time": "The value is not an RFC 3339 time with offset.",
    "value_not_allowed": "The value is not in the list of what is accepted.",
    "unit_unknown": "There is no such unit; GET /v1/units lists them.",
    "unit_incompatible": "The unit measures something else than is asked for.",
    "text_invalid": "The text has characters, or a form, that are not accepted.",
    "text_too_short": "The text is too short.",
    "text_too_long": "The text is too long.",
    "too_few_items": "The list is too short.",
    "too_many_items": "The list is too long.",
    "value_invalid": "The value does not fit for another reason, which is given.",
}

_TYPES = {
    "model_type": "an object", "model_attributes_type": "an object", "dict_type": "an object",
    "list_type": "a list", "tuple_type": "a list", "set_type": "a list", "frozen_set_type": "a list",
    "string_type": "a text", "bool_type": "true or false", "none_required": "null",
    "float_type": "a JSON number", "int_type": "a whole JSON number", "int_from_float": "a whole JSON number",
    "decimal_type": "a decimal number",
}  # fmt: skip
_LENGTHS = {
    "string_too_short": ("text_too_short", "min_length", "At least {} characters."),
    "string_too_long": ("text_too_long", "max_length", "At most {} characters."),
    "too_short": ("too_few_items", "min_length", "At least {} entries."),
    "too_long": ("too_many_items", "max_length", "At most {} entries."),
}
_BOUNDS = {"greater_than": "gt", "greater_than_equal": "ge", "less_than": "lt", "less_than_equal": "le"}
_WORDS = {"gt": "more than", "ge": "at least", "lt": "less than", "le": "at most"}
_OF_PYDANTIC = frozenset(get_args(ErrorType))
_PERCENT = re.compile(r"(^|_)(percent|pct)$")
_COMMA = re.compile(r"[0-9]+,[0-9]+")

Said = tuple[str, str]


def sentence(error: Mapping[str, Any], name: str, schema: Mapping[str, Any]) -> Said:
    """Code and sentence for one pydantic error about the field of this name."""
    kind: str = error["type"]
    if kind in _FIXED:
        return _FIXED[kind]
    if kind in _LENGTHS:
        code, key, words = _LENGTHS[kind]
        return code, words.format(error["ctx"][key])
    if kind in _BOUNDS or kind == "finite_number":
        return _out_of_range(error, name, schema)
    if kind in _TYPES:
        return _wrong_type(error, schema)
    if kind in ("literal_error", "enum", "union_tag_invalid"):
        return _not_listed(error, name, schema)
    if kind == "union_tag_not_found":
        return "missing_field", f"This is required: it says which form is meant.{_forms(schema)}"
    if kind == "string_pattern_mismatch":
        return "text_invalid", _pattern(error["ctx"]["pattern"])
    return _other(error, schema)


_FIXED: dict[str, Said] = {
    "missing": ("missing_field", "This is required."),
    "extra_forbidden": ("unknown_field", "There is no such field or parameter here."),
    "date_type": ("not_a_day", "A day that there is, written like 2026-12-01."),
    "date_parsing": ("not_a_day", "A day that there is, written like 2026-12-01."),
    "date_from_datetime_parsing": ("not_a_day", "A day that there is, written like 2026-12-01."),
    "datetime_type": ("not_a_time", "A time is written like 2026-12-01T08:30:00+01:00."),
    "datetime_parsing": ("not_a_time", "A time is written like 2026-12-01T08:30:00+01:00."),
    "timezone_aware": ("not_a_time", "The time needs its offset: 2026-12-01T08:30:00+01:00."),
}


def _out_of_range(error: Mapping[str, Any], name: str, schema: Mapping[str, Any]) -> Said:
    key = _BOUNDS.get(error["type"], "")
    bound = error.get("ctx", {}).get(key)
    if isinstance(bound, date):
        return "day_out_of_range", f"Must be {_WORDS[key]} {bound.isoformat()}."
    said = _range(schema) or (f"Must be {_WORDS[key]} {bound:g}." if key else "Must be a number of ordinary size.")
    if key in ("ge", "gt") and _PERCENT.search(name) and 0 < error["input"] < 1:
        said += " A percentage is wanted, not a fraction: 6.25 for 6.25 %, not 0.0625."
    return "number_out_of_range", said


def _range(schema: Mapping[str, Any]) -> str:
    low, high = schema.get("minimum"), schema.get("maximum")
    return "" if low is None or high is None else f"Must be from {low:.12g} to {high:.12g}."


def _wrong_type(error: Mapping[str, Any], schema: Mapping[str, Any]) -> Said:
    given, wanted = error["input"], _TYPES[error["type"]]
    number_wanted = "number" in wanted
    if number_wanted and isinstance(given, (int, float)) and not isinstance(given, bool) and abs(given) >= 2**63:
        return "number_out_of_range", _range(schema) or "Must be a number of ordinary size."
    said = f"Must be {wanted}."
    if number_wanted and isinstance(given, str):
        said += " Write 1.5, with a point." if _COMMA.fullmatch(given.strip()[:40]) else " Leave out the quotes."
    return "wrong_type", said


def _not_listed(error: Mapping[str, Any], name: str, schema: Mapping[str, Any]) -> Said:
    expected = error["ctx"].get("expected_tags") or error["ctx"]["expected"]
    listed = schema.get("enum") or [one.strip("'") for one in re.split(r", | or ", expected)]
    said = f"Must be one of: {', '.join(str(one) for one in listed)}."
    if name != "unit":
        return "value_not_allowed", said
    return _wrong_unit(error["input"], [str(one) for one in listed], said)


def _forms(schema: Mapping[str, Any]) -> str:
    forms = schema.get("discriminator", {}).get("mapping", {})
    return f" One of: {', '.join(forms)}." if forms else ""


def _wrong_unit(given: Any, listed: list[str], said: str) -> Said:
    if not isinstance(given, str):
        return "wrong_type", f"Must be a text. {said}"
    if given in SPELLINGS:
        return "unit_incompatible", f"{given} is a unit of {SPELLINGS[given].dimension}. {said}"
    meant = next((unit for unit in listed if unit.lower() == given[:10].lower()), None)
    return "unit_unknown", f"Write {meant}. {said}" if meant else said


def _pattern(pattern: str) -> str:
    if pattern == PRINTABLE:
        return "Must be 1 to 80 printable characters: no control, bidirectional or zero-width characters."
    return f"Must match {pattern}"


def _other(error: Mapping[str, Any], schema: Mapping[str, Any]) -> Said:
    """Errors that our own validators raise carry their code as type; of others only the fact is told."""
    if error["type"] not in _OF_PYDANTIC:
        return error["type"], f"{error['msg']}."
    if schema.get("format") == "date":
        return _FIXED["date_type"]
    if error["type"] in ("value_error", "assertion_error"):
        return "value_invalid", str(error["ctx"]["error"])
    return "value_invalid", "This value is not accepted here."
