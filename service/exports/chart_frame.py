"""What part of the plane a panel shows, and where its points lie on the sheet."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, inf, isfinite

from service.calculations.declaration import Panel

Point = tuple[float, float]

LARGEST_RATIO = 1e100
"""A value beyond this is no value to draw: scales cannot reckon with it."""
ROOM_FRACTION = 0.07
ZERO_FRACTION = 0.5
"""A scale of what cannot be negative begins at zero where the lowest value is not above this part of the highest."""
STRIDE_PT = 3.0


@dataclass(frozen=True, slots=True)
class Frame:
    """The limits of both scales, and the size of the panel."""

    x_low: float
    x_high: float
    y_low: float
    y_high: float
    width_pt: float
    height_pt: float
    is_empty: bool
    """There is nothing to show."""
    counts_across: bool = False
    """Only whole numbers are marked from left to right."""

    def place(self, point: Point) -> Point:
        """Where a point lies, in points from the lower left corner."""
        x, y = point
        across = (x - self.x_low) / (self.x_high - self.x_low)
        return across * self.width_pt, (y - self.y_low) / (self.y_high - self.y_low) * self.height_pt

    def along(self, points: Iterable[Point]) -> Iterator[Point]:
        """Places along a line, close to each other."""
        places = [self.place(point) for point in points if is_drawable(*point)]
        yield from places[:1]
        for (x, y), (next_x, next_y) in pairwise(places):
            steps = int(hypot(next_x - x, next_y - y) / STRIDE_PT) + 1
            for step in range(1, steps + 1):
                yield x + (next_x - x) * step / steps, y + (next_y - y) * step / steps


def is_drawable(*values: float) -> bool:
    """Whether these are numbers that can be drawn."""
    return all(isfinite(value) and abs(value) < LARGEST_RATIO for value in values)


def frame_of(panel: Panel, *, width_pt: float, height_pt: float) -> Frame:
    """The part of the plane with all that is drawn on a panel."""
    points = list(_points(panel))
    x_low, x_high = _limits((x for x, _ in points), lambda limits: limits)
    heights = [y for _, y in points]
    y_low, y_high = _limits([*heights, 0.0] if panel.from_zero and heights else heights, _with_room)
    return Frame(x_low, x_high, y_low, y_high, width_pt, height_pt, not points, panel.counts_across)


def _points(panel: Panel) -> Iterator[Point]:
    for series in panel.series:
        yield from (point for point in series.points if is_drawable(*point))
    for band in panel.bands:
        for x, low, high in band.points:
            if is_drawable(x, low, high):
                yield from ((x, low), (x, high))
    yield from (mark.at for mark in panel.marks if is_drawable(*mark.at))


def _limits(values: Iterable[float], widened: Callable[[Point], Point]) -> Point:
    known = list(values)
    low, high = min(known, default=inf), max(known, default=-inf)
    if low > high:
        return 0.0, 1.0
    if low == high:
        room = abs(low) / 2 or 1.0
        return low - room, high + room
    return widened((low, high))


def _with_room(limits: Point) -> Point:
    low, high = limits
    room = (high - low) * ROOM_FRACTION
    begins_at_zero = 0 <= low <= high * ZERO_FRACTION
    return (0.0 if begins_at_zero else low - room), high + room
