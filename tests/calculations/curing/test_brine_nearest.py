"""Whoever follows what a refusal offers, word by word, is answered."""

import re
from collections.abc import Callable
from math import ceil
from random import Random
from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.curing.brine_bodies import covered_task
from tests.calculations.curing.brines import answered, cool, degc, density, freezing, make, percent
from tests.calculations.curing.test_brine import adjust, read

Followed = list[dict[str, Any]]


def offered(book: RuleBook, task: dict[str, Any]) -> tuple[str, str] | None:
    """Code and offer of a refusal, or None where there is an answer."""
    try:
        answered(book, task)
    except Impossible as refused:
        return refused.code, refused.nearest or ""
    return None


def number(pattern: str, offer: str) -> float | None:
    """The number that an offer names, if it does."""
    found = re.search(pattern.replace("#", r"(-?[0-9.e-]*[0-9])"), offer)
    return float(found[1]) if found else None


def too_cold(random: Random) -> dict[str, Any]:
    """A brine below -5 degC, or below where ice or salt falls out of it."""
    task = random.choice(
        [make(percent(random.uniform(0.1, 26.395))), adjust(percent(9), percent(random.uniform(1, 26)))]
    )
    return {**task, "temperature": degc(random.choice([random.uniform(-30, -5), random.uniform(-5, 0)]))}


def warmed(task: dict[str, Any], offer: str) -> Followed:
    """At the temperature that is named, or of the strength that is named."""
    t, w = number("(?:Warm it to|Stay at) # degC", offer), number("make it # percent or weaker", offer)
    weaker = {"wanted" if task["kind"] == "adjust" else "strength": percent(w)} if w else {}
    warmer = [] if t is None else [{**task, "temperature": degc(t)}]
    return [*warmer, *([{**task, **weaker}] if weaker else [])]


def too_hot(random: Random) -> dict[str, Any]:
    """A brine that is warmer than the figures."""
    return make(percent(random.uniform(0.1, 26)), temperature=degc(random.uniform(40.001, 200)))


def cooled_down(task: dict[str, Any], offer: str) -> Followed:
    """At the temperature that is named."""
    t = number("cool to # degC", offer)
    return [] if t is None else [{**task, "temperature": degc(t)}]


def poor_kettle(random: Random) -> dict[str, Any]:
    """A concentrate that is weaker than what is wanted of it."""
    strong = random.uniform(0.5, 24)
    hot = {"strength": percent(strong), "temperature": degc(random.uniform(20, 100))}
    return cool(percent(strong), percent(random.uniform(strong + 0.01, 26)), concentrate=hot, **_cooling(random))


def other_wanted(task: dict[str, Any], offer: str) -> Followed:
    """The strength that is named."""
    w = number("Ask for # percent", offer)
    return [] if w is None else [{**task, "wanted": percent(w)}]


def iced_kettle(random: Random) -> dict[str, Any]:
    """More ice than there is room for, or than melts."""
    strong = random.uniform(5, 24)
    hot = {"strength": percent(strong), "temperature": degc(random.uniform(5, 100))}
    asked = {**_cooling(random), "cooling": _ice(random.uniform(1, 60), "kg")}
    return cool(percent(strong), percent(strong * random.uniform(0.1, 1)), concentrate=hot, **asked)


def _cooling(random: Random) -> dict[str, Any]:
    wanted = {"kind": "to_temperature", "wanted": degc(random.uniform(0, 10))}
    return {"cooling": wanted, "water_temperature": degc(random.uniform(0.5, 39))}


def _ice(value: float, unit: str) -> dict[str, Any]:
    return {"kind": "with_ice", "ice": {"value": value, "unit": unit}}


def less_ice(task: dict[str, Any], offer: str) -> Followed:
    """The ice that is named; none where none is to be added."""
    kg, g = number("With # kg of ice", offer), number("With # g of ice", offer)
    if kg is None and g is None:
        assert "Add no ice" in offer
        return []
    ice = _ice(kg, "kg") if kg is not None else _ice(g or 0.0, "g")
    return [{**task, "cooling": ice}]


def ice_for_water(random: Random) -> dict[str, Any]:
    """Cold water that is ice, or ice that is none."""
    wrong = {"water_temperature": degc(random.uniform(-30, -0.001))}
    return cool(percent(24), percent(6), **random.choice([wrong, {"ice_temperature": degc(random.choice([1, -41]))}]))


