"""Calls from web pages of other origins (CORS): closed, unless a setting names the origins."""

from collections.abc import Sequence

from starlette.datastructures import Headers
from starlette.middleware.cors import CORSMiddleware
from starlette.responses import Response
from starlette.types import ASGIApp

A_DAY_S = 86_400


class Browsers(CORSMiddleware):
    """CORS with answers in the form of this service: a pre-flight gets 204, and what is not allowed gets no leave."""

    def __init__(self, app: ASGIApp, origins: Sequence[str]) -> None:
        super().__init__(
            app,
            allow_origins=origins,
            allow_methods=("GET", "HEAD", "POST"),
            allow_headers=("accept", "content-type", "if-none-match", "x-request-id"),
            expose_headers=("etag", "retry-after", "x-request-id"),
            max_age=A_DAY_S,
        )

    def preflight_response(self, request_headers: Headers) -> Response:
        """The answer to the question that a browser asks first; a refusal is the absence of leave."""
        asked = super().preflight_response(request_headers)
        kept = {name: value for name, value in asked.headers.items() if name.startswith(("access-control-", "vary"))}
        if not self.is_allowed_origin(request_headers["origin"]):
            kept.pop("access-control-allow-origin", None)
        return Response(status_code=204, headers=kept)
