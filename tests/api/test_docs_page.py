"""The interactive documentation: all of it from here."""

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

OUTSIDE = re.compile(r"(?:src|href|url)\s*[=:(]\s*[\"']?(?:https?:)?//", re.IGNORECASE)


def test_the_page_asks_nothing_of_the_internet(client: TestClient):
    """Every address in the page is local and is answered."""
    page = client.get("/docs")
    named = re.findall(r'(?:src|href)="([^"]+)"', page.text)

    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert len(named) == 3
    assert all(client.get(f"/{address}").status_code == 200 for address in named)


def test_the_page_may_ask_nothing_of_the_internet(client: TestClient):
    """The browser is told to load from here alone, and nobody may frame the page."""
    policy = client.get("/docs").headers["content-security-policy"]

    assert "default-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "http" not in policy


@pytest.mark.parametrize("name", ["docs.html", "docs.js", "swagger-ui.css"])
def test_no_file_of_the_page_names_an_address_outside(assets: Path, name: str):
    """Neither page, start nor style sheet loads from elsewhere."""
    assert not OUTSIDE.search((assets / name).read_text("utf-8"))


def test_other_files_are_not_served(client: TestClient):
    """Only what the page needs is given out."""
    for name in ("LICENSE", "docs.html", "..%2foperations.py", "NOTICE"):
        assert client.get(f"/docs/{name}").status_code == 404


def test_what_others_wrote_is_named(assets: Path):
    """The NOTICE names each file of others with its version, and their licence is beside it."""
    notice = (assets / "NOTICE").read_text("utf-8")

    assert re.search(r"swagger-ui-dist 5\.[0-9]+\.[0-9]+", notice)
    assert "Apache License" in (assets / "LICENSE").read_text("utf-8")
    assert all(name in notice for name in ("swagger-ui-bundle.js", "swagger-ui.css"))
