"""Published figures of nitrate, of accelerators and of bellies with skin, read by the whole check."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import LOIN, MIXED, SAUSAGE, STRONG_SALT
from tests.calculations.curing.written import (
    amount,
    codes,
    cured,
    finding_on,
    nitrate,
    pumped,
    reading_of,
    told,
)

RELATIVE = 1e-6
CFR = "9 CFR 424.21(c), text of 2018"
HANDBOOK = "FSIS Directive 7620.3, 1995, as quoted by secondary pages"


def test_saltpetre_as_other_substances(book: RuleBook) -> None:
    """1,157 ppm of saltpetre are 973 of sodium nitrate and 710 of the ion (molar masses), and are called out."""
    answer = told(book, cured(nitrate(100, "potassium_nitrate"), 56.699, meat=amount(48987.936)))

    by = {form: reading_of(answer, "on_the_meat", form, "nitrate").high for form in ("sodium_nitrate", "nitrate_ion")}

    assert by["sodium_nitrate"] == pytest.approx(1157.4074074 * 84.9947 / 101.1032, rel=RELATIVE)
    assert by["nitrate_ion"] == pytest.approx(1157.4074074 * 62.0049 / 101.1032, rel=RELATIVE)
    assert "nitrate_alone" in codes(answer)


SKIN = [
    # what and where it is published, whole belly, skin-free weight, cure in 1,000 g of pickle, ppm with the skin
    (f"skin counts as a tenth ({HANDBOOK}, ch. 3)", amount(10, "kg"), None, 17.28, 108.0),
    (
        "12.8 lb trimmed to 11.0 lb (weights from a public discussion, 2019; 120 from 9 CFR 424.22(b))",
        amount(12.8, "lb"),
        amount(11.0, "lb"),
        16.5,
        103.125,
    ),
]


@pytest.mark.parametrize(("what", "meat", "skin_free", "cure", "with_skin"), SKIN, ids=["a tenth", "weighed"])
def test_bacon_is_read_without_its_skin(
    book: RuleBook, what: str, meat: dict[str, Any], skin_free: Any, cure: float, with_skin: float
) -> None:
    """A pumped belly of 120 ppm without its skin has less on its weight with the skin."""
    product = {"kind": "bacon", "skin": "on", **({"skin_free": skin_free} if skin_free else {})}
    method = pumped(amount(1000 - cure), 10)

    answer = told(book, cured(STRONG_SALT, cure, meat=meat, product=product, method=method))

    assert finding_on(answer, "us-bacon-pumped-nitrite-max").figure == pytest.approx(120, rel=RELATIVE), what
    assert finding_on(answer, "us-bacon-skinon-pumped").figure == pytest.approx(with_skin, rel=RELATIVE), what
    assert reading_of(answer, "pumped").high == pytest.approx(120, rel=RELATIVE), what


def accelerated(kind: str, *quantity: Any, **changes: Any) -> dict[str, Any]:
    """A hundred pounds of cured meat with an accelerator."""
    return cured(
        STRONG_SALT,
        3,
        "oz",
        meat=amount(100, "lb"),
        accelerators=[{"kind": kind, "amount": amount(*quantity)}],
        **changes,
    )


GROUND = {"product": SAUSAGE, "method": MIXED}
ACCELERATORS = [
    # what and where it is published, recipe, rule, ppm
    (
        f"7/8 oz erythorbate to 100 lb ({CFR}); 547 from memory",
        accelerated("sodium_erythorbate", 0.875, "oz", **GROUND),
        "us-accel-naery-max",
        546.875,
    ),
    (
        f"7/8 oz ascorbate to 100 lb ({CFR}); 547 from memory",
        accelerated("sodium_ascorbate", 0.875, "oz", **GROUND),
        "us-accel-naasc-max",
        546.875,
    ),
    (
        f"3/4 oz ascorbic acid to 100 lb ({CFR}); 469 on a secondary page",
        accelerated("ascorbic_acid", 0.75, "oz", **GROUND),
        "us-accel-asc-max",
        468.75,
    ),
    (
        f"87.5 oz erythorbate in 1,000 lb of pickle, 10 percent pump ({CFR}, at 10 lb/gal); 547 from memory",
        accelerated("sodium_erythorbate", 87.5, "oz", product=LOIN, method=pumped(amount(16000 - 87.5 - 3, "oz"), 10)),
        "us-accel-naery-max",
        546.875,
    ),
]


@pytest.mark.parametrize(("what", "body", "rule", "ppm"), ACCELERATORS, ids=[row[0][:26] for row in ACCELERATORS])
def test_published_accelerators(book: RuleBook, what: str, body: dict[str, Any], rule: str, ppm: float) -> None:
    """The law's own ounces are its limit to the last digit: met, with nothing to spare."""
    finding = finding_on(told(book, body), rule)

    assert finding.low == finding.high == pytest.approx(ppm, rel=RELATIVE), what
    assert (finding.verdict, finding.code) == ("met", "at_limit"), what
