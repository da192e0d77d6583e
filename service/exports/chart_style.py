"""How a chart looks: sizes, colours, lines. Letters are large on a narrow sheet, to be read on a phone and in print."""

from typing import Any

WIDTH_IN = 5.5
MARGIN_IN = 0.2
PLOT_HEIGHT_IN = 2.7
DOTS_PER_IN = 200
PT_PER_IN = 72.0

TITLE_PT = 16.0
HEADING_PT = 13.0
TEXT_PT = 12.0
LINE_RATIO = 1.32
"""From one line of text to the next, in sizes of the letters."""

INK = "#1b1f24"
SOFT_INK = "#4a5158"
GRID = "#d9dde1"
PAPER = "#ffffff"

LINES: tuple[tuple[str, Any], ...] = (
    ("#12355b", "solid"),
    ("#b3541e", (0, (5.5, 2))),
    ("#2a8c82", (0, (1.2, 1.6))),
    ("#7b3f78", (0, (7, 2, 1.3, 2))),
    ("#6d747b", (0, (3, 1.6, 1, 1.6, 1, 1.6))),
    ("#8a6d1a", (0, (8.5, 1.6))),
)
"""Colour and dashes of each line in turn: the colours differ in lightness too, the dashes without any colour."""
BANDS: tuple[tuple[str, str, str], ...] = (
    ("#dbe5ef", "#9fb4ca", "////"),
    ("#f2e2d6", "#cfa98d", "\\\\\\\\"),
    ("#dcebe8", "#93bdb6", "...."),
    ("#eadfea", "#b79bb5", "++++"),
)
"""Fill, strokes and hatching of each band in turn."""
LINE_WIDTH_PT = 2.4
THIN_LINE_WIDTH_PT = 1.4
POINT_PT = 7.0

_LETTERS: dict[str, Any] = {"ha": "center", "va": "center", "fontweight": "bold", "color": INK}
NAME: dict[str, Any] = {
    **_LETTERS, "fontsize": TEXT_PT,
    "bbox": {"boxstyle": "square,pad=0.08", "facecolor": PAPER, "edgecolor": "none", "alpha": 0.85},
}  # fmt: skip
"""The name of a mark beside its point: a little paper around the letters keeps hatching out of them."""
BADGE: dict[str, Any] = {
    **_LETTERS, "fontsize": TEXT_PT - 1,
    "bbox": {"boxstyle": "circle,pad=0.25", "facecolor": PAPER, "edgecolor": INK, "linewidth": 1.0},
}  # fmt: skip
"""The number that stands for a name."""

SETTINGS: dict[str, Any] = {
    "text.parse_math": False,  # a dollar is a dollar
    "svg.fonttype": "none",
    "svg.hashsalt": "pellicle",
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans", "Verdana", "Helvetica Neue", "Arial", "sans-serif"],
    "axes.unicode_minus": True,
    "hatch.linewidth": 0.7,
    "path.simplify": True,
}
"""Settings of the drawing library, on top of its defaults: what a user's file says does not count."""


def line_style(index: int) -> dict[str, Any]:
    """The looks of the line with this number; after six they are thin, and the dashes go on beside other colours."""
    turn, dashes = divmod(index, len(LINES))
    colour = LINES[(index + turn) % len(LINES)][0]
    width_pt = LINE_WIDTH_PT if turn == 0 else THIN_LINE_WIDTH_PT
    return {"color": colour, "linestyle": LINES[dashes][1], "linewidth": width_pt}


def band_style(index: int) -> dict[str, Any]:
    """The looks of the band with this number."""
    fill, strokes, hatching = BANDS[index % len(BANDS)]
    return {"facecolor": fill, "edgecolor": strokes, "hatch": hatching, "linewidth": 0.0}
