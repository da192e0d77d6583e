"""What follows from a cutting test: what is to be weighed still, what goes on, and which record is due."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.confusions import DOUBTFUL
from service.calculations.butchery.cutting.parts import CutUp, Part, resolution_g
from service.calculations.butchery.cutting.told import ComparedShare, CuttingNote, note
from service.calculations.butchery.cutting.wording import listed, said
from service.quantities.quantity import Units
from service.rules.cut import Cut, PartKind
from service.rules.vocabulary import Animal

FOLLOWS = {
    "weigh_the_rest": "Parts were not weighed; weigh them, and the test can be told.",
    "meat_for_the_cure": "The weight of a part that goes into a cure, for a dose of its own; not told out of doubt.",
    "weight_not_told": "Why no weight is handed on to a cure.",
    "ask_about_skin_or_bone": "Skin or bone may be in what goes into a cure, and a dose asks for it.",
    "grinding_record_due": "Beef is ground raw: in the United States a grinding record is due where it is sold.",
    "grinding_record_ask": "Something is ground raw of which it is not known whether a grinding record is due.",
    "grinding_record_house_rule": "Another animal is ground raw: a grinding record is due only with beef in it.",
}

NO_MEAT: tuple[PartKind, ...] = ("skin", "bone")
ABOUT_SKIN = "For bacon with its skin on POST /v1/curing/dose takes skin on, and skin_free."
RECORD_ASKED = ("grinding_record_due", "grinding_record_ask")


COARSE_FRACTION = 0.1
"""Of a part: where the steps of the scale may be more of it than this, its weight is not told (own bound)."""


def follows_of(
    test: CutUp, held: frozenset[PartKind], call_outs: tuple[CuttingNote, ...], grinding: CuttingNote | None,
    units: Units,
) -> Iterator[CuttingNote]:  # fmt: skip
    """What is to be done next. A weight of which there is doubt goes into no cure. held: see may_hold."""
    if test.unweighed:
        yield note("weigh_the_rest", f"Weigh {listed(test.unweighed)}.", *test.unweighed)
    cured = [part for part in test.parts if part.stated.use == "cure" and part.g]
    if why := _why_not(test, call_outs):
        names = tuple(dict.fromkeys(part.stated.name for part in cured))
        yield from (note("weight_not_told", f"No weight goes on to a cure: {why}.", *names) for _ in cured[:1])
    else:
        yield from (_for_the_cure(part, test, held, call_outs, units) for part in cured)
    if grinding:
        yield grinding


def _why_not(test: CutUp, call_outs: tuple[CuttingNote, ...]) -> str:
    """What all weights are in doubt for; empty where they are not."""
    codes = tuple(dict.fromkeys(one.code for one in call_outs if one.code in DOUBTFUL))
    if codes:
        return f"look at {listed(codes)} in call_outs first"
    return "" if test.bounds_hold else "nothing shows that what was weighed comes to what was bought"


def _for_the_cure(
    part: Part, test: CutUp, held: frozenset[PartKind], call_outs: tuple[CuttingNote, ...], units: Units
) -> CuttingNote:
    """Each part by itself: two products are two doses."""
    name, weighs = part.stated.name, said(part.g or 0.0, units)
    off_g = resolution_g(test.step_g, weighings=len(part.stated.weights))
    if any(one.code == "part_stated_twice" and name in one.parts for one in call_outs):
        return note("weight_not_told", f"{name}, {weighs}: perhaps it was written down twice.", name)
    if off_g > COARSE_FRACTION * (part.g or 0.0):
        coarse = f"{name}, {weighs}: the steps of the scale may be {said(off_g, units)} of it. Take a finer scale."
        return note("weight_not_told", coarse, name)
    return _as_meat(part, held, name, weighs)


def _as_meat(part: Part, held: frozenset[PartKind], name: str, weighs: str) -> CuttingNote:
    if part.stated.what in NO_MEAT:
        message = f"{name}, {weighs}, is {part.stated.what}, and no weight of meat. {ABOUT_SKIN}"
        return note("ask_about_skin_or_bone", message, name)
    if held:
        what = "skin" if "skin" in held else "bone"
        message = f"{name} weighs {weighs}. Is {what} in it? Then that is no weight of meat. {ABOUT_SKIN}"
        return note("ask_about_skin_or_bone", message, name)
    message = f"{name}: {weighs} is the weight of the meat for a dose of its own (POST /v1/curing/dose)"
    return note("meat_for_the_cure", f"{message}, if no skin or bone is in it.", name)


def may_hold(test: CutUp, cut: Cut | None, shares: tuple[ComparedShare, ...]) -> frozenset[PartKind]:
    """Skin or bone that may still be in the meat: no part is made of it, or less than is published of such parts.

    Birds are cured in their skin.
    """
    if cut is None or all(part.stated.use != "cure" for part in test.parts):
        return frozenset()
    found: set[PartKind] = set()
    if cut.has_skin and cut.animal == "pork" and (not test.skin_apart or _is_few("skin", shares)):
        found.add("skin")
    if cut.bone_in and (not test.bone_apart or (_is_few("bone", shares) and not test.bone_may_be_elsewhere)):
        found.add("bone")
    return frozenset(found)


def _is_few(kind: PartKind, shares: tuple[ComparedShare, ...]) -> bool:
    """Whether less is stated of it than is published, and by no share enough."""
    lies = {one.lies for one in shares if kind in one.consists_of}
    return "below" in lies and lies.isdisjoint(("within", "above"))


def grinding_record(test: CutUp, cut: Cut | None, animals: frozenset[Animal]) -> CuttingNote | None:
    """Whether a record of the grinding is due; None where nothing is ground."""
    ground = tuple(part.stated.name for part in test.parts if part.stated.use == "grind")
    if not ground:
        return None
    what, raw = listed(ground), cut is None or cut.kind != "product"
    if "beef" in animals and raw:
        message = f"Write the grinding record for {what} (9 CFR 320.1(b)(4)), lot by lot from clean-up to clean-up."
        return note("grinding_record_due", message, *ground)
    if not animals or animals & {"beef", "veal"}:
        message = f"If there is raw beef in {what}, a grinding record is due (9 CFR 320.1(b)(4)); ask your inspector."
        return note("grinding_record_ask", message, *ground)
    message = (
        f"9 CFR 320.1(b)(4) asks for no grinding record of {what} where there is no beef in it; your local code may."
    )
    return note("grinding_record_house_rule", f"{message} Keep one by house rule.", *ground)
