"""A number's name says its unit, and two numbers are never told apart by their order."""

import ast
from collections.abc import Iterator

import pytest

from tests.architecture.house import Source, is_float, listed, parameters, sources
from tests.architecture.unit_names import unit_of_name


def nameless_units(source: Source) -> list[str]:
    """The floats whose names do not end in a unit; a value whose unit is the field beside it is no such float."""
    return [source.at(node, name) for node, name in _floats(source.tree) if unit_of_name(name) is None]


def _floats(tree: ast.Module) -> Iterator[tuple[ast.stmt | ast.arg, str]]:
    beside = {id(field) for node in ast.walk(tree) if isinstance(node, ast.ClassDef) for field in _beside_a_unit(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.arg) and is_float(node.annotation):
            yield node, node.arg
        elif isinstance(node, ast.AnnAssign) and is_float(node.annotation) and id(node) not in beside:
            yield node, ast.unparse(node.target).rpartition(".")[2]
        elif isinstance(node, ast.FunctionDef) and is_float(node.returns) and not node.name.startswith("_"):
            yield node, node.name


def _beside_a_unit(node: ast.ClassDef) -> list[ast.AnnAssign]:
    fields = [field for field in node.body if isinstance(field, ast.AnnAssign)]
    return fields if any(ast.unparse(field.target) == "unit" for field in fields) else []


def told_by_order(source: Source) -> list[str]:
    """The functions that take a second float by position."""
    return [
        source.at(function, f"{function.name} takes {[argument.arg for argument in by_position]} by position")
        for function in source.functions
        if len(by_position := _floats_by_position(function)) > 1
    ]


def _floats_by_position(function: ast.FunctionDef | ast.AsyncFunctionDef) -> list[ast.arg]:
    by_keyword = function.args.kwonlyargs
    return [
        argument for argument in parameters(function) if argument not in by_keyword and is_float(argument.annotation)
    ]


def test_every_number_of_the_trade_says_its_unit():
    """In the calculations each float, asked, told or worked out, is named for its unit."""
    faults = [fault for source in sources("service/calculations") for fault in nameless_units(source)]

    assert not faults, listed(faults)


def test_two_numbers_are_told_apart_by_name():
    """No function takes more than one float by position."""
    faults = [fault for source in sources("service") for fault in told_by_order(source)]

    assert not faults, listed(faults)


@pytest.mark.parametrize(
    "planted",
    [
        "def salt_g(meat: float) -> float: ...",
        "def salt(meat_g: float) -> float: ...",
        "class Brine:\n    salt: float | SkipJsonSchema[None] = None",
        "def cure(*, limit: float | None) -> None: ...",
        "SALT: float = 2.5",
        "def speed_m_per(x_g: int) -> float: ...",
        "SALT_PER_KG: float = 25",
        "MONOHYDRATE_PER_ANHYDROUS: float = 1.09",
    ],
)
def test_a_number_without_a_unit_is_found(planted: str):
    """A parameter, a result, a field and a constant without a unit are named."""
    assert len(nameless_units(Source("service/calculations/brine.py", planted))) == 1


@pytest.mark.parametrize(
    "lawful",
    [
        "def salt_g(meat_kg: float, *, share_fraction: float) -> float: ...",
        "class Target:\n    ppm: float\n    pump_percent: float | None",
        "class Mass:\n    value: float\n    unit: MassUnit",
        "CONDUCTIVITY_W_PER_M_K: float = 0.45",
        "MONOHYDRATE_PER_ANHYDROUS_RATIO: float = 1.09",
    ],
)
def test_a_number_with_a_unit_is_no_fault(lawful: str):
    """A unit may end the name, be the name, be a quotient or stand beside the value."""
    assert nameless_units(Source("service/calculations/brine.py", lawful)) == []


def test_a_second_number_by_position_is_found():
    """Two floats by position are named, also where one may be None; two by keyword are not."""
    planted = Source("a.py", "def mix(cut: Cut, a_g: float, b_g: float | None): ...")

    assert told_by_order(planted) == ["a.py:1: mix takes ['a_g', 'b_g'] by position"]
    assert told_by_order(Source("a.py", "def mix(self, a_g: float, *, b_g: float): ...")) == []
