"""What else helps a piece that is too salty."""

from service.calculations.curing.soaking.telling import Hours
from service.calculations.curing.soaking.waters import Soak
from service.calculations.curing.timing.advising import Advice
from service.quantities.models import made

CODES = {
    "cut_thinner": "In a flat piece half the way takes a quarter of the hours.",
    "taste_a_slice": "Fry a slice from the middle and taste it.",
    "weigh_the_next_cure": "The next piece is cured by weight, so that it cannot grow too salty.",
}
LONG_H = 24.0


def advice_for(soak: Soak, hours: Hours) -> tuple[Advice, ...]:
    """All that applies."""
    half_mm = soak.piece.axes[0].reach_mm / 2
    thinner = f"Cut it so that no place lies deeper than {half_mm:.3g} mm. {CODES['cut_thinner']}"
    return tuple(
        made(Advice, code=code, text=text)
        for code, applies, text in (
            ("cut_thinner", hours.high > LONG_H, thinner),
            ("taste_a_slice", True, "Fry a slice from the middle of the piece and taste it before you go on."),
            ("weigh_the_next_cure", True, _WEIGH),
        )
        if applies
    )


_WEIGH = "Weigh the next cure for the meat, with POST /v1/curing/dose: such a piece cannot grow saltier than its dose."
