"""What carries nitrite or nitrate is not scaled, under any name; what only sounds like it is."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.calculations.seasoning.scale import ScaleRequest, scale
from service.calculations.seasoning.scaling.known import SALT_WORDS
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import limiting, line, meat_at_hand, recipe
from tests.calculations.seasoning.scale_refusals import faults_of_refusal

SALT = line("table-salt", 90, "g")

CURES = [
    "curing-salt-6-25", "Curing Salt 6 25", "cure #1", "Cure No. 2", "curing salt", "pink curing salt",
    "pink nitrite salt", "pink himalayan cure salt", "Himalayan pink salt #1", "pink salt 6.25", "pink salt #1",
    "Pink-Salt 0.6 %", "bacon cure", "natural cure", "tinted salt #2", "Prague powder", "prague salt",
    "sodium nitrite", "Natriumnitrit", "NaNO\u2082", "KNO3", "kaliumnitraat", "E 250", "E252", "INS 249", "NPS",
    "Nitritp\u00f6kelsalz", "P\u00f6kelsalz", "Po\u0308kelsalz", "Poekelsalz", "Umr\u00f6tesalz", "sel nitrit\u00e9",
    "sel de salaison", "sal de cura", "sal curante", "nitrietzout", "pekelzout", "colorozo", "peklos\u00f3l",
    "saltpetre", "saltpeter", "salt petre", "Salpeter", "salp\u00eatre", "salpietari", "salitre", "salnitro",
    "saletra", "sal\u00e9trom", "\u0421\u0435\u043b\u0438\u0442\u0440\u0430", "\u785d\u77f3", "nitre",
    "celery powder", "celery juice powder", "cultured celery", "Celery extract", "vegetable juice powder",
    "fermented vegetable powder", "Swiss chard powder", "beet powder", "beetroot juice powder", "spinach powder",
    "Selleriepulver", "poudre de c\u00e9leri", "apio en polvo", "\uff43\uff55\uff52\uff45 #1", "cu\u00adre #1",
    "premix-5.88", "pink-1", "preservative (250)", "E 251", "natrium nitrosum", "azotyn sodu", "dusitan sodn\u00fd",
    "curingsalt", "PraguePowder", "hamcure", "celerypowder", "celery flakes", "spinach liquid",
    "vegetablepowder", "saltno1",
    "\u03bd\u03b9\u03c4\u03c1\u03b9\u03ba\u03cc", "\uc544\uc9c8\uc0b0",
]  # fmt: skip
"""Names under which nitrite or nitrate is sold, or hides (common practice, no source)."""

CLAIMS = [
    "nitrite-free rub", "nitrate free bacon seasoning", "no nitrite added seasoning", "nitritfreie Gew\u00fcrzmischung",
    "cure-free rub",
]  # fmt: skip
"""What is said to be absent: a powder of celery stands behind many such words."""

READ_AS_CLAIMS = [name for name in CLAIMS if name.startswith(("nitrite-", "nitrate ", "no "))]

DOUBTFUL = [
    "pink salt",
    "Pink  Salt",
    "pink-salt",
    "sel rose",
    "sel ros\u00e9",
    "sale rosa",
    "sal rosada",
    "Rosa Salz",
    "rose salt",
    "pink sea salt",
    "pink gros sel",
    "pink \u5869",
]

TWINS = [
    "celery seed", "celery-salt", "Celery Salt", "ground celery seed", "fresh celery", "celery", "celery root",
    "sel de c\u00e9leri", "Prague ham spice", "pink peppercorns", "pink rock salt", "Steinsalz pink",
    "chard", "dried dill", "dried parsley",
    "Himalayan pink salt", "pink himalayan salt",
    "curry powder", "currants", "curly kale", "cherry powder", "vegetable stock", "fresh spinach", "fresh chard",
    "cured paprika", "cured egg yolk", "secure salt",
    "Chardonnay", "pilchards", "nutritional yeast", "oregano 2", "rose petals", "rosemary", "E 330", "E 301",
    "cream of tartar", "baking soda", "salted lemon", "cucumber", "Salpicon", "#1 rub", "No 2 pencil rub",
    "no. 1 chili", "nitro stout", "secure seal", "procure house rub", "manicure", "sinecure", "obscure rub",
    "curry cure-all", "sodium citrate", "beet", "horseradish powder", "vegetable stock powder", "black pepper no. 1",
    "hydrolyzed vegetable protein powder", "Gem\u00fcsebr\u00fche Pulver", "tomato powder", "pink peppercorn salt",
]  # fmt: skip


def refused(book: RuleBook, body: dict[str, Any]) -> Impossible:
    """Why it is not scaled."""
    with pytest.raises(Impossible) as why:
        scale(ScaleRequest.model_validate(body), book)
    return why.value


@pytest.mark.parametrize("name", CURES)
def test_a_cure_is_refused_by_any_name(book: RuleBook, name: str):
    """By weight as by spoon; the line and the call that answers are named, and the refusal is proved."""
    body = recipe(SALT, line(name, 12, "g"), at_hand=[meat_at_hand(2)])

    why = refused(book, body)

    assert why.code == "carries_nitrite"
    assert f'Line 2 ("{name}")' in why.reason
    assert "POST /v1/curing/dose" in str(why.nearest)
    assert faults_of_refusal(body, {"code": why.code, "nearest": why.nearest}) == []


@pytest.mark.parametrize("name", CLAIMS)
def test_a_claim_of_absence_is_refused_with_a_way_out(book: RuleBook, name: str):
    """Called by what it is, without the word, it is scaled; and its label is still asked for."""
    why = refused(book, recipe(line(name, 12, "g"), at_hand=[meat_at_hand(2)]))
    told = scale(
        ScaleRequest.model_validate(recipe(line("bacon rub of ours", 12, "g"), at_hand=[meat_at_hand(2)])), book
    )

    assert "call it by what it is, without that word" in str(why.nearest)
    assert ("stands behind many a claim" in str(why.nearest)) is (name in READ_AS_CLAIMS)
    assert ("are for no kitchen" in str(why.nearest)) is (name.startswith("nitritfrei"))
    assert "label_not_read" in {one.code for one in told.advice}


@pytest.mark.parametrize(
    ("name", "told", "not_told"),
    [
        ("cure #1", "says what to weigh of a curing salt", "in its place"),
        ("saltpetre", "do not weigh them out", "vegetable powder or juice brings"),
        ("sodium nitrite", "do not weigh them out", "vegetable powder or juice brings"),
        ("E no. 250", "do not weigh them out", "claim of absence"),
        ("nitrite without a label", "claim of absence", "do not weigh them out"),
        ("celery powder", "it is not dosed here: do not use it", "do not weigh them out"),
    ],
)
def test_what_cannot_be_dosed_is_not_sent_to_the_dose(book: RuleBook, name: str, told: str, not_told: str):
    """A dose wants a curing salt of known strength: neat chemicals and powders of vegetables have none."""
    nearest = str(refused(book, recipe(SALT, line(name, 12, "g"), at_hand=[meat_at_hand(2)])).nearest)

    assert told in nearest
    assert not_told not in nearest
    assert "curing salt of known strength" in nearest or "of a curing salt for the meat" in nearest


@pytest.mark.parametrize("amount", [{"count": 3}, {"value": 2, "unit": "tbsp"}, {"value": 0.001, "unit": "g"}])
def test_no_measure_lets_a_cure_in(book: RuleBook, amount: dict[str, Any]):
    """Neither a spoon nor a pinch nor a piece of it; a label of its salt does not help."""
    one = {"ingredient": "cure #1", "amount": amount, "label": {"salt_percent": 93.75}}

    assert refused(book, recipe(one, at_hand=[meat_at_hand(2)])).code == "carries_nitrite"


@pytest.mark.parametrize("name", DOUBTFUL)
def test_two_pink_salts_cannot_be_told_apart(book: RuleBook, name: str):
    """It says what to state, and that is answered."""
    body = recipe(SALT, line(name, 60, "g"), at_hand=[meat_at_hand(2)])

    why = refused(book, body)

    assert why.code == "may_be_curing_salt"
    assert "rock salt" in str(why.nearest)
    told = scale(ScaleRequest.model_validate(recipe(SALT, line("rock salt", 60, "g"), at_hand=[meat_at_hand(2)])), book)
    assert told.salt.of_salts.typical == 60


@pytest.mark.parametrize("word", sorted(SALT_WORDS - {"steinsalz"}))
def test_no_word_for_salt_makes_a_pink_one_known(book: RuleBook, word: str):
    """Whatever is plain salt is, called pink, refused as a question; by itself it passes."""
    pink, plain = (recipe(line(name, 60, "g"), at_hand=[meat_at_hand(2)]) for name in (f"pink {word}", word))

    assert refused(book, pink).code == "may_be_curing_salt"
    assert scale(ScaleRequest.model_validate(plain), book).salt.of_salts.typical == 24


@pytest.mark.parametrize("name", TWINS)
def test_a_near_twin_passes(book: RuleBook, name: str):
    """What only sounds like a cure is scaled like anything else."""
    told = scale(ScaleRequest.model_validate(recipe(line(name, 12, "g"), at_hand=[meat_at_hand(2.5)])), book)

    assert told.lines[0].weight.typical == 6


def test_a_cure_that_is_left_is_no_limit_here(book: RuleBook):
    """26 g of curing salt left: the dose says for how much meat that is."""
    why = refused(book, recipe(SALT, at_hand=[limiting("curing salt", 26, "g")]))

    assert why.code == "carries_nitrite"
    assert why.reason.startswith('At_hand ("curing salt")')
    assert "scale the rest" not in str(why.nearest)
    with_meat = recipe(SALT, at_hand=[limiting("curing salt", 26, "g"), meat_at_hand(1)])
    assert "scale the rest" in str(refused(book, with_meat).nearest)


def test_every_such_line_is_named(book: RuleBook):
    """Two cures and a doubtful one; left out, the rest is answered. Where nothing is left, none is offered."""
    body = recipe(
        line("cure", 1, "g"), SALT, line("E 250", 1, "g"), line("pink salt", 1, "g"), at_hand=[meat_at_hand(1)]
    )

    why = refused(book, body)
    alone = refused(book, recipe(line("cure", 1, "g"), at_hand=[meat_at_hand(1)]))

    assert all(word in why.reason for word in ('Line 1 ("cure")', 'line 3 ("E 250")', 'Line 4 ("pink salt")'))
    assert "scale the rest" in str(why.nearest)
    assert "scale the rest" not in str(alone.nearest)
