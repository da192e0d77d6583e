"""What a cook may do about a cure time: inject, open a face, let it even out."""

from service.calculations.curing.pieces import Piece
from service.calculations.curing.timing.setting import TimedStage
from service.calculations.curing.timing.stages import Injection
from service.calculations.curing.timing.telling import Days
from service.quantities.models import Answer, made

INJECT_FROM_MM = 75.0
"""Pieces from about three inches on are injected (common practice, no source)."""
LONG_D = 30.0
"""Beyond this a cure is worth another method (own bound)."""

CODES = {
    "inject_thick_piece": "So thick that it is better injected.",
    "sealed_face_slows": "Skin or a fat cap on one side makes the way twice as long and the days four times as many.",
    "let_it_even_out": "From a strong bath it is taken out early and rested, so that salt evens out.",
    "long_cure": "The slow reading is beyond a month.",
    "pull_window_closed": "It may be too salty on the whole before its centre is cured through.",
    "needles_even_out": "Between the stitches salt evens out within this time.",
}


class Advice(Answer):
    """Something worth doing."""

    code: str
    """Stable code, for translation."""
    text: str
    """In words."""


def advice_for(
    piece: Piece, stages: tuple[TimedStage, ...], days: Days, injection: Injection | None, *, window_closed: bool
) -> tuple[Advice, ...]:
    """All that applies."""
    return tuple(
        made(Advice, code=code, text=text)
        for code, applies, text in (
            ("inject_thick_piece", piece.thickness_mm > INJECT_FROM_MM and injection is None, _inject(piece)),
            ("sealed_face_slows", _sealed(piece), _SEALED),
            ("let_it_even_out", stages[-1].stage.kind == "endless_brine", _EVEN_OUT),
            ("long_cure", days.high > LONG_D, _LONG),
            ("pull_window_closed", window_closed, _CLOSED),
        )
        if applies
    )


def _sealed(piece: Piece) -> bool:
    return any(axis.plain == "slab" and axis.reach_mm >= piece.thickness_mm for axis in piece.axes[:1])


def _inject(piece: Piece) -> str:
    return (
        f"It is {piece.thickness_mm:.4g} mm thick. Pieces of more than about {INJECT_FROM_MM:g} mm are better "
        "injected: ask POST /v1/curing/dose with a method of injected."
    )


_SEALED = (
    "One broad side is closed by skin or fat: the way in is the whole thickness, and the days are four times those of "
    "the same piece open on both sides. Take the skin or cap off where the product allows it."
)
_EVEN_OUT = (
    "A brine that keeps its strength goes on salting. Weigh a brine for the meat at hand instead, or take the piece "
    "out early and let it rest: add a stage of rest to see the salt even out."
)
_LONG = (
    "By the slow reading this takes more than a month. Cut thinner pieces, inject, or ask somebody who has cured this "
    "piece before."
)
_CLOSED = (
    "By the quick reading the piece is as salty as you allow before the centre has arrived by the slow one. Use a "
    "weaker or smaller brine, a weighed dry cure, or take it out early and let it rest."
)
