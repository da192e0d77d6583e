"""What a dose answers."""

from random import Random

import pytest

from service.calculations.curing.dose import DoseAnswer
from service.calculations.refusals import LimitExceeded
from service.quantities.models import Answer, written
from service.rules.book import RuleBook
from service.rules.finding import Finding
from tests.calculations.curing.kitchen import BACON, DRY, ERYTHORBATE, PUMPED, answer_to, dose_of, grams, request_for
from tests.calculations.curing.lawful import lawful_body


def test_monohydrate_is_scaled(book: RuleBook) -> None:
    """550 ppm of erythorbate is 600 ppm of its monohydrate (molar masses 198.11 and 216.12, from memory)."""
    dry = dose_of(
        120, product=BACON, method=PUMPED, accelerator={**ERYTHORBATE, "kind": "sodium_erythorbate_monohydrate"}
    )
    answer = answer_to(book, dry)
    erythorbate = next(item for item in answer.weigh if item.what == "sodium_erythorbate_monohydrate")
    curing_salt = answer.weigh[0]

    assert erythorbate.exact_g / (curing_salt.exact_g * 0.0625) == pytest.approx(600 / 120, rel=1e-3)


def test_salt_inside_other_things_counts(book: RuleBook) -> None:
    """2 percent of 4.2 kg is 84 g, of which curing salt and 40 g of stock powder at 55 percent bring their part."""
    powder = {"mass": {"value": 40, "unit": "g"}, "salt_percent": 55}
    weighed = grams(answer_to(book, dose_of(150, method=DRY, salt_percent=2, stock_powder=powder)))

    total = weighed["salt"] + weighed["curing_salt"] * 0.9375 + 22

    assert total == pytest.approx(84, abs=0.002)


def test_brief_leaves_out_the_arithmetic(book: RuleBook) -> None:
    """Brief has the same weights and findings."""
    full, brief = answer_to(book, request_for()), answer_to(book, request_for(detail="brief"))

    assert brief.steps == brief.sources == ()
    assert full.steps
    assert full.sources
    assert [item.amount for item in brief.weigh] == [item.amount for item in full.weigh]
    assert brief.findings == full.findings


def test_the_same_request_gives_the_same_bytes(book: RuleBook) -> None:
    """An answer depends on the request and the engine only."""
    first, second = answer_to(book, request_for()), answer_to(book, request_for())

    assert first.model_dump_json() == second.model_dump_json()


@pytest.mark.parametrize("detail", ["brief", "full"])
def test_a_dose_is_written_as_pydantic_writes_it(book: RuleBook, detail: str) -> None:
    """Byte for byte, whether it is allowed or refused with its findings."""
    told: list[Answer] = []
    for seed in range(100):
        try:
            told.append(answer_to(book, {**lawful_body(Random(seed)), "detail": detail}))
        except LimitExceeded as refusal:
            told += refusal.findings

    assert {type(answer) for answer in told} == {DoseAnswer, Finding}
    assert [written(answer) for answer in told] == [answer.model_dump_json().encode() for answer in told]


def test_rounding_the_salt_never_lifts_the_nitrite(book: RuleBook) -> None:
    """A salt that is rounded down leaves a lighter pickle: a curing salt a hair over a whole step loses that step."""
    body = dose_of(200, method=PUMPED, salt_percent=2, scale_step={"value": 1, "unit": "g"})
    per_water = answer_to(book, body).weigh[0].exact_g / 2000
    for steps in range(60, 100):
        water = {"value": (steps + 1e-4) / per_water, "unit": "g"}

        weighed = grams(answer_to(book, {**body, "method": {**PUMPED, "water": water}}))

        pickle = sum(weighed.values()) - weighed["meat"]
        assert weighed["curing_salt"] * 0.0625 * 0.12 / pickle * 1e6 <= 200
