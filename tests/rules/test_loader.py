"""What the loader refuses, by name and place, and what it promises of a book that it accepts."""

import re
from pathlib import Path

import pytest
import yaml

from service.rules import loader, page
from service.rules.book import RuleBook, RulesError
from service.rules.loader import LISTS, BadRuleFile, check, load_book
from tests.rules.conftest import DATA, Shelf

BROKEN = sorted((Path(__file__).parent / "broken").glob("*.yaml"))
FILES = [f"{name}.yaml" for name in LISTS]
GOOD = (DATA / "limits/us/us-nitrite-drycured-max.yaml").read_text("utf-8")


@pytest.mark.parametrize("fixture", BROKEN, ids=lambda fixture: fixture.stem)
def test_a_mistake_is_refused_by_name_and_place(fixture: Path, shelf: Shelf):
    """A file with one mistake is refused, and the reason says where it stands and what it is."""
    text = fixture.read_text("utf-8")
    folder = shelf({f"limits/us/{fixture.name}": text})

    with pytest.raises(BadRuleFile) as refused:
        load_book("0.0.0", folder)

    assert refused.value.file == f"limits/us/{fixture.name}"
    assert text.splitlines()[0].removeprefix("# refused: ") in refused.value.reason


def test_each_mistake_has_its_own_fixture():
    """At least fourteen different mistakes are tried, each with what is expected of its refusal."""
    expected = [fixture.read_text("utf-8").splitlines()[0] for fixture in BROKEN]

    assert len(BROKEN) >= 14
    assert all(len(line) > len("# refused: ") and line.startswith("# refused: ") for line in expected)


def test_every_bad_file_is_reported_at_once(shelf: Shelf):
    """A check names all bad files, not the first alone, and leaves the good one out."""
    folder = shelf({f"limits/us/{fixture.name}": fixture.read_text("utf-8") for fixture in BROKEN})

    complaints = check(folder)

    assert sorted(bad.file for bad in complaints) == sorted(f"limits/us/{fixture.name}" for fixture in BROKEN)


def test_every_mistake_in_a_file_is_named(shelf: Shelf):
    """Two mistakes in one file are told together."""
    spoiled = GOOD.replace("[dry_cured]", "[dried]").replace("unit: ppm", "unit: part")

    (bad,) = check(shelf({"limits/us/us-nitrite-drycured-max.yaml": spoiled}))

    assert "unknown word 'dried'" in bad.reason
    assert "unknown word 'part'" in bad.reason


@pytest.mark.parametrize(
    ("name", "text", "reason"),
    [
        ("limits/eu/us-nitrite-drycured-max.yaml", GOOD, "is not the folder"),
        ("limits/us/readme.txt", GOOD, "a limit lies in limits/<jurisdiction>/<id>.yaml"),
        ("limits/stray.yaml", GOOD, "a limit lies in limits/<jurisdiction>/<id>.yaml"),
        ("limits/us/old/us-nitrite-drycured-max.yaml", GOOD, "cannot be read"),
        ("cautions.yaml", "hot-brine: cool it\n", "line 1: a list of rows is expected"),
        ("cautions.yaml", "- id: hot-brine\n", "missing field"),
        ("cautions.yaml", "- {id: a, text: b, applies_to: c, source: d, evidence: read, mood: e}", "unknown field"),
        ("premixes.yaml", "", "the file is empty"),
        ("premixes.yaml", "- {id: a, name: b, nitrite_percent: [6.25, 5]}\n", "missing field"),
    ],
)
def test_a_file_that_does_not_belong_is_refused(name: str, text: str, reason: str, shelf: Shelf):
    """What lies in the wrong place, or is no list where a list belongs, is refused."""
    (bad,) = check(shelf({name: text}))

    assert name.startswith(bad.file)
    assert reason in bad.reason


def test_an_id_stands_for_one_rule(shelf: Shelf):
    """The same id in two places is refused."""
    elsewhere = GOOD.replace("jurisdiction: US", "jurisdiction: CA")

    (bad,) = check(shelf({"limits/ca/us-nitrite-drycured-max.yaml": elsewhere}))

    assert bad == BadRuleFile(
        "limits/us/us-nitrite-drycured-max.yaml", "id: us-nitrite-drycured-max is also a rule of CA"
    )


@pytest.mark.parametrize("name", FILES)
def test_an_id_stands_once_in_a_list(name: str, shelf: Shelf):
    """A list that holds a row twice is refused."""
    text = (DATA / name).read_text("utf-8")

    (bad,) = check(shelf({name: f"{text}\n{text}"}))

    assert bad.file == name
    assert "stands in the list twice" in bad.reason


@pytest.mark.parametrize(
    ("nitrite", "reason"), [("[6.25, 5.88]", "from low to high"), ("[0, 625]", "less than or equal to 100")]
)
def test_a_strength_is_a_range_of_percents(nitrite: str, reason: str, shelf: Shelf):
    """A strength over 100 % or written backwards is refused."""
    row = f"- {{id: a, name: b, nitrite_percent: {nitrite}, nitrite_as: sodium_nitrite, nitrate_percent: 0, "

    (bad,) = check(shelf({"premixes.yaml": row + "salt_percent: 90, evidence: read}\n"}))

    assert reason in bad.reason


