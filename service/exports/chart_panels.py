"""One panel: scales, grid, bands, lines and marks, drawn on a pair of axes."""

from collections.abc import Sequence
from math import nan
from typing import Any

from service.calculations.declaration import Band, Panel, Series
from service.exports.chart_frame import Frame, Point, is_drawable
from service.exports.chart_marks import Named
from service.exports.chart_style import (
    BADGE,
    GRID,
    INK,
    NAME,
    PAPER,
    POINT_PT,
    SOFT_INK,
    TEXT_PT,
    band_style,
    line_style,
)
from service.exports.chart_words import width_pt
from service.exports.words import one_line

MOST_TICKS = 6
FEWEST_TICKS = 2
BETWEEN_TICKS_PT = 10.0
TICK_STEPS = [1, 2, 5, 10]
NOTHING = "No values"


def ticks(low_and_high: Point, most: int = MOST_TICKS) -> list[float]:
    """Round values on a scale, a handful of them."""
    from matplotlib.ticker import MaxNLocator

    low, high = low_and_high
    found = MaxNLocator(most, steps=TICK_STEPS).tick_values(low, high)
    return [float(value) for value in found if low <= value <= high]


def ticks_across(frame: Frame) -> list[float]:
    """Round values on the scale from left to right, as many as there is room for."""
    for most in range(MOST_TICKS, FEWEST_TICKS, -1):
        found = [one for one in ticks((frame.x_low, frame.x_high), most) if one.is_integer() or not frame.counts_across]
        widest_pt = max((width_pt(number(value), TEXT_PT) for value in found), default=0.0)
        if len(found) * (widest_pt + BETWEEN_TICKS_PT) <= frame.width_pt:
            return found
    return ticks((frame.x_low, frame.x_high), FEWEST_TICKS)


def number(value: float) -> str:
    """A value as it stands on a scale."""
    return f"{value:,.10g}".replace("-", "\N{MINUS SIGN}")


def draw_panel(axes: Any, panel: Panel, frame: Frame, marks: Sequence[Named]) -> None:
    """Everything on a panel, the lines above the bands and the marks above all."""
    _scales(axes, frame)
    for index, band in enumerate(panel.bands):
        _band(axes, band, index)
    for index, series in enumerate(panel.series):
        _line(axes, series, index)
    for mark in marks:
        _mark(axes, mark)


def _scales(axes: Any, frame: Frame) -> None:
    axes.set(xlim=(frame.x_low, frame.x_high), ylim=(frame.y_low, frame.y_high))
    axes.tick_params(length=0, pad=5, labelsize=TEXT_PT, labelcolor=SOFT_INK)
    axes.grid(color=GRID, linewidth=0.7)
    axes.set_axisbelow(True)
    axes.spines[["top", "right", "left"]].set_visible(False)
    axes.spines["bottom"].set_color(SOFT_INK)
    if frame.is_empty:
        axes.set(xticks=(), yticks=())
        axes.text(0.5, 0.5, NOTHING, ha="center", va="center", fontsize=TEXT_PT, color=SOFT_INK)
        return
    across, up = ticks_across(frame), ticks((frame.y_low, frame.y_high))
    axes.set_xticks(across, [number(value) for value in across])
    axes.set_yticks(up, [number(value) for value in up])


def _band(axes: Any, band: Band, index: int) -> None:
    points = [point for point in band.points if is_drawable(*point)]
    if points:
        x, low, high = zip(*points, strict=True)
        axes.fill_between(x, low, high, zorder=0.6, **band_style(index))


def _line(axes: Any, series: Series, index: int) -> None:
    """A value that cannot be drawn leaves a gap; a single point is shown as one."""
    points = [point if is_drawable(*point) else (nan, nan) for point in series.points]
    if points:
        x, y = zip(*points, strict=True)
        marker = "o" if len(points) == 1 else ""
        axes.plot(x, y, marker=marker, markersize=POINT_PT, zorder=3, solid_capstyle="round", **line_style(index))


def _mark(axes: Any, named: Named) -> None:
    """The point, a thin line to its name, and the name or its number."""
    (x, y), (near_x, near_y) = named.point, named.box.nearest(named.point)
    leader = {"arrowstyle": "-", "color": SOFT_INK, "linewidth": 0.9, "shrinkA": 1, "shrinkB": 3}
    offset = {"textcoords": "offset points", "annotation_clip": False}
    axes.annotate("", named.mark.at, (near_x - x, near_y - y), zorder=4, arrowprops=leader, **offset)
    looks = {"marker": "o", "markersize": POINT_PT, "color": INK, "markeredgecolor": PAPER}
    axes.plot(*named.mark.at, zorder=5, clip_on=False, **looks)
    name, look = (one_line(named.mark.label), NAME) if named.number is None else (str(named.number), BADGE)
    middle_x, middle_y = named.box.middle
    axes.annotate(name, named.mark.at, (middle_x - x, middle_y - y), zorder=6, **offset, **look)
