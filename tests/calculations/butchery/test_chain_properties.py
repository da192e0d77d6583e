"""What must hold of every chain, drawn at random."""

from itertools import pairwise
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.butchery.chain import ChainRequest
from service.calculations.butchery.chaining.bands import CarriedWeight, Share
from service.calculations.butchery.chaining.carrying import backwards, forwards
from service.calculations.butchery.chaining.links import Link, links_of
from service.calculations.butchery.chaining.matching import meat_of
from service.rules.loader import load_book
from tests.calculations.butchery.chain_bodies import lawful_body
from tests.calculations.butchery.chain_proofs import faults_of_chain
from tests.calculations.butchery.chains import answer_to, told_of

BOOK = load_book("test")
often = settings(max_examples=150, deadline=None)
bodies = st.integers(0, 10**9).map(lambda seed: lawful_body(Random(seed)))
weights_g = st.floats(0.001, 1e9)


def links_in(body: dict[str, Any]) -> tuple[Link, ...]:
    """The links of a body whose stages all have a share."""
    stages = [{name: value for name, value in stage.items() if name != "weighed"} for stage in body["stages"]]
    for stage in stages:
        stage.setdefault("change", {"kind": "left", "percent": 77.7, "low_percent": 70, "high_percent": 79})
    request = ChainRequest.model_validate({**body, "stages": stages})
    return links_of(request.stages, request.bought_as or "untrimmed", meat_of(None, None), BOOK)


@often
@given(bodies)
def test_a_lawful_chain_is_proved(body: dict[str, Any]):
    """Every combination of shares lies within, every count is rounded once, every limit is that of the law."""
    asked = {name: value for name, value in body.items() if name not in ("task", "stages", "on")}

    answer = answer_to(BOOK, body["task"], *body["stages"], **asked)

    assert faults_of_chain(body, told_of(answer)) == []


@often
@given(bodies, weights_g)
def test_forwards_after_backwards_returns_the_start(body: dict[str, Any], wanted_g: float):
    """To 1e-9: what is usual by what is usual, least with most left, most with least left."""
    links = links_in(body)
    buy = backwards(wanted_g, links).points[0]

    usual, most, least = (forwards(each, links).points[-1] for each in (buy.typical_g, buy.low_g, buy.high_g))

    assert [usual.typical_g, most.high_g, least.low_g] == pytest.approx([wanted_g] * 3, rel=1e-9)


@often
@given(bodies, weights_g)
def test_backwards_after_forwards_returns_the_start(body: dict[str, Any], bought_g: float):
    """The other way round."""
    links = links_in(body)
    left = forwards(bought_g, links).points[-1]

    usual, most, least = (backwards(each, links).points[0] for each in (left.typical_g, left.high_g, left.low_g))

    assert [usual.typical_g, most.low_g, least.high_g] == pytest.approx([bought_g] * 3, rel=1e-9)


@often
@given(bodies, weights_g, st.booleans())
def test_what_goes_in_comes_out_or_is_lost(body: dict[str, Any], weight_g: float, is_bought: bool):
    """At each stage out is in less the share that is lost, and so it is from the first to the last."""
    links = links_in(body)
    chain = (forwards if is_bought else backwards)(weight_g, links)

    points = [point.typical_g for point in chain.points]

    for link, before, after in zip(links, points, points[1:], strict=False):
        assert link.share is not None
        assert before == pytest.approx(after + before * (1 - link.share.typical_fraction), rel=1e-9)
    losses = [before - after for before, after in pairwise(points)]
    assert points[0] == pytest.approx(points[-1] + sum(losses), rel=1e-9)


@often
@given(bodies, st.lists(st.floats(0, 1), min_size=10, max_size=10), st.booleans())
def test_every_combination_lies_within_the_band(body: dict[str, Any], where: list[float], is_bought: bool):
    """Any share of each range, not only its ends."""
    links = links_in(body)
    chain = (forwards if is_bought else backwards)(5000.0, links)
    drawn = [
        link.share.low_fraction + part * (link.share.high_fraction - link.share.low_fraction)
        for link, part in zip(links, where, strict=False)
        if link.share
    ]

    weight = CarriedWeight.exactly(5000.0)
    for fraction in drawn if is_bought else reversed(drawn):
        share = Share(fraction, fraction, fraction)
        weight = weight.after(share) if is_bought else weight.before(share)

    band = chain.points[-1 if is_bought else 0]
    assert band.low_g * (1 - 1e-12) <= weight.typical_g <= band.high_g * (1 + 1e-12)


@often
@given(bodies, st.floats(1.01, 50))
def test_twice_the_portions_take_twice_the_meat(body: dict[str, Any], times: float):
    """Weights scale, shares do not."""
    links = links_in(body)

    once, more = backwards(3000.0, links), backwards(3000.0 * times, links)

    assert more.points[0].high_g == pytest.approx(times * once.points[0].high_g, rel=1e-12)
    assert more.share(len(links), 0) == pytest.approx(once.share(len(links), 0), rel=1e-12)


@often
@given(bodies, st.floats(0.5, 20))
def test_a_point_more_left_saves_what_is_told(body: dict[str, Any], wanted_kg: float):
    """Ask again with one point more in one stage: the difference in what is bought."""
    links = links_in(body)
    chain = backwards(1000 * wanted_kg, links)

    for place, link in enumerate(links):
        assert link.share is not None
        better = Share(*(fraction + 0.01 for fraction in link.share))
        again = backwards(1000 * wanted_kg, (*links[:place], link._replace(share=better), *links[place + 1 :]))
        saved = chain.points[0].typical_g - again.points[0].typical_g
        assert chain.saved_g(link.number) == pytest.approx(saved, rel=1e-6)
