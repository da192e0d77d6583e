"""What a piece weighs against its green weight, as the standards of identity reckon it."""

import pytest

from service.calculations.curing.on_green import finished_percent, gained_percent


@pytest.mark.parametrize(("green_lb", "cured_lb", "percent"), [(10, 12, 20), (8, 8.8, 10), (10, 9.5, -5), (7, 7, 0)])
def test_a_gain_is_of_the_fresh_piece(green_lb: float, cured_lb: float, percent: float):
    """9 CFR 319.100 to 319.103: by the weight of the fresh uncured piece; the last bits are not cut off."""
    assert gained_percent(green_lb, cured_g=cured_lb) == pytest.approx(percent, rel=1e-12)


def test_nothing_is_rounded_before_it_is_judged():
    """A gain of ten percent and a thousandth of a billionth is told apart from ten."""
    assert gained_percent(1.0, cured_g=1.1 + 1e-13) > gained_percent(1.0, cured_g=1.1)


@pytest.mark.parametrize(("green_lb", "finished_lb", "percent"), [(10, 8.5, 85), (20, 16.4, 82), (3, 3, 100)])
def test_a_finished_weight_is_of_the_fresh_piece(green_lb: float, finished_lb: float, percent: float):
    """9 CFR 319.106(c)(7): a ham of 20 lb has lost 18 percent at 16.4."""
    assert finished_percent(green_lb, finished_g=finished_lb) == pytest.approx(percent, rel=1e-12)


def test_no_green_weight_is_no_figure():
    """A piece without a weight cannot be compared."""
    with pytest.raises(ZeroDivisionError):
        gained_percent(0.0, cured_g=1.0)
    with pytest.raises(ZeroDivisionError):
        finished_percent(0.0, finished_g=1.0)
