"""Answers that a caller may keep: bytes made once, with a tag to ask again by."""

import gzip
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256

from starlette.requests import Request
from starlette.responses import Response

from service.api.negotiation import JSON, header, require_acceptable, takes_gzip
from service.api.replies import SMALLEST_COMPRESSED_BYTES
from service.api.routes import Tag
from service.quantities.models import Answer, written

REFERENCE = Tag(
    "reference", "What calculations build on: units, ingredients, cuts, and rules with their history and sources."
)
READING_PROBLEMS = (
    "unreadable-query", "not-acceptable", "uri-too-long", "invalid-request", "headers-too-large", "internal-error",
)  # fmt: skip
THOROUGH = 6
"""Compression level: made once, sent often."""
AN_HOUR = "public, max-age=3600"


@dataclass(frozen=True)
class Page:
    """Bytes with their media type. Compressed and plain are two representations, so each has its own strong tag."""

    body: bytes
    media_type: str = JSON
    keep: str = AN_HOUR

    @cached_property
    def compressed(self) -> bytes:
        return gzip.compress(self.body, THOROUGH, mtime=0)

    @cached_property
    def digest(self) -> str:
        return sha256(self.body).hexdigest()[:32]


def page_of(answer: Answer) -> Page:
    """An answer as a page."""
    return Page(written(answer))


def answer_page(request: Request, page: Page) -> Response:
    """A page, or 304 when the caller has it already."""
    require_acceptable(request, page.media_type)
    squeezed = len(page.body) > SMALLEST_COMPRESSED_BYTES and takes_gzip(request)
    tag = f'"{page.digest}{"-gzip" if squeezed else ""}"'
    headers = {"etag": tag, "cache-control": page.keep, "vary": "Accept-Encoding"}
    if _is_known(request, tag):
        return Response(status_code=304, headers=headers)
    if squeezed:
        headers["content-encoding"] = "gzip"
    return Response(page.compressed if squeezed else page.body, headers=headers, media_type=page.media_type)


def _is_known(request: Request, tag: str) -> bool:
    """Weak comparison (RFC 9110, 13.1.2): only whether the bytes need to travel again."""
    sent = header(request, b"if-none-match")
    if sent is None:
        return False
    known = [one.strip().removeprefix("W/") for one in sent.split(",")]
    return tag in known or "*" in known
