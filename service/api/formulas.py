"""The formulas behind a calculation, read from the docstrings where they are written."""

from collections.abc import Callable, Iterator
from importlib import import_module
from inspect import getdoc, getmembers, isfunction
from pkgutil import iter_modules
from typing import Any

from service.calculations.declaration import AnyCalculation
from service.quantities.models import Answer

EQUATION = ".. math::"
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
    """Every public formula in the folder of a calculation, by name."""
    package = calculation.run.__module__.rpartition(".")[0]
    return tuple(sorted(_formulas_in(package), key=lambda formula: formula.name))


def _formulas_in(package: str) -> Iterator[Formula]:
    folder = import_module(package)
    for found in iter_modules(getattr(folder, "__path__", ())):
        module = import_module(f"{package}.{found.name}")
        for name, function in getmembers(module, isfunction):
            if (
                function.__module__ == module.__name__
                and not name.startswith("_")
                and EQUATION in (getdoc(function) or "")
            ):
                yield _formula(function)


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
