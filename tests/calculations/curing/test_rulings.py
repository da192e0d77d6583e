"""What is worked out once for all doses of a kind says of each dose what would be worked out for it alone."""

from random import Random

import pytest

from service.calculations.curing.dose import DoseRequest, dose
from service.calculations.refusals import Refusal
from service.quantities.models import written
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.curing.lawful import lawful_body

SEEDS = range(60)


@pytest.fixture(scope="module")
def asked() -> list[DoseRequest]:
    """Doses of several kinds, each of which comes up more than once."""
    return [DoseRequest.model_validate(lawful_body(Random(seed))) for seed in SEEDS]


def answers(asked: list[DoseRequest], book: RuleBook) -> list[str]:
    """What each comes to, an answer or a refusal."""
    return [answer(request, book) for request in asked]


def answer(request: DoseRequest, book: RuleBook) -> str:
    """The bytes of an answer, or all that a refusal says."""
    try:
        return written(dose(request, book)).decode()
    except Refusal as refusal:
        return repr(refusal)


def test_what_was_asked_before_changes_no_answer(asked: list[DoseRequest], book: RuleBook):
    """The same doses in another order, and by a book that has answered nothing yet, come to the same bytes."""
    first = answers(asked, book)

    assert answers(asked[::-1], book) == first[::-1]
    assert answers(asked, load_book(book.engine.pellicle)) == first


def test_a_finding_on_another_label_is_another(book: RuleBook):
    """Findings that seldom change are kept, and a label that says otherwise has its own."""
    body = lawful_body(Random(0))
    strengths_percent = (6.25, 5.88, 6.25, 4.0)

    told = []
    for percent in strengths_percent:
        body["curing_salt"]["nitrite"]["percent"] = percent
        findings = dose(DoseRequest.model_validate(body), book).findings
        told += [finding.figure for finding in findings if finding.measure == "label_strength"]

    assert told == list(strengths_percent)
