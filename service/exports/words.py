"""Words on their way into another format: nothing in them may break it, whoever wrote them."""

import re

UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff\ufffe\uffff]")
"""What XML 1.0 and RFC 5545 do not let into a text, and what turns the direction of the text after it."""
ELLIPSIS = "\u2026"


def printable(text: str) -> str:
    """The text without what no format takes; line breaks and tabs stay."""
    return UNPRINTABLE.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def one_line(text: str) -> str:
    """The text in one line, with single spaces."""
    return " ".join(printable(text).split())


def shortened(text: str, most: int) -> str:
    """The text, or its beginning and a sign that there is more."""
    return text if len(text) <= most else text[: most - 1].rstrip() + ELLIPSIS
