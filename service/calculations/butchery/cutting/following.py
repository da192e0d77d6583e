"""What follows from a cutting test: what is to be weighed still, what goes on, and which record is due."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.confusions import DOUBTFUL
from service.calculations.butchery.cutting.parts import CutUp, Part
from service.calculations.butchery.cutting.told import CuttingNote, listed, note, said
from service.quantities.quantity import Units
from service.rules.cut import Cut, PartKind
from service.rules.vocabulary import Animal

FOLLOWS = {
    "weigh_the_rest": "Parts were not weighed; weigh them, and the test can be told.",
    "meat_for_the_cure": "The weight of a part that goes into a cure, for a dose of its own; not told out of doubt.",
    "ask_about_skin_or_bone": "Skin or bone may be in what goes into a cure, and a dose asks for it.",
    "grinding_record_due": "Beef is ground raw: in the United States a grinding record is due where it is sold.",
    "grinding_record_ask": "Something is ground raw of which it is not known whether a grinding record is due.",
    "grinding_record_house_rule": "Another animal is ground raw: a grinding record is due only with beef in it.",
}

NO_MEAT: tuple[PartKind, ...] = ("skin", "bone")
ABOUT_SKIN = "For bacon with its skin on POST /v1/curing/dose takes skin on, and skin_free."
RECORD_ASKED = ("grinding_record_due", "grinding_record_ask")


def follows_of(
    test: CutUp, cut: Cut | None, call_outs: tuple[CuttingNote, ...], grinding: CuttingNote | None, units: Units
) -> Iterator[CuttingNote]:
    """What is to be done next. A weight of which there is doubt goes into no cure."""
    if test.unweighed:
        yield note("weigh_the_rest", f"Weigh {listed(test.unweighed)}.", *test.unweighed)
    if test.bounds_hold and DOUBTFUL.isdisjoint(one.code for one in call_outs):
        yield from (
            _for_the_cure(part, test, cut, units) for part in test.parts if part.stated.use == "cure" and part.g
        )
    if grinding:
        yield grinding


def _for_the_cure(part: Part, test: CutUp, cut: Cut | None, units: Units) -> CuttingNote:
    """Each part by itself: two products are two doses."""
    name, weighs = part.stated.name, said(part.g or 0.0, units)
    if part.stated.what in NO_MEAT:
        message = f"{name}, {weighs}, is {part.stated.what}, and no weight of meat. {ABOUT_SKIN}"
        return note("ask_about_skin_or_bone", message, name)
    if held := _may_hold(test, cut):
        message = f"{name} weighs {weighs}. Is {held} in it? Then that is no weight of meat. {ABOUT_SKIN}"
        return note("ask_about_skin_or_bone", message, name)
    message = f"{name}: {weighs} is the weight of the meat for a dose of its own (POST /v1/curing/dose)"
    return note("meat_for_the_cure", f"{message}, if no skin or bone is in it.", name)


def _may_hold(test: CutUp, cut: Cut | None) -> str:
    """Skin or bone that the cut has, and that no part of its own is made of. Birds are cured in their skin."""
    if cut and cut.has_skin and cut.animal == "pork" and not test.skin_apart:
        return "skin"
    return "bone" if cut and cut.bone_in and not test.bone_apart else ""


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