SUGAR = """
- id: raw-sugar
  name: raw sugar
  form: crystals
  kind: sugar
  readings:
    - source: kitchen scale
      evidence: own
      teaspoon_g: 4.5
      teaspoon_spread_g: [4.0, 5.0]
      spread_of: five spoons
  piece:
    {unit: cube, g: 4, low_g: 3, high_g: 5, source: kitchen, evidence: own, band_source: kitchen, band_evidence: own}
  sodium: {mg_per_100g: 0, source: kitchen scale, evidence: own}
"""


@pytest.mark.parametrize(
    ("written", "spoiled", "reason"),
    [
        ("kind: sugar", "kind: sweet", "unknown word 'sweet'"),
        ("id: raw-sugar", "id: Raw Sugar", "String should match pattern"),
        ("form: crystals\n", "form: crystals\n  brand: kitchen\n", "unknown field"),
        ("teaspoon_g: 4.5", "teaspoon_g: 0", "greater than 0"),
        ("teaspoon_g: 4.5", "teaspoon_g: .nan", "less than or equal to 1000"),
        ("teaspoon_g: 4.5", "teaspoon_g: '4.5'", "valid number"),
        ("[4.0, 5.0]", "[5.0, 4.0]", "a spread is written from low to high"),
        ("      spread_of: five spoons\n", "", "a spread says what it is of"),
        ("      teaspoon_g: 4.5\n", "", "the first reading has a figure, not a spread alone"),
        ("low_g: 3,", "low_g: 4.5,", "the weight of a piece lies in its band"),
        ("unit: cube", "unit: lump", "unknown word 'lump'"),
        ("mg_per_100g: 0", "mg_per_100g: 50000", "less than or equal to 40000"),
        ("source: kitchen scale\n      evidence: own", "source: kitchen scale", "missing field"),
        (SUGAR[SUGAR.index("  readings") :], "", "an ingredient has a reading or a piece"),
    ],
)
def test_a_mistake_in_an_ingredient_is_named(written: str, spoiled: str, reason: str, shelf: Shelf):
    """A row of the table with one mistake is refused by the file, the line and what it is."""
    assert check(shelf({"ingredients.yaml": SUGAR})) == ()

    (bad,) = check(shelf({"ingredients.yaml": SUGAR.replace(written, spoiled)}))

    assert bad.file == "ingredients.yaml"
    assert reason in bad.reason
    assert "line" in bad.reason


def test_the_digest_follows_the_table_of_ingredients(shelf: Shelf):
    """Another weight of a spoon is another engine."""
    before = load_book("0.0.0", shelf({"ingredients.yaml": SUGAR})).engine
    after = load_book("0.0.0", shelf({"ingredients.yaml": SUGAR.replace("4.5", "4.6")})).engine

    assert after.rules != before.rules


def test_bytes_that_are_no_text_are_refused(shelf: Shelf):
    """A file that is not UTF-8 is refused by name."""
    folder = shelf({})
    (folder / "limits/us/brine.yaml").write_bytes(b"id: \xff\xfe\n")

    (bad,) = check(folder)

    assert bad.file == "limits/us/brine.yaml"


@pytest.mark.parametrize("name", FILES)
def test_a_list_that_is_missing_is_named(name: str, shelf: Shelf):
    """A folder without one of its lists cannot be loaded."""
    folder = shelf({})
    (folder / name).unlink()

    (bad,) = check(folder)

    assert bad == BadRuleFile(name, "cannot be read: No such file or directory")


def test_a_folder_without_limits_is_refused(tmp_path: Path):
    """A folder that holds nothing gives no empty book."""
    with pytest.raises(RulesError) as refused:
        load_book("0.0.0", tmp_path)

    assert str(refused.value) == "limits: cannot be read: No such file or directory"


def test_the_packaged_book_has_no_complaints():
    """What is shipped can be loaded."""
    assert check() == ()


def test_rules_come_in_the_order_of_their_ids(book: RuleBook):
    """The order does not hang on folders or on the file system."""
    assert list(book.rules) == sorted(book.rules)
    assert all(id == rule.id for id, rule in book.rules.items())


def test_the_digest_follows_the_bytes(shelf: Shelf):
    """The same files give the same digest, one byte more gives another."""
    before = load_book("0.0.0", shelf({})).engine
    again = load_book("0.0.0", shelf({})).engine
    longer = load_book("0.0.0", shelf({"limits/us/us-nitrite-drycured-max.yaml": GOOD + "\n"})).engine

    assert again == before
    assert longer.rules != before.rules
    assert re.fullmatch("[0-9a-f]{16}", before.rules)


def test_the_digest_follows_the_names():
    """The order of reading changes nothing; the same bytes under another name do."""
    brine, rub = page.Page("limits/us/brine.yaml", b"a"), page.Page("limits/us/rub.yaml", b"b")
    renamed = page.Page("limits/us/cure.yaml", b"a")

    assert loader._digest([brine, rub]) == loader._digest([rub, brine])
    assert loader._digest([brine, rub]) != loader._digest([renamed, rub])


def test_the_slow_reader_reads_the_same(book: RuleBook, monkeypatch: pytest.MonkeyPatch):
    """Without libyaml the same rules and lists are read."""
    monkeypatch.setattr(page, "_READER", yaml.SafeLoader)

    slowly_read = load_book("0.0.0")

    assert slowly_read.rules == book.rules
    assert slowly_read.cautions == book.cautions
    assert slowly_read.premixes == book.premixes
    assert slowly_read.ingredients == book.ingredients
