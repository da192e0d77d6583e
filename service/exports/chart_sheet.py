"""A sheet from top to bottom: blocks of text, panels, and what explains them, each as high as it needs."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from service.calculations.declaration import Drawing, Panel
from service.exports.chart_frame import Frame, frame_of
from service.exports.chart_keys import Key, keys_of, put_sample
from service.exports.chart_marks import Named, named_marks
from service.exports.chart_panels import draw_panel, number, ticks
from service.exports.chart_style import (
    HEADING_PT,
    INK,
    LINE_RATIO,
    MARGIN_IN,
    PAPER,
    PLOT_HEIGHT_IN,
    PT_PER_IN,
    SOFT_INK,
    TEXT_PT,
    TITLE_PT,
    WIDTH_IN,
)
from service.exports.chart_words import broken, width_pt
from service.exports.words import one_line

SAMPLE_IN = 0.55
GAP_IN = 0.1
PANEL_GAP_IN = 0.3
TICK_ROOM_IN = 0.28
RIGHT_ROOM_IN = 0.1
MOST_HEADING_LINES = 6
MOST_KEY_LINES = 4
MOST_NOTE_LINES = 40


@dataclass(frozen=True, slots=True)
class Block:
    """Something on the sheet: how high it is, and what draws it once its top is known (in inches from below)."""

    height_in: float
    put: Callable[[Any, float], None]


def sheet(drawing: Drawing) -> Any:
    """The figure of a drawing."""
    from matplotlib.figure import Figure

    blocks = list(_blocks(drawing))
    height_in = sum(block.height_in for block in blocks) + 2 * MARGIN_IN
    figure = Figure(figsize=(WIDTH_IN, height_in), facecolor=PAPER)
    top_in = height_in - MARGIN_IN
    for block in blocks:
        block.put(figure, top_in)
        top_in -= block.height_in
    return figure


def _blocks(drawing: Drawing) -> Iterator[Block]:
    yield _text(drawing.title, TITLE_PT, is_bold=True)
    frames = [_frame(panel, left_in=_left_in(drawing.panels)) for panel in drawing.panels]
    for panel, frame in zip(drawing.panels, frames, strict=True):
        marks = named_marks(panel, frame)
        yield _space(PANEL_GAP_IN / 2)
        if panel.title and panel.title != drawing.title:
            yield _text(panel.title, HEADING_PT, is_bold=True)
        yield _text(panel.y_label, TEXT_PT, color=SOFT_INK)
        yield _plot(panel, frame, marks)
        yield _text(panel.x_label, TEXT_PT, color=SOFT_INK, align="right")
        yield _space(GAP_IN)
        yield from _key_rows(list(keys_of(panel, marks)))
        yield _space(PANEL_GAP_IN / 2)
    yield _text(drawing.note, TEXT_PT, color=SOFT_INK, most_lines=MOST_NOTE_LINES)


def _space(height_in: float) -> Block:
    return Block(height_in, lambda _figure, _top_in: None)


def _left_in(panels: Sequence[Panel]) -> float:
    """Room for the longest number beside any of the panels, so that they stand below each other."""
    frames = [frame_of(panel, width_pt=1, height_pt=1) for panel in panels]
    numbers = [number(value) for frame in frames if not frame.is_empty for value in ticks((frame.y_low, frame.y_high))]
    widest_pt = max((width_pt(one, TEXT_PT) for one in numbers), default=0.0)
    return MARGIN_IN + widest_pt / PT_PER_IN + GAP_IN


def _frame(panel: Panel, *, left_in: float) -> Frame:
    width_in = WIDTH_IN - left_in - MARGIN_IN - RIGHT_ROOM_IN
    return frame_of(panel, width_pt=width_in * PT_PER_IN, height_pt=PLOT_HEIGHT_IN * PT_PER_IN)


def _text(
    text: str, size_pt: float, *, is_bold: bool = False, color: str = INK, align: str = "left",
    most_lines: int = MOST_HEADING_LINES, indent_in: float = 0.0,
) -> Block:  # fmt: skip
    room_pt = (WIDTH_IN - 2 * MARGIN_IN - indent_in) * PT_PER_IN
    lines = broken(text, size_pt, room_pt=room_pt, most_lines=most_lines, is_bold=is_bold)
    step_in = size_pt * LINE_RATIO / PT_PER_IN
    x_in = MARGIN_IN + indent_in if align == "left" else WIDTH_IN - MARGIN_IN - RIGHT_ROOM_IN

    def put(figure: Any, top_in: float) -> None:
        for index, line in enumerate(lines):
            y_in = top_in - index * step_in - size_pt / PT_PER_IN
            weight = "bold" if is_bold else "normal"
            _write(figure, line, x_in=x_in, y_in=y_in, ha=align, fontsize=size_pt, fontweight=weight, color=color)

    return Block(len(lines) * step_in, put)


def _write(figure: Any, line: str, *, x_in: float, y_in: float, **looks: Any) -> None:
    figure.text(x_in / WIDTH_IN, y_in / figure.get_figheight(), line, va="baseline", **looks)


def _plot(panel: Panel, frame: Frame, marks: Sequence[Named]) -> Block:
    def put(figure: Any, top_in: float) -> None:
        width_in, height_in = frame.width_pt / PT_PER_IN, frame.height_pt / PT_PER_IN
        high_in = figure.get_figheight()
        left_in = WIDTH_IN - MARGIN_IN - RIGHT_ROOM_IN - width_in
        bottom_in = top_in - GAP_IN - height_in
        place = (left_in / WIDTH_IN, bottom_in / high_in, width_in / WIDTH_IN, height_in / high_in)
        draw_panel(figure.add_axes(place), panel, frame, marks)

    return Block(GAP_IN + frame.height_pt / PT_PER_IN + TICK_ROOM_IN, put)


def _key_rows(keys: Sequence[Key]) -> Iterator[Block]:
    """The key, in two columns where every name is short."""
    half_in = WIDTH_IN / 2 - MARGIN_IN
    is_short = all(width_pt(one_line(key.label), TEXT_PT) <= (half_in - SAMPLE_IN) * PT_PER_IN for key in keys)
    columns = 2 if is_short else 1
    for row in range(0, len(keys), columns):
        yield _beside([_key(key, left_in=place * half_in) for place, key in enumerate(keys[row : row + columns])])


def _beside(blocks: Sequence[Block]) -> Block:
    def put(figure: Any, top_in: float) -> None:
        for block in blocks:
            block.put(figure, top_in)

    return Block(max(block.height_in for block in blocks), put)


def _key(key: Key, *, left_in: float) -> Block:
    """A sample and its name."""
    name = _text(key.label, TEXT_PT, most_lines=MOST_KEY_LINES, indent_in=left_in + SAMPLE_IN)

    def put(figure: Any, top_in: float) -> None:
        name.put(figure, top_in)
        put_sample(figure, key, left_in=MARGIN_IN + left_in, middle_in=top_in - TEXT_PT * 0.66 / PT_PER_IN)

    return Block(name.height_in + GAP_IN / 2, put)
