"""Making an HTTP answer of bytes: compressed when asked, and cheap."""

import gzip

from starlette.requests import Request
from starlette.responses import Response

from service.api.negotiation import JSON, takes_gzip

SMALLEST_COMPRESSED_BYTES = 1024
QUICK = 1
"""Compression level: an answer made once and sent once is not worth more."""


def reply(request: Request, body: bytes, media_type: str = JSON) -> Response:
    """A 200 with these bytes, compressed when they are long and the caller asks for it."""
    if len(body) <= SMALLEST_COMPRESSED_BYTES:
        return Response(body, media_type=media_type)
    headers = {"vary": "Accept-Encoding"}
    if takes_gzip(request):
        headers["content-encoding"] = "gzip"
        body = gzip.compress(body, QUICK, mtime=0)
    return Response(body, headers=headers, media_type=media_type)
