"""Names of what brings nitrite or nitrate are found by any spelling, in many languages; near twins are not."""

import pytest

from service.calculations.curing import cure_names
from service.calculations.curing.cure_names import cure_kind, kind_of_name
from service.rules.book import RuleBook

MISSPELT = [
    "prauge powder", "praque powder", "Prague pwdr", "curring salt", "curin salt", "nitryte", "nittrite", "ntirite",
    "nitrte", "corning salt", "TCM", "sodium salt of nitrous acid", "saltpeter", "salpetre", "saltptre",
    "cureing salt", "Pöklesalz", "pinksalt",
]  # fmt: skip

BY_LANGUAGE = [
    "sal cura", "sal curado", "sal de Praga", "sal para curar", "sel de saumure", "salpétre", "Selchsalz",
    "kleurzout", "rychlosůl", "praganda", "sanytr", "pácsó", "mieszanka peklująca", "sól nitrytowa", "silitră",
    "amestec de sărare", "nitriidisool", "nitrīta sāls", "güherçile", "diêm tiêu", "muối diêm", "sendawa", "нітрит",
    "нітритна сіль", "селітра", "посолочная смесь", "НПС", "ניטריט", "نترات", "نتريت الصوديوم", "नाइट्राइट",
    "कलमी शोरा", "ดินประสิว", "ไนไตรท์", "초석", "큐어링 솔트", "キュアリングソルト", "発色剤", "腌制盐",
]  # fmt: skip

DISGUISED = [
    "n\xedtrite", "n\xectrite", "n\xeftrite", "nitr\xedt", "N\xedtrito de sodio", "nitrit\xe9", "\u0441uring salt",
    "Pr\u0430gue powder", "nitr\u0456te", "\u0440ink salt", "nit\u034frite", "nit\ufe0frite", "n\u0336itrite",
    "nit\u3164rite", "\u24dd\u24d8\u24e3\u24e1\u24d8\u24e3\u24d4",
    "\U0001f17d\U0001f178\U0001f183\U0001f181\U0001f178\U0001f183\U0001f174",
    "\u0274\u026a\u1d1b\u0280\u026a\u1d1b\u1d07", "n\u0131trite", "n i t r i t e", "nit-rite", "nit.rite",
    "salt/peter", "n1tr1te", "NaN02", "KNO 3", "E 2 5 0", "E-25O", "E25O", "E250i",
    "n!trite", "n|trite", "\u0415 250", "N.P.S.", "c-u-r-e",
    "7632-00-0",
]  # fmt: skip

IN_ONE_WORD = [
    "curingsalt", "CuringSalt", "praguepowder", "tintedsalt", "saltno1", "curesalt", "pinkcuresalt", "selrose",
    "meatcure", "baconcure", "hamcure", "drycure", "curingmix", "curringsalt", "cur ing salt", "salt no1",
]  # fmt: skip

NATURAL = [
    "celerypowder", "celeryjuice", "spinachpowder", "vegetablepowder", "celeryjuicepowder", "dried-beetroot",
    "celery root powder", "celery stalk powder", "celery crystals", "dried celery, ground", "celery (cultured)",
    "pre-converted celery", "Apium graveolens powder", "sellerijpoeder", "selderijpoeder", "sedano polvere",
    "estratto di sedano", "extracto de apio", "jugo de apio", "порошок сельдерея", "芹菜粉", "セロリパウダー",
    "셀러리 분말", "cultured kale", "watercress powder", "Sellerieflocken", "farine de betterave",
    *(
        f"{one} {form}"
        for one in ("celery", "celeriac", "beet", "beetroot", "spinach", "radish")
        for form in ("flakes", "flour", "liquid", "water", "puree")
    ),
    "beet root powder", "beet crystals", "beet juice", "beetroot juice", "fermented beet juice", "Rote-Bete-Pulver",
    "betterave en poudre", "порошок свеклы", "fermented spinach", "Spinatpulver", "espinaca en polvo",
    "Mangoldpulver", "Gemüsekonzentrat", "Gemüsepulver fermentiert", "arugula powder", "radish powder",
    "celery powder", "beet powder", "celery seed and celery juice powder",
]  # fmt: skip

PINK = [
    "pink salt and black pepper", "pink sel", "pink gros sel", "pink sal", "pink sale",
    "pink \u0441\u043e\u043b\u044c", "pink \u5869", "pink sea salt",
    "pinksel", "Pink Salz", "\u0440\u043e\u0437\u043e\u0432\u0430\u044f \u0441\u043e\u043b\u044c",
    "\u30d4\u30f3\u30af\u30bd\u30eb\u30c8",
    "gros sel rose", "grosselrose",
    "sel marin rose", "rosa Meersalz",
]  # fmt: skip

LABEL_ONLY = [
    "pink sugar", "pink blend", "celery chips", "celery paste", "parsley powder", "dill concentrate",
    "fennel granules", "dehydrated chervil", "carrot juice concentrate", "mustard greens powder", "amaranth powder",
    "fermented cabbage",
    *(f"{one} {form}" for one in ("kale", "cabbage", "leek", "carrot") for form in ("powder", "dried", "flakes")),
]  # fmt: skip

