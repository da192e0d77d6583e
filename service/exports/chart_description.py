"""A drawing in words, for those who cannot see it."""

from collections.abc import Iterator

from service.calculations.declaration import Band, Drawing, Panel, Series
from service.exports.words import one_line


def description(drawing: Drawing) -> str:
    """What is drawn: of each panel its scales, and where its lines, bands and marks run."""
    return one_line(" ".join([*(sentence for panel in drawing.panels for sentence in _panel(panel)), drawing.note]))


def _panel(panel: Panel) -> Iterator[str]:
    yield f"{panel.title or 'Panel'}: {panel.y_label} over {panel.x_label}."
    yield from (f"Line {series.label}{_ends(series)}." for series in panel.series)
    yield from (f"Band {band.label}{_edges(band)}." for band in panel.bands)
    yield from (f"Mark {mark.label}, at {_pair(mark.at)}." for mark in panel.marks)


def _ends(series: Series) -> str:
    if not series.points:
        return ", without values"
    first, last = series.points[0], series.points[-1]
    return f", from {_pair(first)} to {_pair(last)}" if len(series.points) > 1 else f", at {_pair(first)}"


def _edges(band: Band) -> str:
    if not band.points:
        return ", without values"
    x, low, high = band.points[-1]
    return f", at its end between {low:.4g} and {high:.4g} at {x:.4g}"


def _pair(point: tuple[float, float]) -> str:
    return "{:.4g}, {:.4g}".format(*point)
