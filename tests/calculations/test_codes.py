"""A code means one thing, whichever calculation says it."""

from service.calculations.registry import CALCULATIONS


def test_a_reason_means_the_same_everywhere():
    """GET /problems/impossible tells one meaning for each code, so two calculations may not differ about it."""
    meanings: dict[str, set[str]] = {}
    for calculation in CALCULATIONS:
        for code, means in calculation.reasons.items():
            meanings.setdefault(code, set()).add(means)

    assert {code: told for code, told in meanings.items() if len(told) > 1} == {}
    assert len(meanings) > 20


def test_every_code_of_a_calculation_is_explained():
    """None is without words, and none is both a reason to decline and a word in an answer."""
    for calculation in CALCULATIONS:
        assert all(len(means) > 10 for means in (*calculation.reasons.values(), *calculation.codes.values()))
        assert not set(calculation.reasons) & set(calculation.codes)
