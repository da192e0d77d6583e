"""What the loader refuses of allergens, words, names of cures and label rules, and what it promises of them."""

import pytest
import yaml

from service.rules.book import RuleBook
from service.rules.loader import BadRuleFile, load_book
from tests.rules.conftest import DATA, Shelf


def spoiled(name: str, **change: object) -> str:
    """A list whose first row is changed."""
    rows = yaml.safe_load((DATA / name).read_text("utf-8"))
    return str(yaml.safe_dump([{**rows[0], **change}, *rows[1:]]))


@pytest.mark.parametrize(
    ("name", "change", "reason"),
    [
        ("substances.yaml", {"kind": "form"}, "only a substance or a mix brings anything in"),
        ("substances.yaml", {"kind": "mix", "open_to": ["eggs"]}, "a mix is open to every allergen"),
        ("substances.yaml", {"words": ["Cr\u00e8me"]}, "words"),
        ("substances.yaml", {"carries": ["nuts"]}, "carries"),
        ("cure_names.yaml", {"words": []}, "a row has words, near or parts"),
        ("cure_names.yaml", {"kind": "spice"}, "unknown word"),
        ("allergens.yaml", {"id": "nuts"}, "unknown word"),
        ("allergens.yaml", {"lists": []}, "lists"),
        ("label_rules.yaml", {"item": "price"}, "unknown word"),
        ("label_rules.yaml", {"colour": "red"}, "unknown field"),
    ],
)
def test_a_row_that_says_what_cannot_be_is_refused(name: str, change: dict[str, object], reason: str, shelf: Shelf):
    """By its file, with what is wrong."""
    folder = shelf({name: spoiled(name, **change)})

    with pytest.raises(BadRuleFile, match=reason) as refused:
        load_book("test", folder)

    assert refused.value.file == name


def test_a_place_lists_an_allergen_once(shelf: Shelf):
    """Two laws of one place would contradict each other."""
    rows = yaml.safe_load((DATA / "allergens.yaml").read_text("utf-8"))
    folder = shelf({"allergens.yaml": yaml.safe_dump([{**rows[0], "lists": rows[0]["lists"] * 2}, *rows[1:]])})

    with pytest.raises(BadRuleFile, match="a place lists an allergen once"):
        load_book("test", folder)


def test_every_item_has_a_rule(book: RuleBook):
    """Whatever a caller may say of a label is asked for by some law here."""
    items = {rule.item for rule in book.label_rules.values()} - {None}

    assert len(items) == 13


def test_the_words_count_in_the_digest(shelf: Shelf):
    """An answer made with other words has another engine."""
    changed = (DATA / "substances.yaml").read_text("utf-8") + "\n# read again\n"

    assert load_book("test", shelf({})).engine != load_book("test", shelf({"substances.yaml": changed})).engine
