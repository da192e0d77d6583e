"""Charts: what is on them, what cannot break them, and that they are the same each time."""

import re
from io import BytesIO
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from PIL import Image

from service.calculations.declaration import Drawing, Mark, Series
from service.exports.charts import png, svg
from tests.exports.drawings import HAUNCH, NAMES, ODD, one_panel

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = (
    "$x^2$ costs $5",
    "salt < 3 % & sugar > 1 %",
    "</text><script>alert(1)</script>",
    r"\frac{a}{b} \$",
    "]]>-->",
)


def parsed(drawing: Drawing) -> ET.Element:
    """The SVG of a drawing, read by an XML parser."""
    return ET.fromstring(svg(drawing))  # noqa: S314 - our own


def texts(picture: ET.Element) -> list[str]:
    """Each line of text that is shown."""
    return [element.text or "" for element in picture.iter(f"{SVG}text")]


def opened(drawing: Drawing) -> Image.Image:
    """The PNG of a drawing, read by Pillow."""
    image = Image.open(BytesIO(png(drawing)))
    image.load()
    return image


def dark_share(image: Image.Image) -> float:
    """How much of a picture is not paper."""
    histogram = image.convert("L").histogram()
    return sum(histogram[:250]) / sum(histogram)


def test_every_text_is_on_the_svg():
    """Titles, axes with their units, lines, bands, marks and the note, as text that can be searched."""
    shown = " ".join(texts(parsed(HAUNCH)))

    assert [name for name in NAMES if name not in shown] == []


def test_an_svg_says_what_it_shows_to_those_who_cannot_see_it():
    """Role, title and a description with every text and the ends of the lines (SVG 2, 5.8: title and desc)."""
    picture = parsed(HAUNCH)
    told = picture.findtext(f"{SVG}desc") or ""

    assert picture.get("role") == "img"
    assert picture.findtext(f"{SVG}title") == HAUNCH.title
    assert [name for name in NAMES[1:] if name not in told] == []
    assert "from 0, 0 to 12, 142.5" in told


def test_an_svg_asks_for_nothing_from_elsewhere():
    """No script, no picture, no style sheet, no document type: it opens wherever it is kept."""
    written = svg(HAUNCH).decode()

    assert not re.search(r"<script|<image|<foreignObject|@import|<!DOCTYPE|url\((?!#)", written)
    assert re.findall(r'(?:href)="(?!#)', written) == []


def test_a_png_is_as_wide_as_a_phone_shows_sharply():
    """5.5 in at 200 dots each, higher than wide with two panels, and something is drawn on it."""
    image = opened(HAUNCH)

    assert image.width == 1100
    assert image.height > image.width
    assert image.info["dpi"] == pytest.approx((200, 200), abs=0.1)
    assert 0.02 < dark_share(image) < 0.4


def test_letters_are_large_for_the_width():
    """At 390 css px, the width of many phones, no letter is under 10 px (common practice, no source)."""
    picture = parsed(HAUNCH)
    width = float(picture.attrib["viewBox"].split()[2])
    sizes = [float(size) for size in re.findall(r"font-size: ([0-9.]+)px", svg(HAUNCH).decode())]

    assert len(sizes) > len(NAMES)
    assert min(sizes) / width * 390 >= 10


@pytest.mark.parametrize("draw", [svg, png])
def test_the_same_drawing_gives_the_same_bytes(draw: Any):
    """No date, no counter and nothing of what was drawn before is in a picture."""
    first = draw(HAUNCH)
    draw(ODD["many"])

    assert draw(HAUNCH) == first


@pytest.mark.parametrize("text", HOSTILE)
def test_a_text_is_a_text(text: str):
    """What is mathematics or mark-up elsewhere is shown as it stands, wherever it stands."""
    drawing = one_panel(Series(text, ((0.0, 1.0), (1.0, 2.0))), title=text, marks=(Mark(text, (0.5, 1.5)),))
    picture = parsed(drawing)

    assert " ".join(texts(picture)).count(text) == 3
    assert picture.findtext(f"{SVG}title") == text
    assert list(picture.iter(f"{SVG}script")) == []
    assert opened(drawing).width == 1100


@pytest.mark.parametrize("name", ODD)
def test_an_odd_drawing_is_drawn(name: str):
    """Nothing to show, a single point, gaps, levels, far and close values, many of all, and strange letters."""
    picture = parsed(ODD[name])
    image = opened(ODD[name])

    assert not re.search(r"\b(nan|inf)\b", svg(ODD[name]).decode().lower())
    assert image.width == 1100
    assert image.height < 20_000
    assert float(picture.attrib["viewBox"].split()[3]) / 72 * 200 == pytest.approx(image.height, abs=1.5)


def test_what_is_without_values_says_so():
    """A panel, a line and a band with nothing to show are named, not passed over."""
    assert "No values" in texts(parsed(ODD["empty panel"]))
    assert "Shank (no values)" in texts(parsed(ODD["empty series"]))
    assert "Between (no values)" in texts(parsed(ODD["empty band"]))


def test_a_long_text_stays_on_the_sheet():
    """It breaks into lines within the width; what is cut off is marked, and the title element has all of it."""
    picture = parsed(ODD["long"])
    lines = [line for line in texts(picture) if line.startswith("Brine")]

    assert len(lines) == 6
    assert max(map(len, lines)) < 60
    assert lines[-1].endswith("\u2026")
    assert picture.findtext(f"{SVG}title") == " ".join(["Brine"] * 500)


def test_a_number_stays_with_its_unit():
    """No line of text ends between the two."""
    title = "Goose breasts in a brine of weak and strong salt at 12 degC for 30 h and not at all at 99 % of it"

    lines = [line for line in texts(parsed(one_panel(title=title))) if set(line.split()) <= set(title.split())]

    assert [line for line, following in pairwise(lines) if line[-1].isdigit()] == []


def test_marks_close_to_each_other_are_told_apart():
    """Each of twelve is named once: beside its point, or by a number that the key explains."""
    shown = texts(parsed(ODD["many"]))

    assert [shown.count(f"Turn {turn}") for turn in range(12)] == [1] * 12
    assert shown.count("1") == 2