def right_water(task: dict[str, Any], offer: str) -> Followed:
    """Water, or ice, of the temperature that is named."""
    water, ice = number("water of # degC", offer), number("ice of # degC", offer)
    return [
        {**task, **({"water_temperature": degc(water)} if water is not None else {"ice_temperature": degc(ice or 0)})}
    ]


def full_vessel(random: Random) -> dict[str, Any]:
    """More, or thicker, meat than there is room for."""
    task = covered_task(random)
    asked = task["how_much"]
    total = {**asked["pieces"]["total"], "value": asked["pieces"]["total"]["value"] * random.uniform(1, 12)}
    return {**task, "how_much": {**asked, "pieces": {**asked["pieces"], "total": total}}}


def emptied(task: dict[str, Any], offer: str) -> Followed:
    """As many pieces as are named; the vessel that is named."""
    asked = task["how_much"]
    pieces, vessel = asked["pieces"], asked["vessel"]
    fewer, litres, high = number("Lay in # of", offer), number("vessel of # l", offer), number("and # cm high", offer)
    bigger = {**vessel, "volume": {"value": litres, "unit": "l"}} if litres else {}
    bigger = {**vessel, "height": {"value": high, "unit": "cm"}} if high else bigger
    assert bigger, offer
    followed = [{**task, "how_much": {**asked, "vessel": bigger}}]
    if fewer:
        share = fewer / pieces["number"]
        total = {**pieces["total"], "value": pieces["total"]["value"] * share}
        followed.append({**task, "how_much": {**asked, "pieces": {**pieces, "number": int(fewer), "total": total}}})
    return followed


def odd_reading(random: Random) -> dict[str, Any]:
    """A strength of a brine that reads like water, or heavier than any."""
    ratio = random.choice([random.uniform(1, 1.002), random.uniform(1.19, 1.21)])
    return make({"kind": "specific_gravity", "ratio": ratio, "read_at": degc(random.uniform(-5, 40))})


def stated_instead(task: dict[str, Any], offer: str) -> Followed:
    """The strength that is named."""
    w = number("state # percent", offer) or number("strength of # percent", offer)
    return [] if w is None else [{**task, "strength": percent(w)}]


CASES: list[tuple[Callable[[Random], dict[str, Any]], Callable[[dict[str, Any], str], Followed]]] = [
    (too_cold, warmed), (too_hot, cooled_down), (poor_kettle, other_wanted), (iced_kettle, less_ice),
    (ice_for_water, right_water), (full_vessel, emptied), (odd_reading, stated_instead),
]  # fmt: skip


@pytest.mark.parametrize(("drawn", "follows"), CASES)
def test_an_offer_that_is_followed_is_answered(book: RuleBook, drawn: Any, follows: Any):
    """Of two hundred refusals each offer is taken by its word; at least forty of them name something to do."""
    random, followed = Random(7), 0
    for task in (drawn(random) for _ in range(200)):
        refused = offered(book, task)
        for other in follows(task, refused[1]) if refused else []:
            followed += 1

            assert offered(book, other) is None, (refused, other)

    assert followed > 40


@pytest.mark.parametrize("w", [0.03, 0.15, 0.25])
@pytest.mark.parametrize("colder", [0.5, 3, 12])
def test_a_brine_that_is_warmed_can_be_read(book: RuleBook, w: float, colder: float):
    """Whoever warms the brine and measures again at the temperature that is named reads its strength."""
    t = min(freezing(w), -5) - colder
    refused = offered(book, _floating(w, t))
    assert refused is not None

    named = number("# degC or more and measure again", refused[1])

    assert named is not None
    answer = answered(book, _floating(w, named))
    assert answer.brine.salt_percent == pytest.approx(100 * w, abs=0.08)


def _floating(w: float, t: float) -> dict[str, Any]:
    ratio = density(w, max(t, -5)) / density(0, 140 / 9)
    return {**read(1, degc(t)), "hydrometer": {"kind": "specific_gravity", "ratio": ratio}}


def test_the_strongest_that_is_offered_is_nearly_the_strongest(book: RuleBook):
    """A hundredth of a percent more than what is offered to a weak concentrate cannot be cooled as asked."""
    refused = offered(book, cool(percent(8), percent(9)))
    assert refused is not None
    w = number("Ask for # percent", refused[1])
    assert w is not None

    assert offered(book, cool(percent(8), percent(w))) is None
    assert offered(book, cool(percent(8), percent(ceil(100 * w + 1) / 100))) is not None
