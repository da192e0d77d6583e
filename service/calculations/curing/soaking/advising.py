"""What else helps a piece that is too salty."""

from service.calculations.curing.soaking.telling import Hours
from service.calculations.curing.soaking.waters import Soak
from service.calculations.curing.timing.wording import length_text
from service.calculations.remarks import Advice, advise
from service.quantities.quantity import Units

CODES = {
    "cut_thinner": "In a flat piece half the way takes a quarter of the hours.",
    "taste_a_slice": "Taste a slice cut from face to face, after a rest.",
    "weigh_the_next_cure": "The next piece is cured by weight, so that it cannot grow too salty.",
}
LONG_H = 24.0


def advice_for(soak: Soak, hours: Hours, units: Units) -> tuple[Advice, ...]:
    """All that applies."""
    slices = length_text(soak.piece.axes[0].reach_mm, units)
    thinner = f"Cut it into slices no thicker than {slices}, open on both sides. {CODES['cut_thinner']}"
    return tuple(
        advise(code, text)
        for code, applies, text in (
            ("cut_thinner", hours.high > LONG_H, thinner),
            ("taste_a_slice", True, _TASTE),
            ("weigh_the_next_cure", True, _WEIGH),
        )
        if applies
    )


_TASTE = (
    "Salt leaves from the outside, and the middle is still as it was. Let the piece rest for a day or two, then fry a "
    "slice cut from face to face and taste that."
)
_WEIGH = "Weigh the next cure for the meat, with POST /v1/curing/dose: such a piece cannot grow saltier than its dose."
