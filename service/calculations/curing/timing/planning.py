"""A request for a cure time, checked and followed: everything that its answer is told from."""

from math import inf
from typing import NamedTuple

from service.calculations.curing.pieces import Piece
from service.calculations.curing.timing.setting import Contents, Courses, TimedStage, courses_of
from service.calculations.curing.timing.stages import EarlierStage, Injection, Stage, require_cold_c, require_liquid
from service.calculations.refusals import Impossible
from service.quantities.quantity import Duration

LONGEST_D = 400.0
"""Beyond this no stage is followed and no days are told (own bound)."""
CLOSEST_MM, WIDEST_MM = 15.0, 100.0


class Plan(NamedTuple):
    """Piece, contents, stages, and the way of the salt."""

    piece: Piece
    contents: Contents
    stages: tuple[TimedStage, ...]
    injection: Injection | None
    courses: Courses

    @property
    def last(self) -> Stage:
        return self.stages[-1].stage


def plan_of(piece: Piece, contents: Contents, injection: Injection | None, stages: tuple[TimedStage, ...], *,
            profile: bool) -> Plan:  # fmt: skip
    """Follow the salt. Raises Impossible for a stage outside of the cold, or a grid of needles that is none."""
    for one in stages:
        require_cold_c(one.stage.temperature.c)
        require_liquid(one.stage)
    if injection:
        _require_grid(injection)
    needles_mm = injection.needle_spacing.mm if injection else None
    return Plan(
        piece, contents, stages, injection, courses_of(piece, contents, stages, needles_mm=needles_mm, profile=profile)
    )


def stages_of(earlier: list[EarlierStage], last: Stage) -> tuple[TimedStage, ...]:
    """All stages with their days. Raises Impossible for one that is longer than anything is cured."""
    return (*(TimedStage(one.stage, days_d(one.lasts)) for one in earlier), TimedStage(last, inf))


def days_d(lasts: Duration) -> float:
    r"""Days of a stage or of a look.

    .. math:: days = duration / 24\,h

    Parameters
    ----------
    lasts : Duration
        As stated

    Returns
    -------
    days : float
        Days of 24 hours [d]

    Raises
    ------
    Impossible
        Beyond 400 days.

    Notes
    -----
    The bound is this project's own.

    Examples
    --------
    >>> days_d(Duration(value=36, unit="h"))
    1.5

    References
    ----------
    A day is 24 hours (SI brochure, table 8; from memory).
    """
    if not lasts.d <= LONGEST_D:
        raise Impossible(
            code="stage_too_long",
            reason=f"{lasts.d:,.6g} days are longer than anything is cured.",
            nearest=f"State up to {LONGEST_D:g} days.",
        )
    return lasts.d


def _require_grid(injection: Injection) -> None:
    spacing_mm = injection.needle_spacing.mm
    if not CLOSEST_MM <= spacing_mm <= WIDEST_MM:
        raise Impossible(
            code="needles_out_of_range",
            reason=f"Stitches {spacing_mm:.4g} mm apart are no grid.",
            nearest=f"State from {CLOSEST_MM:g} to {WIDEST_MM:g} mm; 20 to 30 mm is usual.",
        )
