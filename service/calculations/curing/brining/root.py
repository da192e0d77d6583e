"""Where a curve crosses zero: one search for every inverse."""

from collections.abc import Callable

HALVINGS = 60
"""After so many halvings a bracket of this kitchen is narrower than a double can show."""

Number = float
"""What is sought: its unit is that of the curve's argument."""


def crossing(curve: Callable[[float], float], bracket: tuple[Number, Number]) -> Number | None:
    """Where the curve crosses zero inside the bracket, or None where both ends lie on one side."""
    low, high = bracket
    rises = curve(high) > 0
    if (curve(low) > 0) == rises:
        return None
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if (curve(middle) > 0) == rises else (middle, high)
    return (low + high) / 2
