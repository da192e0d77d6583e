"""A stay in a pickle: what the guard on the whole system holds where it is stated when the piece comes out."""

import json
import subprocess
import sys
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from service.calculations.curing.dose import DoseAnswer
from service.calculations.curing.pieces import Axis
from service.calculations.curing.taking_up import share_of_the_way_fraction
from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from service.rules.finding import Finding
from service.rules.loader import load_book
from tests.architecture.house import ROOT
from tests.calculations.curing.kitchen import LOIN, answer_to, dose_of, refusing
from tests.calculations.curing.stays import D_MM2_PER_D, crank_slab_root, crank_slab_share, share_by_transform
from tests.calculations.curing.written import amount

BOOK: RuleBook = load_book("test")
Body = dict[str, Any]
GUARD = "guard-immersion-both-readings"
MEAT_KG, WATER_KG = 5.5, 3.3
SLAB: Body = {
    "kind": "brick",
    "thickness": amount(110, "mm"),
    "width": amount(200, "mm"),
    "length": amount(235, "mm"),
    "open_faces": {"sides": 0, "ends": 0},
}
"""Of 5.5 kg, stated with nothing open but its two broad faces."""


def stay_of(days: float, shape: Body = SLAB, cold_c: float = 3.5, **changes: Any) -> Body:
    """A stay of so many days."""
    return {"shape": shape, "pieces": 1, "temperature": amount(cold_c, "degC"), "lasts": amount(days, "d"), **changes}


def lying(stay: Body | None, percent: float = 20, ppm: float = 130, water_kg: float = WATER_KG, **changes: Any) -> Body:
    """A dose for a loin that picks up so much of its pickle."""
    basis = {"kind": "pick_up", "percent": percent, **({"stay": stay} if stay else {})}
    method = {"kind": "immersion", "water": amount(water_kg, "kg"), "basis": basis}
    return dose_of(ppm, **{"product": LOIN, "meat": amount(MEAT_KG, "kg"), "method": method, **changes})


def guard_in(findings: tuple[Finding, ...]) -> Finding:
    """The finding of the guard."""
    return next(finding for finding in findings if finding.rule == GUARD)


def guard_of(body: Body, book: RuleBook = BOOK) -> Finding:
    """The same, whether the dose is given or refused by a limit."""
    try:
        return guard_in(answer_to(book, body).findings)
    except LimitExceeded as refusal:
        return guard_in(refusal.findings)


def whole_system_ppm(answer: DoseAnswer) -> float:
    """Meat and pickle as one, from the answer's weights."""
    nitrite = next(figure for figure in answer.figures.nitrite_on_every_basis if figure.basis == "whole_system")
    return nitrite.value


PRINTED_ROOTS = [(9, 1.6385), (4, 1.7155), (1.5, 1.9071), (1, 2.0288), (2 / 3, 2.1746), (0.25, 2.5704), (1 / 9, 2.8363)]
"""First root of tan q = -a q (Crank 1975, table 4.1, from memory)."""


@pytest.mark.parametrize(("bath_ratio", "printed"), PRINTED_ROOTS)
def test_the_series_has_the_printed_roots(bath_ratio: float, printed: float) -> None:
    """What the next test compares with has the roots that are printed for it."""
    assert crank_slab_root(1, bath_ratio) == pytest.approx(printed, abs=1e-4)


@pytest.mark.parametrize("days", [0.25, 1, 2, 3])
@pytest.mark.parametrize("bath_ratio", [0.5, 0.8])
def test_a_plane_sheet_takes_up_what_the_series_says(days: float, bath_ratio: float) -> None:
    """The share of the way that a sheet of 110 mm has gone (Crank 1975, section 4.3.5)."""
    share = share_of_the_way_fraction((Axis("slab", 55.0),), bath_ratio=bath_ratio, lasts_d=days)

    assert share == pytest.approx(crank_slab_share(days * D_MM2_PER_D / 55**2, bath_ratio), rel=1e-4)


def block_share(days: float, bath_ratio: float) -> float:
    """How far the block has gone, by a transform of its own."""
    return share_by_transform([("slab", 55), ("slab", 100), ("slab", 117.5)], bath_ratio, days * D_MM2_PER_D)


