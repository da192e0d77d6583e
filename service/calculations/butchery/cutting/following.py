"""What follows from a cutting test: what is to be weighed still, what goes on, and which record is due."""

from collections.abc import Iterator
from math import fsum

from service.calculations.butchery.cutting.closing import verdict_of
from service.calculations.butchery.cutting.parts import CutUp
from service.calculations.butchery.cutting.told import CuttingNote, listed, note, said
from service.quantities.quantity import Units
from service.rules.cut import Cut
from service.rules.vocabulary import Animal

FOLLOWS = {
    "weigh_the_rest": "Parts were not weighed; weigh them, and the test can be told.",
    "green_weight_for_the_cure": "The green weight that goes into a cure; not told where the test does not close.",
    "grinding_record_due": "Beef is ground raw: in the United States a grinding record is due where it is sold.",
    "grinding_record_ask": "Something is ground raw of which it is not known whether a grinding record is due.",
    "grinding_record_house_rule": "What is ground raw is no beef: a grinding record is kept by house rule alone.",
}

RECORD_ASKED = ("grinding_record_due", "grinding_record_ask")


def follows_of(test: CutUp, grinding: CuttingNote | None, units: Units) -> Iterator[CuttingNote]:
    """What is to be done next. A weight out of a test that does not close goes into no cure."""
    if test.unweighed:
        yield note("weigh_the_rest", f"Weigh {listed(test.unweighed)}.", *test.unweighed)
    cured = [part for part in test.parts if part.stated.use == "cure"]
    if cured and all(part.g is not None for part in cured) and verdict_of(test)[0] != "not_met":
        green = said(fsum(part.g or 0.0 for part in cured), units)
        message = f"{green} go into the cure: the green weight for POST /v1/curing/dose."
        yield note("green_weight_for_the_cure", message, *(part.stated.name for part in cured))
    if grinding:
        yield grinding


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
    message = f"No law asks for a grinding record of {what}; keep one by house rule, so that a lot can be traced."
    return note("grinding_record_house_rule", message, *ground)
