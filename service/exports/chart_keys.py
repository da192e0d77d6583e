"""The key below a panel: each line, band and numbered mark with its name, so that no name covers what is drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from service.calculations.declaration import Band, Panel, Series
from service.exports.chart_frame import is_drawable
from service.exports.chart_marks import Named
from service.exports.chart_style import BADGE, POINT_PT, WIDTH_IN, band_style, line_style

SAMPLE_WIDTH_IN = 0.42
SAMPLE_HEIGHT_IN = 0.15
NO_VALUES = " (no values)"


@dataclass(frozen=True, slots=True)
class Key:
    """What is explained, and its looks: those of the line or band with this number, or the number itself."""

    label: str
    kind: Literal["line", "point", "band", "mark"]
    number: int


def keys_of(panel: Panel, marks: Sequence[Named]) -> Iterator[Key]:
    """The key of a panel, from top to bottom."""
    for index, series in enumerate(panel.series):
        yield Key(_name(series), "point" if len(series.points) == 1 else "line", index)
    for index, band in enumerate(panel.bands):
        yield Key(_name(band), "band", index)
    for named in marks:
        if named.number is not None:
            yield Key(named.mark.label, "mark", named.number)


def _name(drawn: Series | Band) -> str:
    has_values = any(is_drawable(*point) for point in drawn.points)
    return drawn.label if has_values else drawn.label + NO_VALUES


def put_sample(figure: Any, key: Key, *, left_in: float, middle_in: float) -> None:
    """The sample beside a name."""
    high_in = figure.get_figheight()
    left, right, middle = left_in / WIDTH_IN, (left_in + SAMPLE_WIDTH_IN) / WIDTH_IN, middle_in / high_in
    if key.kind == "band":
        _patch(figure, key, left=left, middle=middle)
    elif key.kind == "mark":
        figure.text((left + right) / 2, middle, str(key.number), **BADGE)
    else:
        _line(figure, key, (left, right), middle=middle)


def _patch(figure: Any, key: Key, *, left: float, middle: float) -> None:
    from matplotlib.patches import Rectangle

    high = SAMPLE_HEIGHT_IN / figure.get_figheight()
    size = (SAMPLE_WIDTH_IN / WIDTH_IN, high)
    patch = Rectangle((left, middle - high / 2), *size, transform=figure.transFigure, **band_style(key.number))
    figure.add_artist(patch)


def _line(figure: Any, key: Key, ends: tuple[float, float], *, middle: float) -> None:
    from matplotlib.lines import Line2D

    across = ends if key.kind == "line" else (sum(ends) / 2,)
    marker = "" if key.kind == "line" else "o"
    looks = line_style(key.number)
    figure.add_artist(
        Line2D(across, [middle] * len(across), marker=marker, markersize=POINT_PT, solid_capstyle="butt", **looks)
    )
