"""Weights, shares and names in the sentences of a cutting test."""

from service.quantities.bands import DIGITS
from service.quantities.quantity import Units
from service.quantities.units import MassUnit, factor

MOST_DIGITS = 12


def said(mass_g: float, units: Units, *, digits: int = DIGITS) -> str:
    """A weight in a sentence."""
    if units == "metric":
        return f"{_plain(mass_g, digits)} g"
    unit: MassUnit = "lb" if abs(mass_g) >= factor("lb") else "oz"
    return f"{_plain(mass_g / factor(unit), digits)} {unit}"


def _plain(value: int | float, digits: int) -> str:
    return f"{float(f'{value:.{digits}g}'):,.10f}".rstrip("0").rstrip(".")


def said_apart(one_g: float, *, other_g: float, units: Units) -> tuple[str, str]:
    """Two weights that differ, with as many digits as it takes to see that."""
    pairs = ((said(one_g, units, digits=n), said(other_g, units, digits=n)) for n in range(DIGITS, MOST_DIGITS))
    return next((pair for pair in pairs if pair[0] != pair[1]), (said(one_g, units), said(other_g, units)))


def said_percent(percent: float, *, digits: int = DIGITS) -> str:
    """A share in a sentence."""
    return f"{_plain(percent, digits)} percent"


def digits_beside(percent: float, *, allowed_percent: float, is_over: bool) -> int:
    """How many digits it takes to see on which side of what is allowed a share lies."""
    enough = (n for n in range(DIGITS, MOST_DIGITS) if (float(f"{percent:.{n}g}") > allowed_percent) is is_over)
    return next(enough, MOST_DIGITS)


def listed(names: tuple[str, ...]) -> str:
    """Names in a sentence."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
