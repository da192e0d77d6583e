"""POST /v1/butchery/cut-test: what a piece was cut into, and whether the parts come to what was bought."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.butchery.cutting.closing import (
    CLOSURES,
    USUAL_TOLERANCE_PERCENT,
    Closure,
    closure_of,
)
from service.calculations.butchery.cutting.comparing import each_piece, shares_of
from service.calculations.butchery.cutting.confusions import CALL_OUTS, confusions_in
from service.calculations.butchery.cutting.explaining import sources_of, steps_of
from service.calculations.butchery.cutting.following import FOLLOWS, follows_of, grinding_record, may_hold
from service.calculations.butchery.cutting.naming import REASONS, cut_named
from service.calculations.butchery.cutting.parts import MOST_PARTS, CutUp, Part, StatedPart, cut_up
from service.calculations.butchery.cutting.told import (
    Balance,
    ComparedShare,
    CutNamed,
    CuttingNote,
    EachPiece,
    PartTold,
    UseTotal,
    Yields,
    share_percent,
    weight_of,
)
from service.calculations.butchery.cutting.totalling import balance_of, by_use, yields_of
from service.calculations.butchery.cutting.warning import cautions_for
from service.calculations.declaration import Calculation
from service.quantities.models import Answer, HowMany, IfStated, Name, Request, made
from service.quantities.quantity import Mass, Units
from service.rules.book import Engine, RuleBook
from service.rules.cut import Cut
from service.rules.rule import Caution
from service.rules.vocabulary import Animal

TolerancePercent = Annotated[float, Field(ge=0.01, le=20)]


class CutTestRequest(Request):
    """A piece as it was bought, and everything that it was cut into."""

    purchased: Mass
    """Weight as purchased, without its packing: everything that was cut up."""
    pieces: IfStated[HowMany] = None
    """How many pieces that was."""
    cut: IfStated[Name] = None
    """Id of the cut in GET /v1/cuts, to hold the parts against what is published; any other is refused."""
    animal: IfStated[Animal] = None
    """The animal or bird, where no cut is named; records and cautions hang on it."""
    parts: Annotated[list[StatedPart], Field(min_length=1, max_length=MOST_PARTS)]
    """Everything that came off it: what is used, what is thrown away, and losses that were weighed."""
    tolerance_percent: IfStated[TolerancePercent] = None
    """How much of the purchase may be missing or too much, 0.01 to 20 percent; left out, 2 (common practice)."""
    scale_step: IfStated[Mass] = None
    """The smallest step of the scale that everything was weighed on: less than its steps can tell is no loss."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the sources."""


class CutTestAnswer(Answer):
    """Shares, totals by use, the closure of the test, and what looks wrong or is due."""

    cut: CutNamed | None
    """The cut; null where none was named."""
    each: EachPiece | None
    """What one piece weighs; null where their number was not stated."""
    parts: tuple[PartTold, ...]
    """Each part, in the order stated."""
    by_use: tuple[UseTotal, ...]
    """The parts by what becomes of them."""
    yields: Yields
    """Meat, all that is usable, waste and weighed losses, of what was bought."""
    balance: Balance
    """The same in grams, unrounded: parts, losses and what is not accounted for are what was bought."""
    closure: Closure
    """Whether parts and losses come to what was bought."""
    call_outs: tuple[CuttingNote, ...]
    """What looks like a slip. GET /v1/calculations lists the codes."""
    follows: tuple[CuttingNote, ...]
    """What is to be done next."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you cut the next one."""
    sources: tuple[str, ...]
    """Where published shares and rules are printed; empty in brief."""
    engine: Engine
    """What computed this."""


def cut_test(request: CutTestRequest, book: RuleBook) -> CutTestAnswer:
    """What a piece was cut into, as shares of what was bought, and whether the parts come to the whole.

    State each part with what becomes of it and its weighings, one or many, in any units. A part without a weight was
    not weighed: that is not none, and nothing is then said of the rest but what it can be at most. With the id of a cut
    (`GET /v1/cuts`) each part whose make-up is stated is held against the shares that are published.

    `closure` is `met`, `not_met` or `cannot_tell`; too much is told apart from too little, and with the step of the
    scale a difference that it cannot show is never called a loss. `call_outs` name slips, such as a unit that would
    close the test. It judges the weighings, not the meat, and nothing is priced here. Your local code and your
    inspector come before this answer.
    """
    full = request.detail == "full"
    cut = cut_named(book, request.cut, request.animal) if request.cut is not None else None
    tolerance_percent = request.tolerance_percent
    test = cut_up(
        request.purchased, request.parts, request.scale_step,
        tolerance_fraction=(USUAL_TOLERANCE_PERCENT if tolerance_percent is None else tolerance_percent) / 100,
    )  # fmt: skip
    shares = shares_of(test, cut, full=full) if cut else ()
    animals = frozenset(one for one in (request.animal, cut.animal if cut else None) if one)
    grinding = grinding_record(test, cut, animals)
    each = each_piece(test, request.pieces, cut, request.units, full=full) if request.pieces else None
    closure = closure_of(test, request.units, tolerance_percent=tolerance_percent)
    call_outs = tuple(confusions_in(test, cut, request.animal, request.pieces, request.units))
    return made(
        CutTestAnswer,
        cut=_named(cut),
        each=each,
        parts=tuple(_told(part, test, shares, request.units) for part in test.parts),
        by_use=by_use(test, request.units),
        yields=yields_of(test, request.units),
        balance=balance_of(test),
        closure=closure,
        call_outs=call_outs,
        follows=tuple(follows_of(test, may_hold(test, cut, shares), call_outs, grinding, request.units)),
        steps=steps_of(test, shares) if full else (),
        cautions=book.cautions_of(cautions_for(test, animals, grinding)),
        sources=sources_of(shares, each, closure, grinding) if full else (),
        engine=book.engine,
    )


def _named(cut: Cut | None) -> CutNamed | None:
    if cut is None:
        return None
    return made(
        CutNamed, id=cut.id, name=cut.name, item_number=cut.item_number, animal=cut.animal, bone_in=cut.bone_in
    )  # fmt: skip


def _told(part: Part, test: CutUp, shares: tuple[ComparedShare, ...], units: Units) -> PartTold:
    stated, mass_g = part.stated, part.g
    weighed = mass_g is not None
    return made(
        PartTold,
        name=stated.name,
        use=stated.use,
        what=stated.what,
        weighings=len(stated.weights),
        weight=weight_of(mass_g, units) if mass_g is not None else None,
        at_most=weight_of(test.left_over_g, units) if not weighed and test.bounds_hold else None,
        of_purchased_percent=share_percent(mass_g, whole_g=test.purchased_g) if mass_g is not None else None,
        of_weighed_percent=share_percent(mass_g, whole_g=test.parts_g + test.loss_g) if mass_g is not None else None,
        published=tuple(share for share in shares if stated.what in share.consists_of),
    )


CUT_TEST = Calculation(
    name="butchery/cut-test",
    summary="Cutting test",
    request=CutTestRequest,
    answer=CutTestAnswer,
    run=cut_test,
    reasons=REASONS,
    codes=CLOSURES | CALL_OUTS | FOLLOWS,
)
