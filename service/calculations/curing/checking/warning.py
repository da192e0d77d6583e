"""Which cautions belong to a check: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.curing.checking.as_written import WrittenMethod
from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.contents import Contents
from service.calculations.curing.checking.uptakes import basis_of
from service.calculations.curing.classes import kind_of
from service.calculations.curing.methods import Comminuted, Dry, PickUp
from service.calculations.curing.products import Product
from service.calculations.curing.warning import FLOOR_RULE, OUT_IN_TIME, of_product
from service.calculations.remarks import CallOut
from service.quantities.quantity import MASS_SYMBOLS
from service.rules.banding import BandedFinding
from service.rules.book import RuleBook

ALWAYS = ("nitrite-emergency", "keep-cold-while-curing", "raw-meat-hygiene", "vulnerable-people", "local-code")
WITH_CURING_SALT = ("nitrite-toxic", "strength-from-label")
OF_CALL_OUTS = {
    "do_not_eat": "do-not-eat", "smoked_or_hung_without_nitrite": "botulism", "no_nitrite": "botulism",
    "nitrate_alone": "too-little-is-dangerous", "hardly_any_nitrite": "botulism",
}  # fmt: skip


def check_cautions(
    product: Product,
    method: WrittenMethod,
    contents: Contents,
    call_outs: tuple[CallOut, ...],
    findings: tuple[BandedFinding, ...],
    *,
    is_weak: bool,
) -> Iterator[str]:
    """Every caution whose trigger holds. is_weak: less nitrite may go in than any floor asks for."""
    yield from (OF_CALL_OUTS[one.code] for one in call_outs if one.code in OF_CALL_OUTS)
    if contents.curing_salts != () or not contents.labels_known:
        yield from WITH_CURING_SALT
    yield from ALWAYS
    yield from of_product(kind_of(product))
    yield from _of_amounts(contents)
    yield from _of_method(method)
    if is_weak or any(finding.verdict == "not_met" and _is_floor(finding) for finding in findings):
        yield "too-little-is-dangerous"
    if contents.lines:
        yield "allergens"
    for finding in findings:
        yield from finding.cautions


def is_weak(case: Case, book: RuleBook) -> bool:
    """Whether the least nitrite that the recipe can bring is under the design band of the floor, as for a dose."""
    if not case.can_be_worked_out or "nitrite" not in case.on_labels:
        return False
    least = (
        vessel.ppm("nitrite", basis="green_weight", expressed_as="sodium_nitrite", least=True)
        for vessel in case.vessels()
    )
    floor_ppm = book.rule(FLOOR_RULE).values[-1].design_floor or 0.0
    return min((ppm or 0.0 for ppm in least), default=0.0) < floor_ppm


def _is_floor(finding: BandedFinding) -> bool:
    return finding.measure == "nitrite" and finding.code == "under_limit"


def _of_amounts(contents: Contents) -> Iterator[str]:
    spooned = any(one.written.amount and one.written.amount.is_volume for one in contents.curing_salts or ())
    if spooned or any(line.by_spoon and line.role == "salt" for line in contents.lines or ()):
        yield "weigh-not-spoon"
    if contents.curing_salts and contents.lines is not None and contents.salt.high_g == 0:
        yield "salt-not-stated"


def _of_method(method: WrittenMethod) -> Iterator[str]:
    if not isinstance(method, Comminuted):
        yield "foil-salt-acid"
    if isinstance(method, Dry | Comminuted):
        return
    yield from ("hot-brine", "no-brine-reuse")
    basis = basis_of(method)
    if isinstance(basis, PickUp) and basis.stay:
        yield OUT_IN_TIME
    if method.water is not None and method.water.unit not in MASS_SYMBOLS:
        yield "weigh-ice"
