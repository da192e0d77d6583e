"""Reading JSON strictly.

JSON here is what RFC 8259 and RFC 7493 (I-JSON) agree on: UTF-8 without a byte order mark, no NaN, no key twice,
no lone surrogate, and nesting that a person could follow.
"""

import json
from collections import Counter
from typing import Any

import orjson

from service.api.problems import Problem

DEEPEST_NESTING = 32
LONGEST_INTEGER = 4000

_UNSURE = object()


def read_json(body: bytes) -> Any:
    """The value of a JSON text. Numbers too big for the computer become infinite, so that validation refuses them."""
    value = _read_fast(body)
    return _read_strictly(body) if value is _UNSURE else value


def _read_fast(body: bytes) -> Any:
    """The value, or _UNSURE unless the text is certainly in order.

    A key that stands twice is lost on reading, and its colon is then missing when the value is written again; only
    an escape sequence could make up for it.
    """
    if b"\\" in body:
        return _UNSURE
    try:
        value = orjson.loads(body)
    except orjson.JSONDecodeError:
        return _UNSURE
    if body.count(b"{") + body.count(b"[") > DEEPEST_NESTING and _deeper_than(value, DEEPEST_NESTING):
        return _UNSURE
    return value if orjson.dumps(value).count(b":") == body.count(b":") else _UNSURE


def _read_strictly(body: bytes) -> Any:
    """The value read with the reader that can say what is wrong."""
    text = _text(body)
    try:
        value = _READER.decode(text)
    except RecursionError:
        raise _unreadable("json_too_deep", f"Nested deeper than {DEEPEST_NESTING} levels.") from None
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}" if "\n" in text else f"column {error.colno}"
        raise _unreadable("json_syntax", f"Not JSON at {where}: {error.msg}.") from None
    if _deeper_than(value, DEEPEST_NESTING):
        raise _unreadable("json_too_deep", f"Nested deeper than {DEEPEST_NESTING} levels.")
    if "\\ud" in text.lower():
        _refuse_lone_surrogates(value)
    return value


def _text(body: bytes) -> str:
    if not body.strip():
        raise _unreadable("json_empty", "The body is empty; a JSON object is expected.")
    if body.startswith(b"\xef\xbb\xbf"):
        raise _unreadable("json_byte_order_mark", "It starts with a byte order mark; leave that out.")
    try:
        return body.decode("utf-8")
    except UnicodeDecodeError as error:
        raise _unreadable("json_not_utf8", f"Byte {error.start} is not UTF-8.") from None


def _unreadable(code: str, detail: str) -> Problem:
    return Problem("unreadable-json", detail, code=code)


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) != len(pairs):
        twice = next(key for key, count in Counter(key for key, _ in pairs).items() if count > 1)
        named = f": {twice!a}" if len(twice) <= 40 else ""
        raise _unreadable("json_duplicate_key", f"A key stands twice in one object{named}.")
    return fields


def _integer(digits: str) -> float:
    return int(digits) if len(digits) <= LONGEST_INTEGER else float(digits)


def _constant(word: str) -> Any:
    raise _unreadable("json_not_a_number", f"{word} is not a JSON number.")


_BOXES = (dict, list)
_READER = json.JSONDecoder(object_pairs_hook=_object, parse_int=_integer, parse_constant=_constant)


def _deeper_than(value: Any, levels: int) -> bool:
    level = [value] if isinstance(value, _BOXES) else []
    for _ in range(levels):
        if not level:
            return False
        inside = [box.values() if isinstance(box, dict) else box for box in level]
        level = [child for children in inside for child in children if isinstance(child, _BOXES)]
    return bool(level)


def _refuse_lone_surrogates(value: Any) -> None:
    try:
        json.dumps(value, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError:
        raise _unreadable("json_lone_surrogate", "A \\u escape is half of a character (a lone surrogate).") from None
