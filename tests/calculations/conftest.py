"""The rule book as it is shipped, loaded once."""

import pytest

from service.rules.book import RuleBook
from service.rules.loader import load_book


@pytest.fixture(scope="session")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("test")
