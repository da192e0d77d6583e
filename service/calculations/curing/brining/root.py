"""Where a curve crosses zero: one search for every inverse."""

from collections.abc import Callable

STEPS = 100
NEAR_ENOUGH = 1e-14
"""Relative change after which another step would change nothing that a double can show."""

Number = float
"""What is sought: its unit is that of the curve's argument."""


def plain(value: Number, digits: int) -> Number:
    """Rounded, and never minus nothing."""
    return round(value, digits) + 0.0


def crossing(curve: Callable[[float], float], bracket: tuple[Number, Number]) -> Number | None:
    """Where the curve crosses zero inside the bracket, or None where both ends lie on one side.

    False position after the Illinois rule: an end that stays is pulled by half its value, so that both close in.
    """
    stays, moves = bracket
    at_stays, at_moves = curve(stays), curve(moves)
    if (at_stays > 0) == (at_moves > 0):
        return None
    for _ in range(STEPS):
        found = moves - at_moves * (moves - stays) / (at_moves - at_stays)
        at_found = curve(found)
        if (at_found > 0) == (at_moves > 0):
            at_stays /= 2
        else:
            stays, at_stays = moves, at_moves
        done = at_found == 0 or abs(found - moves) <= NEAR_ENOUGH * (1 + abs(found))
        moves, at_moves = found, at_found
        if done:
            break
    return moves
