"""Small pieces: how long a function, a file and a test may be."""

import ast
from statistics import median, quantiles

from tests.architecture.house import ROOT, Function, Source, files, listed, sources

LONGEST_BODY = 40
LONGEST_FILE = 300


def body_lines(function: Function) -> int:
    """Lines from the first statement to the last, the docstring not counted."""
    has_docstring = ast.get_docstring(function, clean=False) is not None
    statements = function.body[1:] if has_docstring else function.body
    return (statements[-1].end_lineno or 0) - statements[0].lineno + 1 if statements else 0


def long_bodies(source: Source) -> list[str]:
    """The functions that are longer than any may be."""
    return [
        source.at(function, f"{function.name} has {lines} lines, {LONGEST_BODY} are allowed")
        for function in source.functions
        if (lines := body_lines(function)) > LONGEST_BODY
    ]


def spread(lengths: list[int]) -> tuple[float, float]:
    """Median and 90th percentile."""
    return median(lengths), quantiles(lengths, n=10, method="inclusive")[-1]


def test_no_function_is_longer_than_a_screen():
    """No function of the service, of the migrations or of the tests has more than 40 lines in its body."""
    faults = [fault for source in sources("service", "tests", "migrations") for fault in long_bodies(source)]

    assert not faults, listed(faults)


def test_most_functions_are_short():
    """Half of the service's functions have at most 8 lines, nine in ten at most 20."""
    lengths = [body_lines(function) for source in sources("service") for function in source.functions]

    middle, ninth_decile = spread(lengths)

    assert middle <= 8
    assert ninth_decile <= 20


def test_files_are_short():
    """Half of the service's files have at most 90 lines; no Python file has more than 300."""
    lengths = {place: (ROOT / place).read_text().count("\n") for place in files() if place.endswith(".py")}

    assert median(length for place, length in lengths.items() if place.startswith("service/")) <= 90
    assert {place: length for place, length in lengths.items() if length > LONGEST_FILE} == {}


def test_a_body_of_41_lines_is_found():
    """A function with one line too many is named, and its docstring is not counted."""
    lines = ['    """Many\n    words.\n    """', *["    x = 1"] * 40]
    just_kept = Source("kitchen.py", "\n".join(["def salt():", *lines]))

    too_long = Source("kitchen.py", just_kept.text + "\n    x = 2")

    assert long_bodies(just_kept) == []
    assert long_bodies(too_long) == ["kitchen.py:1: salt has 41 lines, 40 are allowed"]


def test_long_functions_move_the_spread():
    """A tree of long functions has a median and a 90th percentile over the bounds."""
    middle, ninth_decile = spread([2] * 10 + [30] * 11)

    assert middle > 8
    assert ninth_decile > 20
