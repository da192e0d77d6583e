"""What a person who knows cures would say on reading the recipe, each with a stable code."""

from collections.abc import Iterator

from service.calculations.curing.checking.as_written import WrittenMethod
from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.confusions import confusions_in, fractions_in, sum_of
from service.calculations.curing.checking.contents import Contents
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.curing.checking.vessel import Pot
from service.calculations.curing.products import Bacon, Product
from service.calculations.remarks import CallOut, call
from service.rules.banding import BandedFinding

SHORT_CURE_D = 30.0
"""Days under which nitrate has no time to become nitrite (common practice, no source)."""
DO_NOT_EAT_PPM = 1000.0
"""Ingoing nitrite from which the food is not to be eaten (own bound; five times the usual ceiling of 200)."""

DO_NOT_EAT_NITRATE_PPM = 5000.0
"""Likewise of nitrate (own bound, more than twice the 2187.5 of 9 CFR 424.21(c) for dry cures)."""
HARDLY_ANY_PPM = 40.0
"""Nitrite under this is not called useful even for what keeps on a shelf (policy of the United States, reported)."""

CALL_OUTS = {
    "do_not_eat": "So much nitrite that the food is not to be eaten.",
    "may_be_pure_nitrite": "A salt of the recipe may be neat nitrite.",
    "strength_not_stated": "The strength of a curing salt is not stated; what it would come to is told.",
    "over_a_recalled_limit": "A limit that is known from memory only is passed.",
    "gain_contradicts_uptake": "The weights that are stated do not go with the pump or pick-up that is stated.",
    "not_at_equilibrium": "The piece lies in its pickle for too short a time to come to equilibrium.",
    "stay_not_credited": "A stay in the pickle is stated that cannot be reckoned with.",
    "hardly_any_nitrite": "So little nitrite that it is as good as none.",
    "accelerator_among_ingredients": "A cure accelerator seems to stand among the other ingredients.",
    "no_nitrite": "The recipe has no nitrite or nitrate: it is not cured.",
    "smoked_or_hung_without_nitrite": "Meat is smoked or hung without nitrite.",
    "nitrate_alone": "Nitrate without nitrite: how much nitrite comes of it is not known.",
    "nitrate_in_bacon": "Bacon is made with nitrate.",
    "nitrate_in_a_short_or_cooked_cure": "Nitrate in a cure that is short, or that is cooked.",
    "nitrate_in_the_mix": "The curing salt brings nitrate beside its nitrite.",
    "curing_salt_among_ingredients": "A curing salt seems to stand among the other ingredients.",
    "salt_in_seasonings": "Stock powder and other seasonings bring salt of their own.",
    "skin_weight_contradicts": "The weight without skin does not go with the weight of the whole piece.",
    "storage_contradicts_finish": "What is sold raw and fresh is not shelf-stable.",
    "not_enough_pickle": "The meat is to take up more pickle than there is.",
    "pickle_over_saturated": "Water does not dissolve so much salt.",
    "label_over_a_hundred": "The percentages of a label add up to more than 100.",
    "no_rule_in_force": "No ceiling that was read or reported is in force for this product, method, place and day.",
    "fraction_for_percent": "A fraction seems to have been written for a percentage.",
    "weak_salt_at_strong_rate": "A weak curing salt seems to be used at the rate of a strong one.",
    "strong_salt_at_weak_rate": "A strong curing salt seems to be used at the rate of a weak one.",
    "fluid_ounce_for_ounce": "A fluid ounce seems to have been measured for an ounce by weight.",
    "litres_for_gallons": "Litres of water seem to have been written for gallons.",
    "gallons_for_litres": "Gallons of water seem to have been written for litres.",
}
"""Every code, and what it stands for."""


def on_amount(case: Case, *, smoked: bool | None) -> Iterator[CallOut]:
    """So much nitrite or nitrate that nothing else matters, or so little nitrite that it is as good as none."""
    for substance, stop_ppm in (("nitrite", DO_NOT_EAT_PPM), ("nitrate", DO_NOT_EAT_NITRATE_PPM)):
        yield from _on_too_much(case, substance, stop_ppm=stop_ppm)
    most_ppm = most_in_meat_ppm(case, "nitrite")
    if case.can_be_worked_out and "nitrite" in case.on_labels and most_ppm < HARDLY_ANY_PPM:
        where = "Smoked, that is as dangerous as none" if smoked else "It protects hardly more than none"
        yield call("hardly_any_nitrite", f"At most {plain(most_ppm)} ppm of nitrite goes in. {where}.")


def most_in_meat_ppm(case: Case, substance: str) -> float:
    r"""The most that can be in the meat; where a salt is not known, what is there at the least without it.

    .. math:: most = \max \text{ of all readings, or } \min \text{ where something is assumed}

    Parameters
    ----------
    case : Case
        The recipe
    substance : str
        nitrite or nitrate

    Returns
    -------
    most : float
        The reading, as the salt that goes in [ppm]

    Raises
    ------
    Nothing.

    Notes
    -----
    A pick-up or pump that nobody stated is no ground for alarm: of the assumed ones, the least counts.

    Examples
    --------
    >>> from service.calculations.curing.checking.as_written import Weights
    >>> from service.calculations.curing.checking.uptakes import NOT_KNOWN
    >>> most_in_meat_ppm(Case(None, NOT_KNOWN, Weights(), None, True, True, frozenset(), False), "nitrite")
    0.0

    References
    ----------
    Readings by FSIS Directive 7620.3, 1995 (reported); what is done with them is this project's own.
    """
    basis, salts = "any_reading", f"{substance}_salt_by_weight"
    read = [vessel.ppm(substance, basis=basis, expressed_as=salts) or 0.0 for vessel in case.vessels()]
    is_settled = case.nitrite_known and case.uptake.basis_named
    return (max if is_settled else min)(read, default=0.0)