@pytest.mark.parametrize("days", [1, 2, 3])
def test_the_guard_holds_that_share_of_the_whole_system(days: float) -> None:
    """Of a block whose faces are all open, whatever is stated of them; or what is stated to be taken up."""
    product = {**LOIN, "storage": "shelf_stable", "finish": "matured"}
    answer = answer_to(BOOK, lying(stay_of(days), percent=24, ppm=121, product=product))

    share = block_share(days, WATER_KG / (0.75 * MEAT_KG))

    expected = max(share * whole_system_ppm(answer), answer.figures.ingoing_nitrite.value)
    assert guard_in(answer.findings).figure == pytest.approx(expected, rel=1e-3)


def test_a_piece_that_comes_out_in_time_is_dosed(book: RuleBook) -> None:
    """Refused today; with a stay of three days it is dosed, named by its basis, with its sum and its caution."""
    answer = answer_to(book, lying(stay_of(3)))

    guard = guard_in(answer.findings)
    assert GUARD in refusing(book, lying(None))
    assert (guard.verdict, guard.basis) == ("met", "whole_system_after_stay")
    assert guard.figure is not None
    assert 130 < guard.figure < 200 < whole_system_ppm(answer)
    assert "take-out-in-time" in {caution.id for caution in answer.cautions}
    assert [step.partition(":")[0] for step in answer.steps if "tay" in step] == ["Stay", "After the stay"]
    assert f"= {guard.figure:.4f} ppm" in answer.steps[-1]
    assert any("48(1):59" in source for source in answer.sources)


def test_without_a_stay_nothing_of_it_is_told(book: RuleBook) -> None:
    """No caution, no step, no figure, no source."""
    answer = answer_to(book, lying(None, percent=45, ppm=150))

    assert guard_in(answer.findings).basis == "whole_system"
    assert "take-out-in-time" not in {caution.id for caution in answer.cautions}
    assert "stay" not in " ".join((*answer.steps, *answer.sources)).lower()
    assert "whole_system_after_stay" not in {figure.basis for figure in answer.figures.nitrite_on_every_basis}


def test_a_stay_without_end_is_refused_as_today(book: RuleBook) -> None:
    """After 400 days the piece has all of its share: the same figure, the same refusal."""
    ended, endless = guard_of(lying(stay_of(400))), guard_of(lying(None))

    assert ended.figure == pytest.approx(endless.figure, rel=1e-9)
    assert (ended.refuses, ended.limit, ended.code) == (endless.refuses, endless.limit, endless.code)
    assert GUARD in refusing(book, lying(stay_of(400)))


@settings(max_examples=60, deadline=None)
@given(st.floats(0.05, 200), st.floats(1.05, 1.7), st.floats(70, 100), st.floats(4, 55), st.floats(1.2, 20))
def test_longer_and_thinner_take_up_more_but_never_more_than_today(
    days: float, more: float, thick_mm: float, percent: float, water_kg: float
) -> None:
    """It grows with the time, falls with the thickness, and lies between the pick-up and the guard of today.

    But for what rounding to the scale takes: a refusal tells what was asked, an answer what is weighed.
    """

    def held(days: float, thick_mm: float) -> float:
        shape = {**SLAB, "thickness": amount(thick_mm, "mm")}
        finding = guard_of(lying(stay_of(days, shape), percent=percent, water_kg=water_kg, ppm=150))
        return finding.figure or 0.0

    try:
        today = guard_of(lying(None, percent=percent, water_kg=water_kg, ppm=150)).figure or 0.0
    except Impossible:  # more is to be taken up than there is
        return
    once = held(days, thick_mm)

    assert once <= held(days * more, thick_mm) * (1 + 1e-4)
    assert held(days, thick_mm * more) <= once * (1 + 1e-4)
    assert min(150 * 0.999, today) <= once <= today * (1 + 1e-4)


def test_a_dip_meets_no_minimum() -> None:
    """After ten minutes a thick piece has nearly nothing, whatever pick-up is stated: it is credited with no more."""
    with pytest.raises(LimitExceeded) as refused:
        answer_to(BOOK, lying(stay_of(10 / 1440), percent=20, ppm=130))

    floor = next(one for one in refused.value.findings if one.bound == "minimum" and one.verdict == "not_met")
    share = block_share(10 / 1440, WATER_KG / (0.75 * MEAT_KG))
    assert floor.figure is not None
    assert floor.figure == pytest.approx(130 / 0.2 * 3.3 / 8.8 * share, rel=0.05)


def test_cold_is_not_credited() -> None:
    """A cabinet at -1 degC is reckoned as one at 5: doors are opened."""
    assert guard_of(lying(stay_of(2, cold_c=-1))).figure == guard_of(lying(stay_of(2, cold_c=5))).figure


