"""Words on a chart: how wide they are, and where their lines break."""

import re
from bisect import bisect_left
from collections.abc import Callable, Iterator
from functools import lru_cache

from service.exports.words import ELLIPSIS, one_line, shortened

BREAK = re.compile(r"(?<!\d) | (?![A-Za-z%\u00b0]{1,4}\b)")
"""Where a line may break: not between a number and its unit."""
LONGEST = 2000
"""Characters of one text on a sheet; all of it stands in the description."""


@lru_cache(maxsize=4096)
def width_pt(text: str, size_pt: float, *, is_bold: bool = False) -> float:
    """How wide a text is, in points."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import text_to_path

    font = FontProperties(size=size_pt, weight="bold" if is_bold else "normal")
    return float(text_to_path.get_text_width_height_descent(text, font, ismath=False)[0])


def broken(text: str, size_pt: float, *, room_pt: float, most_lines: int = 99, is_bold: bool = False) -> list[str]:
    """The text in lines that fit into this room; what is over after the last line is left out, and that is shown."""

    def fits(words: str) -> bool:
        return width_pt(words, size_pt, is_bold=is_bold) <= room_pt

    lines: list[str] = []
    for word in filter(None, BREAK.split(shortened(one_line(text), LONGEST))):
        if lines and fits(f"{lines[-1]} {word}"):
            lines[-1] += f" {word}"
        else:
            lines.extend(_pieces(word, fits))
    if len(lines) > most_lines:
        last = lines[most_lines - 1]
        lines[most_lines - 1 :] = [(last if fits(last + ELLIPSIS) else last[:-2]) + ELLIPSIS]
    return lines


def _pieces(word: str, fits: Callable[[str], bool]) -> Iterator[str]:
    """A word, in pieces where it is longer than a line."""
    while not fits(word) and len(word) > 1:
        beginnings = [word[:length] for length in range(1, len(word))]
        fitting = max(bisect_left(beginnings, True, key=lambda beginning: not fits(beginning)), 1)
        yield word[:fitting]
        word = word[fitting:]
    yield word
