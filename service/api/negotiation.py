"""What a caller sends and what it can take: Content-Type, Content-Encoding, Accept and Accept-Encoding."""

import re
from collections.abc import Iterable, Iterator, Sequence

from starlette.requests import Request

from service.api.problems import Problem

JSON = "application/json"
LINES = "application/x-ndjson"
SVG = "image/svg+xml"
PNG = "image/png"
CALENDAR = "text/calendar"

_QUALITY = re.compile(r"(?:0?\.[0-9]{1,6}|0\.?|1(?:\.0{0,6})?)")
"""As RFC 9110 has it, and a little more: older clients write .2 or many digits."""
_CHARSET = re.compile(r'charset="?utf-?8"?', re.IGNORECASE)


def header(request: Request, name: bytes) -> str | None:
    """A header's value, several lines of it joined; None when it was not sent."""
    lines = [value for key, value in request.scope["headers"] if key == name]
    return b", ".join(lines).decode("latin-1") if lines else None


def require_acceptable(request: Request, offered: str = JSON) -> None:
    """406 unless the caller takes the one media type that is on offer."""
    accept = header(request, b"accept")
    if accept and accept not in ("*/*", offered) and not _quality(accept, _ranges(offered)):
        raise Problem("not-acceptable", f"On offer here: {offered}.")


def chosen(request: Request, offered: Sequence[str]) -> str:
    """The media type on offer that the caller wants most, of equals the first; 406 when it takes none."""
    accept = header(request, b"accept")
    wanted = {one: _quality(accept, _ranges(one)) if accept else 1.0 for one in offered}
    best = max(wanted, key=wanted.__getitem__)
    if not wanted[best]:
        raise Problem("not-acceptable", f"On offer here: {', '.join(offered)}.")
    return best


def require_body(request: Request, read: str = JSON) -> None:
    """415 unless the body is said to be of the one media type that is read, as it is."""
    if header(request, b"content-encoding") not in (None, "", "identity"):
        raise Problem(
            "unsupported-content-encoding",
            "The body is read as it is: send it without Content-Encoding.",
            headers=(("accept-encoding", "identity"),),
        )
    sent = header(request, b"content-type") or ""
    if sent != read and not _says(sent, read):
        raise Problem("unsupported-media-type", f"A body is read as {read} only here.", headers=(("accept", read),))


def takes_gzip(request: Request) -> bool:
    """Whether the caller asks for compressed answers."""
    sent = header(request, b"accept-encoding")
    return sent is not None and "gzip" in sent and _quality(sent, ("gzip",)) > 0


def _says(content_type: str, wanted: str) -> bool:
    media_type, _, parameters = content_type.partition(";")
    given = [one.strip() for one in parameters.split(";") if one.strip()]
    return media_type.strip().lower() == wanted and all(_CHARSET.fullmatch(one) for one in given)


def _ranges(media_type: str) -> tuple[str, ...]:
    """The ranges that cover a media type, the most specific first."""
    return media_type, media_type.partition("/")[0] + "/*", "*/*"


def _quality(sent: str, names: Iterable[str]) -> float:
    """How much the caller wants something that goes by these names; the first name that is listed decides."""
    wanted = dict(_weighted(sent))
    return next((wanted[name] for name in names if name in wanted), 0.0)


def _weighted(sent: str) -> Iterator[tuple[str, float]]:
    for element in sent.split(","):
        name, _, parameters = element.partition(";")
        given = dict(one.strip().lower().partition("=")[::2] for one in parameters.split(";"))
        quality = given.get("q", "1")
        yield name.strip().lower(), float(quality) if _QUALITY.fullmatch(quality) else 0.0