def test_what_is_flat_is_taken_for_a_bar() -> None:
    """As wide as it is thick, which takes up more than any other piece of that thickness and weight."""
    long_mm = MEAT_KG * 1e6 / 1.06 / 110**2
    flat = {"kind": "slab", "thickness": amount(110, "mm")}
    bar = {**SLAB, "width": amount(110, "mm"), "length": amount(long_mm, "mm")}

    figures = [guard_of(lying(stay_of(2, shape))).figure or 0.0 for shape in (flat, bar, SLAB)]

    assert figures[0] == pytest.approx(figures[1], rel=1e-6)
    assert figures[0] > figures[2]


def test_nothing_that_is_stated_of_a_piece_talks_it_over_the_limit() -> None:
    """Closed faces and a size beyond its weight gain nothing; the number of pieces is never assumed."""
    closed = {**SLAB, "open_faces": {"top_and_bottom": 0, "sides": 0, "ends": 1}}
    bigger = {**SLAB, **{name: amount(SLAB[name]["value"] * 1.15, "mm") for name in ("thickness", "width", "length")}}

    figures = [guard_of(lying(stay_of(2, shape))).figure or 0.0 for shape in (SLAB, closed, bigger)]

    assert figures[1] == figures[0]
    assert figures[2] >= figures[0] * 0.98
    with pytest.raises(ValidationError):
        answer_to(BOOK, lying({name: value for name, value in stay_of(2).items() if name != "pieces"}))


def test_two_thin_pieces_take_up_more_than_one_thick_one() -> None:
    """A sphere of all the meat, and two of half of it each."""
    one = {"kind": "sphere", "diameter": amount(214, "mm")}
    half = {"kind": "sphere", "diameter": amount(170, "mm")}

    assert (guard_of(lying(stay_of(1, half, pieces=2))).figure or 0) > (guard_of(lying(stay_of(1, one))).figure or 0)


def covered(stay: Body | None) -> Body:
    """Pumped to 8 percent, then covered, 7 percent taken up; the same loin."""
    cover = {"kind": "pick_up", "percent": 7, **({"stay": stay} if stay else {})}
    method = {"kind": "injected_then_covered", "pump_percent": 8, "water": amount(2.2, "kg"), "cover": cover}
    return lying(None, method=method, ppm=125)


def test_a_cover_begins_where_the_pump_ends() -> None:
    """A pumped piece holds the pump at once, and goes the rest of its way to the whole system (a linear relaxation)."""
    answer = answer_to(BOOK, covered(stay_of(1)))
    system_ppm, pump_ppm = whole_system_ppm(answer), answer.figures.ingoing_nitrite.value * 8 / 15
    pumped_kg = 0.08 * MEAT_KG
    share = block_share(1, (2.2 - pumped_kg) / (0.75 * MEAT_KG + pumped_kg))

    figure = guard_in(answer.findings).figure

    assert GUARD in refusing(BOOK, covered(None))
    assert figure == pytest.approx(pump_ppm + share * (system_ppm - pump_ppm), rel=1e-3)


def test_the_other_guards_stay_on_the_whole_system(book: RuleBook) -> None:
    """An hour in the pickle moves neither the stop at 650 ppm, nor the strength of the pickle, nor a floor."""
    hour = stay_of(1 / 24)

    assert "guard-meat-nitrite-stop" in refusing(book, lying(hour, percent=8, ppm=150))
    assert "guard-pickle-strength" in refusing(book, lying(hour, percent=4, ppm=180))
    assert refusing(book, lying(hour, percent=40, ppm=125, water_kg=2.0)) == {"us-nitrite-keeprefrigerated-min"}


LOADS = """
import json, sys
from service.calculations.curing.dose import DoseRequest, dose
from service.rules.loader import load_book
dose(DoseRequest.model_validate(json.loads(sys.argv[1])), load_book("test"))
print("numpy" in sys.modules)
"""


def ask(body: Body) -> str:
    """Whether a fresh interpreter has numpy after this dose."""
    command = [sys.executable, "-c", LOADS, json.dumps(body)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.strip()


@pytest.mark.parametrize(("stay", "loaded"), [(None, "False"), (stay_of(200), "True")])
def test_numpy_is_loaded_for_a_stay_alone(stay: Body | None, loaded: str) -> None:
    """A dose without one stays as light as it was."""
    body = lying(stay, percent=45, ppm=150)

    assert ask(body) == loaded
