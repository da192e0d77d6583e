"""A drawing in words, for those who cannot see it."""

from collections.abc import Iterator

from service.calculations.declaration import Band, Drawing, Mark, Panel, Series
from service.exports.chart_frame import Point, is_drawable
from service.exports.words import one_line

NO_VALUES = ", without values"


def description(drawing: Drawing) -> str:
    """What is drawn: of each panel its scales, and where its lines, bands and marks run."""
    return one_line(" ".join([*(sentence for panel in drawing.panels for sentence in _panel(panel)), drawing.note]))


def _panel(panel: Panel) -> Iterator[str]:
    yield f"{panel.title or 'Panel'}: {panel.y_label} over {panel.x_label}."
    yield from (f"Line {series.label}{_ends(series)}." for series in panel.series)
    yield from (f"Band {band.label}{_edges(band)}." for band in panel.bands)
    yield from (f"Mark {mark.label}{_place(mark)}." for mark in panel.marks)


def _ends(series: Series) -> str:
    points = [point for point in series.points if is_drawable(*point)]
    if not points:
        return NO_VALUES
    return f", from {_pair(points[0])} to {_pair(points[-1])}" if len(points) > 1 else f", at {_pair(points[0])}"


def _edges(band: Band) -> str:
    points = [point for point in band.points if is_drawable(*point)]
    if not points:
        return NO_VALUES
    x, low, high = points[-1]
    return f", at its end between {low:.4g} and {high:.4g} at {x:.4g}"


def _place(mark: Mark) -> str:
    return f", at {_pair(mark.at)}" if is_drawable(*mark.at) else NO_VALUES


def _pair(point: Point) -> str:
    return "{:.4g}, {:.4g}".format(*point)
