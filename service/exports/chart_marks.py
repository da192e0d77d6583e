"""Where the names of marks go: beside their points, over no line and no other name; else a number, told in the key."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from service.calculations.declaration import Mark, Panel
from service.exports.chart_frame import Frame, Point, is_drawable
from service.exports.chart_style import TEXT_PT
from service.exports.chart_words import width_pt
from service.exports.words import one_line

CLEAR_PT = 4.0
DISTANCES_PT = (10.0, 20.0, 34.0, 50.0, 70.0, 95.0)
SIDES: tuple[Point, ...] = (
    (1, 1), (-1, 1), (1, -1), (-1, -1), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 0.5), (-1, 0.5), (1, -0.5), (-1, -0.5),
)  # fmt: skip
WIDEST_FRACTION = 0.6
BADGE_PT = 17.0
DIGIT_PT = 6.0
"""How much wider a badge is for each digit after the first."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the sheet, in points."""

    left_pt: float
    bottom_pt: float
    width_pt: float
    height_pt: float

    @property
    def middle(self) -> Point:
        return self.left_pt + self.width_pt / 2, self.bottom_pt + self.height_pt / 2

    def nearest(self, point: Point) -> Point:
        """The place on it, or in it, that is closest to a point."""
        right_pt, top_pt = self.left_pt + self.width_pt, self.bottom_pt + self.height_pt
        return min(max(point[0], self.left_pt), right_pt), min(max(point[1], self.bottom_pt), top_pt)

    def holds(self, point: Point) -> bool:
        """Whether the point lies in it, or close by."""
        return (
            -CLEAR_PT <= point[0] - self.left_pt <= self.width_pt + CLEAR_PT
            and -CLEAR_PT <= point[1] - self.bottom_pt <= self.height_pt + CLEAR_PT
        )

    def meets(self, other: "Box") -> bool:
        """Whether the two overlap, or nearly so."""
        (x, y), (other_x, other_y) = self.middle, other.middle
        return (
            abs(x - other_x) < (self.width_pt + other.width_pt) / 2 + CLEAR_PT
            and abs(y - other_y) < (self.height_pt + other.height_pt) / 2 + CLEAR_PT
        )


@dataclass(frozen=True, slots=True)
class Named:
    """A mark with its place and the place of its name."""

    mark: Mark
    point: Point
    box: Box
    number: int | None
    """Stands for the name where there was no room for it."""


def named_marks(panel: Panel, frame: Frame) -> list[Named]:
    """Every mark that can be drawn, with a place for its name or its number."""
    marks = [mark for mark in panel.marks if is_drawable(*mark.at)]
    points = [frame.place(mark.at) for mark in marks]
    obstacles = [*points, *{(round(x), round(y)) for x, y in _lines(panel, frame)}]
    done: list[Named] = []
    numbers = 0
    for mark, point in zip(marks, points, strict=True):
        taken = [one.box for one in done]
        size = width_pt(one_line(mark.label), TEXT_PT, is_bold=True), TEXT_PT
        is_short = size[0] <= frame.width_pt * WIDEST_FRACTION
        box, faults = _best(point, size, frame, obstacles, taken)
        if faults or not is_short:
            numbers += 1
            across_pt = BADGE_PT + DIGIT_PT * (len(str(numbers)) - 1)
            box, _ = _best(point, (across_pt, across_pt), frame, obstacles, taken)
        done.append(Named(mark, point, box, number=numbers if faults or not is_short else None))
    return done


def _lines(panel: Panel, frame: Frame) -> Iterator[Point]:
    for series in panel.series:
        yield from frame.along(series.points)
    for band in panel.bands:
        yield from frame.along((x, low) for x, low, _ in band.points)
        yield from frame.along((x, high) for x, _, high in band.points)


def _best(point: Point, size: Point, frame: Frame, obstacles: Sequence[Point], taken: Sequence[Box]) -> tuple[Box, int]:
    """The first place without a fault, or else the first with the fewest; and how many it has."""
    least: tuple[Box, int] | None = None
    for distance, side in product(DISTANCES_PT, SIDES):
        box = _beside(point, size, side, distance)
        faults = _faults(box, frame, obstacles, taken)
        if least is None or faults < least[1]:
            least = box, faults
        if not faults:
            break
    assert least is not None  # there are sides
    return least


def _beside(point: Point, size: Point, side: Point, distance_pt: float) -> Box:
    (x, y), (width, height), (right, up) = point, size, side
    slant = 0.7 if right and up else 1.0
    middle_x = x + right * (distance_pt * slant + width / 2)
    middle_y = y + up * (distance_pt * slant + height / 2)
    return Box(middle_x - width / 2, middle_y - height / 2, width, height)


def _faults(box: Box, frame: Frame, obstacles: Sequence[Point], taken: Sequence[Box]) -> int:
    right, top = box.left_pt + box.width_pt, box.bottom_pt + box.height_pt
    is_inside = box.left_pt >= 0 and box.bottom_pt >= 0 and right <= frame.width_pt and top <= frame.height_pt
    covered = sum(box.holds(point) for point in obstacles)
    return covered + 100 * (not is_inside) + 100 * sum(box.meets(other) for other in taken)