INNOCENT = [
    "salt with pink pepper", "pink salmon", "Himalayan pink salt", "pink rock salt", "Rosa Pfeffer Salz",
    "chard", "Swiss chard",
    "dried dill", "dried parsley", "dried fennel", "fennel seed, ground", "water", "cress", "carrot", "kale",
    "sodium citrate", "nitro stout", "manicure", "sinecure", "secure seal", "procure", "obscure rub",
    "curry cure-all", "#1 rub", "No 2 pencil rub", "no. 1 chili", "celery seed, ground", "celery", "spinach",
    "fresh chard", "beets", "horseradish powder", "vegetable stock powder", "sel de céleri", "sal de apio",
    "Selleriesalz", "соль", "塩", "перец", "salt and pepper", "pink peppercorns", "rosemary", "potato starch",
    "nutritional yeast", "granulated sugar", "carrot powder", "unit price rub", "titrated acid", "liquorice",
    "5 l water", "cherry powder", "tablettes, poudre",
    "pedicure", "epicure", "securing salt", "manicure salt", "secure salt mix", "birre oscure", "olive scure",
    "beetlejuice", "chardonnaypowder", "Caesar powder", "cured ham", "cured paprika", "cured egg yolk",
    "croquettes, poudre", "野菜ブイヨン粉末",
]  # fmt: skip


@pytest.mark.parametrize("name", [*MISSPELT, *BY_LANGUAGE, *DISGUISED, *IN_ONE_WORD])
def test_a_cure_is_known(book: RuleBook, name: str):
    """With a slip of the pen, in another language, in other letters, with things between them."""
    assert cure_kind(book, name) in ("curing_salt", "neat", "doubtful")


def test_a_space_left_out_hides_no_name(book: RuleBook):
    """Whatever the data has as words, or as words with a slip, is found written as one; beside another, both ways."""
    rows = [row for row in book.cure_names.values() if row.kind not in ("innocent", "unread")]
    alone = [words for row in rows if not row.beside for words in (*row.words, *row.near)]
    pairs = [(words, other) for row in rows for words in row.words for other in (*row.beside, *row.beside_words)]

    as_one = {words.replace(" ", "") for words in [*alone, *(one + two for one, two in pairs)]}
    as_one |= {(two + one).replace(" ", "") for one, two in pairs}

    assert len(as_one) > 500
    assert [words for words in as_one if cure_kind(book, words) is None] == []


@pytest.mark.parametrize("name", ["a" * 80, "nitrit" * 13, "abcdefghijkl " * 6, "\ufdfa" * 80])
def test_no_slip_is_sought_in_a_word_that_is_too_long(book: RuleBook, name: str, monkeypatch: pytest.MonkeyPatch):
    """The work on a name grows with its letters, not with their square."""
    asked: list[str] = []

    def asked_for(word: str) -> set[str]:
        asked.append(word)
        return {word}

    cure_kind(book, "any name, so that the table is made")
    monkeypatch.setattr(cure_names, "_less_one", asked_for)

    kind_of_name(book, name)
    kind_of_name(book, "nitrte")

    assert "nitrte" in asked
    assert max(map(len, asked)) <= 1 + len("nitritpoekelsalz")


@pytest.mark.parametrize("name", NATURAL)
def test_a_powder_of_a_vegetable_is_known(book: RuleBook, name: str):
    """The vegetable beside its form, in whatever order and language."""
    assert cure_kind(book, name) == "natural_source"


@pytest.mark.parametrize("name", PINK)
def test_a_pink_salt_is_doubtful_in_any_language(book: RuleBook, name: str):
    """The colour beside a word for salt, in any order; a rock salt says what it is."""
    assert cure_kind(book, name) == "doubtful"


@pytest.mark.parametrize("name", LABEL_ONLY)
def test_what_may_hold_some_is_no_cure_but_unread(book: RuleBook, name: str):
    """A vegetable that was worked, a pink mixture: nobody refuses it, and its label is to be read."""
    assert kind_of_name(book, name) == "unread"
    assert cure_kind(book, name) is None


@pytest.mark.parametrize("name", INNOCENT)
def test_what_only_sounds_like_it_is_none(book: RuleBook, name: str):
    """Whole words, the fresh vegetable, its seed, a number by itself."""
    assert cure_kind(book, name) is None


@pytest.mark.parametrize(
    ("name", "kind"),
    [("Nitritp\u00f6kelsalz", "curing_salt"), ("saltpetre", "neat"), ("E 250", "neat"), ("pink salt", "doubtful")],
)
def test_a_name_of_several_things_is_the_gravest(book: RuleBook, name: str, kind: str):
    """Nitrite curing salt is a curing salt; a pink salt may be either."""
    assert cure_kind(book, name) == kind


def test_no_plain_word_of_a_label_is_a_cure(book: RuleBook):
    """Of everything that the words of labels know, only what they call a cure reads like one, and four more."""
    words = [word for one in book.substances.values() if not one.cures for word in one.words]

    found = {word for word in words if cure_kind(book, word) is not None}

    assert found == {
        "cure mix", "curing agent", "nitrite free", "dried vegetable", "dehydrated vegetable", "celery flake",
    }  # fmt: skip
    assert all(cure_kind(book, word) for one in book.substances.values() if one.cures for word in one.words)
