"""What a cook may do about a cure time: inject, open a face, let it even out."""

from service.calculations.curing.pieces import Piece
from service.calculations.curing.timing.planning import Plan
from service.calculations.curing.timing.targets import Target
from service.calculations.curing.timing.telling import Days
from service.calculations.curing.timing.wording import length_text
from service.calculations.remarks import Advice, advise
from service.quantities.quantity import Units

INJECT_FROM_MM = 75.0
"""Pieces from about three inches on are injected (common practice, no source)."""
LONG_D = 30.0
"""Beyond this a cure is worth another method (own bound)."""

CODES = {
    "inject_thick_piece": "So thick that it is better injected.",
    "sealed_face_slows": "Skin or a fat cap on one side makes the way twice as long and the days four times as many.",
    "let_it_even_out": "From a strong bath it is taken out early and rested, so that salt evens out.",
    "name_the_centre_salt": "A share of the final salt is a poor target here: state what the centre is to have.",
    "long_cure": "The slow reading is beyond a month.",
    "pull_window_closed": "It may be too salty on the whole before its centre is cured through.",
}


def advice_for(plan: Plan, target: Target, days: Days, units: Units, *, window_closed: bool) -> tuple[Advice, ...]:
    """All that applies."""
    thick = plan.piece.thickness_mm > INJECT_FROM_MM and plan.injection is None
    shared = target.kind == "share_of_final" and (plan.last.kind == "endless_brine" or _is_covered(plan))
    return tuple(
        advise(code, text)
        for code, applies, text in (
            ("inject_thick_piece", thick, _inject(plan.piece, units)),
            ("sealed_face_slows", _sealed(plan.piece), _SEALED),
            ("let_it_even_out", plan.last.kind == "endless_brine", _EVEN_OUT),
            ("name_the_centre_salt", shared, _NAME),
            ("long_cure", days.high > LONG_D, _LONG),
            ("pull_window_closed", window_closed, _CLOSED[plan.last.kind]),
        )
        if applies
    )


def _is_covered(plan: Plan) -> bool:
    """Whether a pumped piece gets more salt from outside."""
    return plan.injection is not None and any(one.stage.kind != "rest" for one in plan.stages)


def _sealed(piece: Piece) -> bool:
    return any(axis.plain == "slab" and axis.reach_mm >= piece.thickness_mm for axis in piece.axes[:1])


def _inject(piece: Piece, units: Units) -> str:
    thickness, most = (length_text(length_mm, units) for length_mm in (piece.thickness_mm, INJECT_FROM_MM))
    return (
        f"It is {thickness} thick. Pieces of more than about {most} are better injected: ask POST /v1/curing/dose with "
        "a method of injected."
    )


_SEALED = (
    "Skin or fat closes a side, so the way in is at least the whole thickness. Days go by the square of the way: up to "
    "four times those of the same piece open on both sides. Take the skin or cap off where the product allows it."
)
_EVEN_OUT = (
    "A brine that keeps its strength goes on salting. Weigh a brine for the meat at hand instead, or take the piece "
    "out early and let it rest: add a stage of rest to see the salt even out."
)
_NAME = (
    "The days are for a share of what everything comes to, which is far saltier than a centre has to be here. State a "
    "target of kind centre_salt with the percent that it is to have."
)
_LONG = (
    "By the slow reading this takes more than a month. Cut thinner pieces or inject, and ask your inspector or whoever "
    "answers for your kitchen before so long a cure."
)
_TOO_SALTY = "By the quick reading the piece is as salty as you allow before the centre has arrived by the slow one. "
_CLOSED = {
    "dry": _TOO_SALTY + "Use less salt: nothing of a rub is left behind.",
    "brine": _TOO_SALTY + "Use a weaker or a smaller brine, or a weighed rub.",
    "endless_brine": _TOO_SALTY + "Weigh a brine or a rub for the meat, or take it out early and add a stage of rest.",
    "rest": _TOO_SALTY + "Shorten or weaken the stages before the rest.",
}
