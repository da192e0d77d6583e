"""What a person should look at: animals that the class of sausage does not hold, what several animals ask for, salt."""

from collections.abc import Iterator

from service.calculations.butchery.blending.batch import UNCURED, SausageClass
from service.calculations.butchery.blending.finishing import Mixed, salt_inside_g
from service.calculations.butchery.blending.limits import Limit, PerMaterial
from service.calculations.remarks import CallOut, call
from service.rules.finding import Finding
from service.rules.vocabulary import BIRDS, Animal
from service.rules.wording import told_apart

HAIR = 1e-9
"""Salt that is over by no more than this share is what was asked for."""
CODES = {
    "several_animals": "Meat of several animals: each is named on the label, the most first.",
    "poultry_with_meat": "Raw poultry with other meat: the cooking asked of poultry is asked of all of it.",
    "passed_by_rounding": "In whole steps of the scale a limit that is asked for is passed.",
    "animal_not_of_class": "The class of sausage does not hold meat of this animal.",
    "no_rule_held": "No limit on fat or water of this class of sausage is held for the place and day.",
    "cured_before": "A material was cured before: it holds nitrite, how much is not known.",
    "cured_not_of_class": "The class of sausage holds no cured meat.",
    "cured_in_name": "Cured, it has to be called so.",
    "salt_already_inside": "The materials, with the curing salt, bring more salt than is asked for.",
}
MEATS: frozenset[Animal] = frozenset({"beef", "veal", "pork", "lamb", "goat"})
"""What is meat in 9 CFR 301.2 (from memory); game and poultry are not."""
HOLDS: dict[SausageClass, frozenset[Animal]] = {
    "fresh_pork_sausage": frozenset({"pork"}),
    "whole_hog_sausage": frozenset({"pork"}),
    "smoked_pork_sausage": frozenset({"pork"}),
    "fresh_beef_sausage": frozenset({"beef"}),
    "ground_beef": frozenset({"beef"}),
    "italian_sausage": frozenset({"pork", "beef", "veal"}),
    "breakfast_sausage": MEATS,
    "frankfurter_type": MEATS | BIRDS,
}
"""Of which animals a class consists: 9 CFR 319.15(a), 319.141, 319.142, 319.144, 319.160 (read or reported); 319.145,
with pork for the plain name and beef or veal where it says so (reported); 319.143 and 319.180(a), the one of meat, the
other of meat and a little poultry (reported). Cooked sausage without a standard of its own may be of anything."""


def call_outs_of_block(animals: frozenset[Animal], cured: tuple[str, ...]) -> Iterator[CallOut]:
    """What the animals of a block, and what was cured before, ask for, whatever becomes of it."""
    if len(animals) > 1:
        yield call("several_animals", CODES["several_animals"])
    if animals & BIRDS and animals - BIRDS:
        yield call("poultry_with_meat", CODES["poultry_with_meat"])
    if cured:
        yield call(
            "cured_before",
            f"{', '.join(cured)}: cured before, so this block holds nitrite, and how much is not known. Add no curing "
            "salt to it; its label names it as cured.",
        )


def call_outs_of_scale(passed: tuple[Limit, ...], weighed: PerMaterial) -> Iterator[CallOut]:
    """Limits of the request that the blend keeps only before it is rounded."""
    for limit in passed:
        figure, value = limit.figure(weighed), f"{limit.bound.replace('_', ' ')} {limit.value:.6g} {limit.unit}"
        comes_to = "nothing" if figure is None else f"{told_apart(figure, limit=limit.value)} {limit.unit}"
        message = f"In whole steps of the scale, {limit.words} comes to {comes_to}; {value} is asked for."
        yield call("passed_by_rounding", f"{message} Take a finer scale, or ask for a little less.")


def call_outs_of_batch(mixed: Mixed, findings: tuple[Finding, ...]) -> Iterator[CallOut]:
    """What the class of sausage and the salt ask for."""
    named = mixed.batch.sausage_class
    for animal in sorted(mixed.animals - HOLDS[named]) if named in HOLDS else ():
        yield call("animal_not_of_class", f"{str(named).replace('_', ' ')} does not hold {animal.replace('_', ' ')}.")
    if named and not findings:
        yield call("no_rule_held", f"{CODES['no_rule_held']} That is no permission: ask the authority there.")
    yield from _on_cure(mixed)
    yield from _on_salt(mixed)


def _on_cure(mixed: Mixed) -> Iterator[CallOut]:
    """What is cured, or holds what was, is not sold as fresh."""
    named, holds_cured = mixed.batch.sausage_class, any(each.cured for each in mixed.of_used().materials)
    if named in UNCURED and holds_cured:
        yield call("cured_not_of_class", f"{str(named).replace('_', ' ')} holds no cured meat.")
    if named == "italian_sausage" and (holds_cured or mixed.cure):
        yield call("cured_in_name", "Cured Italian sausage has the word cured in its name: 9 CFR 319.145(a)(4).")


def _on_salt(mixed: Mixed) -> Iterator[CallOut]:
    asked_percent, inside_g = mixed.batch.salt_percent, salt_inside_g(mixed.materials, mixed.amounts_g)
    reached_percent = 100 * mixed.salt_g / mixed.block_g
    if (
        asked_percent is not None
        and inside_g
        and not mixed.added_g("salt")
        and reached_percent > asked_percent * (1 + HAIR)
    ):
        yield call(
            "salt_already_inside",
            f"The salt comes to {told_apart(reached_percent, limit=asked_percent)} percent of the block, and "
            f"{asked_percent:g} were asked for.",
        )
