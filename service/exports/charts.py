"""A drawing as a picture, SVG or PNG. The sheet is laid out in chart_sheet.py, its looks are in chart_style.py.

The letters of an SVG stay letters: they can be searched, copied, read aloud and translated, and the file is small.
Where the font is missing another takes its place; those named are no wider, so that nothing runs into its neighbour.
"""

import logging
import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from service.calculations.declaration import Drawing
from service.exports.chart_description import description
from service.exports.chart_style import DOTS_PER_IN, SETTINGS
from service.exports.words import one_line

ROOT = b"<svg "
DOCTYPE = re.compile(rb"<!DOCTYPE[^>]*>\s*")
"""It only names an address that nobody should have to ask."""
ATTRIBUTES = b'<svg role="img" style="max-width:100%;height:auto" '
END_OF_TITLE = b"</title>"


def png(drawing: Drawing) -> bytes:
    """A drawing as PNG, 1100 dots wide."""
    return _saved(drawing, format="png", dpi=DOTS_PER_IN, metadata={"Software": None})


def svg(drawing: Drawing) -> bytes:
    """A drawing as SVG, with its title and what can be seen on it in words."""
    title = one_line(drawing.title)
    plain = _saved(drawing, format="svg", metadata={"Date": None, "Creator": "Pellicle", "Title": title})
    words = f"{END_OF_TITLE.decode()}\n <desc>{escape(description(drawing))}</desc>".encode()
    return DOCTYPE.sub(b"", plain, count=1).replace(ROOT, ATTRIBUTES, 1).replace(END_OF_TITLE, words, 1)


def _saved(drawing: Drawing, **how: Any) -> bytes:
    from service.exports.chart_sheet import sheet

    held = BytesIO()
    with _own_settings():
        sheet(drawing).savefig(held, **how)
    return held.getvalue()


@contextmanager
def _own_settings() -> Iterator[None]:
    """The same looks on every machine; the letters of a script that the font lacks are no fault."""
    import matplotlib as mpl

    settings: Any = mpl.rcParams

    logging.getLogger("matplotlib").setLevel(logging.ERROR)
    with mpl.rc_context(), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        mpl.rcdefaults()
        settings.update(SETTINGS)
        yield