def _on_too_much(case: Case, substance: str, *, stop_ppm: float) -> Iterator[CallOut]:
    most_ppm = most_in_meat_ppm(case, substance)
    if most_ppm >= stop_ppm:
        yield call(
            "do_not_eat",
            f"As written this can bring {plain(most_ppm)} ppm of {substance} into the meat. Do not eat it, do not "
            "taste it, and do not give it away. If any was eaten, ask a poison centre or emergency service now.",
        )


def on_nitrate(product: Product, cure_d: float | None, contents: Contents) -> Iterator[CallOut]:
    """Nitrate where it has no place or no time."""
    salts = [(line, line.written.label) for line in contents.curing_salts or () if line.written.label]
    nitrates = [(line, label) for line, label in salts if label.nitrate]
    if not nitrates:
        return
    if any(label.nitrite for _, label in salts):
        known_g = sum(line.weight.high_g * label.nitrate_fraction for line, label in nitrates if line.weight)
        how_much = f"{known_g:,.4g} g of nitrate" if known_g else "nitrate"
        yield call("nitrate_in_the_mix", f"The curing salts bring {how_much} beside their nitrite.")
    else:
        yield call(
            "nitrate_alone",
            "Bacteria make nitrite of nitrate, slowly and in the cold; how much, nobody can say. A minimum of nitrite "
            "cannot be told.",
        )
    if isinstance(product, Bacon):
        yield call("nitrate_in_bacon", "Nitrate does not belong in bacon: fried, it makes nitrosamines.")
    is_short = cure_d is not None and cure_d < SHORT_CURE_D and product.finish != "matured"
    if is_short or product.finish in ("fresh", "cooked", "sterilised"):
        why = f"{cure_d:g} days are too short" if is_short else "a piece that is cooked or sold fresh has no time"
        yield call(
            "nitrate_in_a_short_or_cooked_cure",
            f"Nitrate is for pieces that hang for months; {why} for it. Take a curing salt without nitrate.",
        )


def on_none(product: Product, *, smoked: bool | None) -> Iterator[CallOut]:
    """A recipe without any nitrite or nitrate."""
    if smoked or product.finish == "matured":
        what = "Smoke and warmth without air are" if smoked else "A piece that hangs raw is"
        yield call(
            "smoked_or_hung_without_nitrite",
            f"{what} where botulism grows, and there is no nitrite in this recipe to hold it back. Salt alone holds it "
            "back only where it was weighed and the loss of water was measured.",
        )
    else:
        yield call(
            "no_nitrite",
            "There is no curing salt in this recipe: limits on nitrite are not looked at. Do not smoke it slowly, and "
            "do not hang it.",
        )


def on_seasonings(contents: Contents) -> Iterator[CallOut]:
    """Salt that comes with stock powder, and an accelerator that nobody counts."""
    if contents.hides_an_accelerator:
        yield call(
            "accelerator_among_ingredients",
            "An ingredient seems to be a cure accelerator: state it in accelerators, with its weight.",
        )
    salt = contents.salt_of_seasonings
    if salt.high_g > 0:
        amount = f"{salt.low_g:,.4g}" if salt.low_g == salt.high_g else f"{salt.low_g:,.4g} to {salt.high_g:,.4g}"
        yield call("salt_in_seasonings", f"Seasonings bring {amount} g of salt, which is counted with the rest.")


def on_recalled(findings: tuple[BandedFinding, ...]) -> Iterator[CallOut]:
    """Ceilings from memory that the whole range is over."""
    for finding in findings:
        over = finding.code == "recalled_only" and finding.bound == "maximum" and finding.limit is not None
        if over and finding.low is not None and finding.limit is not None and finding.low > finding.limit:
            yield call(
                "over_a_recalled_limit",
                f"{finding.measure.capitalize()} comes to {plain(finding.low)} {finding.unit} or more; the limit that "
                f"is known from memory is {plain(finding.limit)} ({finding.citation}). Read the text before you go on.",
            )


def on_confusions(contents: Contents, pot: Pot | None, method: WrittenMethod) -> Iterator[CallOut]:
    """Fractions for percentages; where one salt brings all the nitrite, confusions that would explain its figure."""
    for confusion in fractions_in(contents, method):
        yield call(confusion.code, confusion.message)
    with_nitrite = [line for line in contents.curing_salts or () if line.written.label and line.written.label.nitrite]
    if pot is None or len(with_nitrite) != 1:
        return
    total = sum_of(pot, with_nitrite[0], method)
    if total is not None:
        for confusion in confusions_in(total, with_nitrite[0].written, method):
            yield call(confusion.code, confusion.message)
