"""The formulas behind a calculation, read from the docstrings where they are written."""

from collections.abc import Callable, Iterator
from inspect import getdoc, isclass, unwrap
from types import CodeType, FunctionType
from typing import Any

from service.calculations.declaration import AnyCalculation
from service.quantities.models import Answer

EQUATION = ".. math::"
TRADE = "service.calculations."
REFERENCES = "References\n----------\n"


class Formula(Answer):
    """A published formula."""

    name: str
    """What it works out; the last part is the unit."""
    means: str
    """In words."""
    equation: str
    """The equation, in the notation of TeX."""
    references: tuple[str, ...]
    """Where it is written."""


def formulas_of(calculation: AnyCalculation) -> tuple[Formula, ...]:
    """Every published formula that a calculation leads to, by name."""
    reached: dict[int, FunctionType] = {}
    _reach(calculation.run, reached)
    published = (
        one for one in reached.values() if not one.__name__.startswith("_") and EQUATION in (getdoc(one) or "")
    )
    return tuple(sorted((_formula(one) for one in published), key=lambda formula: formula.name))


def _reach(thing: Any, reached: dict[int, FunctionType]) -> None:
    """Every function of ours that this one names, and that those name in turn."""
    for function in _functions_of(thing):
        if id(function) not in reached and function.__module__.startswith(TRADE):
            reached[id(function)] = function
            for name in _names_in(function.__code__):
                _reach(function.__globals__.get(name), reached)


def _functions_of(thing: Any) -> Iterator[FunctionType]:
    """A function itself, without what remembers its answers; of a class of ours, its methods and properties."""
    if isclass(thing) and thing.__module__.startswith(TRADE):
        for member in list(vars(thing).values()):
            yield from _functions_of(getattr(member, "fget", None) or getattr(member, "func", None) or member)
    plain = unwrap(thing) if callable(thing) and not isclass(thing) else thing
    if isinstance(plain, FunctionType):
        yield plain


def _names_in(code: CodeType) -> Iterator[str]:
    """The names that a function and what is written inside it use."""
    yield from code.co_names
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _names_in(constant)


def _formula(function: Callable[..., Any]) -> Formula:
    told = getdoc(function) or ""
    means, _, rest = told.partition("\n\n")
    equation = rest.partition(EQUATION)[2].partition("\n\n")[0]
    references = told.partition(REFERENCES)[2].split("\n\n")
    return Formula.of(
        name=function.__name__,
        means=_joined(means),
        equation=_joined(equation),
        references=tuple(_joined(one) for one in references if one.strip()),
    )


def _joined(text: str) -> str:
    return " ".join(text.split())
