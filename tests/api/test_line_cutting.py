"""Cutting bytes into lines: the same lines however the bytes arrive, and never more than one of them kept."""

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as some

from service.api.line_cutting import LineCutter

LONGEST_BYTES = 8


def cut(blocks: Iterable[bytes], longest_bytes: int = LONGEST_BYTES) -> list[bytes | None]:
    """Every line of these blocks."""
    cutter = LineCutter(longest_bytes)
    return [*(line for block in blocks for line in cutter.cut(block)), *cutter.last()]


def split(text: bytes) -> list[bytes | None]:
    """The lines of a text as Python sees them, the long ones passed over."""
    lines = text.split(b"\n")
    whole = lines if lines[-1] else lines[:-1]
    return [line if len(line) <= LONGEST_BYTES else None for line in whole]


@given(some.lists(some.text(alphabet="ab\n\r \u00e9", max_size=12).map(str.encode), max_size=12))
def test_blocks_make_no_difference(blocks: list[bytes]):
    """Lines are those of the whole text, wherever it was torn."""
    assert cut(blocks) == split(b"".join(blocks))


@given(some.text(alphabet="a\n\u20ac", max_size=40).map(str.encode))
def test_single_bytes_make_no_difference(text: bytes):
    """Even torn into single bytes, inside characters too, a text has the same lines."""
    assert cut(bytes([byte]) for byte in text) == split(text)


@pytest.mark.parametrize("block_bytes", [1, 7, 1000])
def test_a_long_line_is_passed_over_and_not_kept(block_bytes: int):
    """However long a line is, no more than the limit is remembered of it, and the next line is whole."""
    cutter = LineCutter(LONGEST_BYTES)

    for _ in range(1000):
        assert list(cutter.cut(b"a" * block_bytes)) == []
        assert len(cutter._begun) <= LONGEST_BYTES

    assert list(cutter.cut(b"\nb\n")) == [None, b"b"]


def test_a_line_as_long_as_may_be_is_whole():
    """The limit itself is kept; one byte more is not."""
    assert cut([b"a" * 8 + b"\n" + b"a" * 9 + b"\n"]) == [b"a" * 8, None]
    assert cut([b"aaaa", b"aaaa\n", b"aaaaa", b"aaaa"]) == [b"a" * 8, None]


def test_a_long_block_is_not_cut_all_at_once():
    """Lines come one by one, so that a block of a million does not become a list."""
    lines = LineCutter(LONGEST_BYTES).cut(b"a\n" * 1_000_000)

    assert next(lines) == b"a"
    assert next(lines) == b"a"
