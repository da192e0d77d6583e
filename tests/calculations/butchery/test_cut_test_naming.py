"""A cut that is not in the table: what is offered in its place, and what is not."""

import pytest

from service.calculations.butchery.cut_test import CUT_TEST, CutTestRequest, cut_test
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, body_of, part
from tests.calculations.butchery.cut_test_bodies import rows
from tests.calculations.butchery.cut_test_proofs import faults_of_refusal

LOIN = (part("eye", "cure", "4 kg", what="meat"), part("bones", "stock", "1.95 kg", what="bone"))


def offered(book: RuleBook, name: str, **more: str) -> list[str]:
    """The ids that are offered in place of a name."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, "6 kg", *LOIN, cut=name, **more)
    return str(refused.value.nearest).partition(". GET")[0].split(", ")


@pytest.mark.parametrize("name", ["pork-but", "Boston Butt", "neck", "406A", "brisket", "🐖", "GET", "beef round"])
def test_a_cut_that_is_not_there_is_refused_with_what_is_near(book: RuleBook, name: str):
    """Every id that is offered is one, and asking again with it is answered."""
    body = body_of("6 kg", *LOIN, cut=name)

    with pytest.raises(Impossible) as refused:
        cut_test(CutTestRequest.model_validate(body), book)

    told = {"code": refused.value.code, "nearest": refused.value.nearest}
    assert faults_of_refusal(body, told) == []
    assert {refused.value.code} == CUT_TEST.reasons.keys()


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("406a", ["pork-butt-boneless"]),
        ("lamb", ["lamb-shoulder", "lamb-shoulder-boneless", "lamb-breast", "lamb-foreshank", "lamb-loin", "lamb-leg"]),
        ("Turkey Brest", ["turkey-breast"]),
        ("pork neck", ["none"]),
        ("neck", ["beef-gooseneck"]),
        ("lamb_shoulder", ["lamb-shoulder", "lamb-shoulder-boneless"]),
        ("turkey crown", ["none"]),
        ("ground", ["ground-beef", "ground-pork", "ground-turkey"]),
        ("IMPS 406", ["pork-butt"]),
        ("406B", ["pork-butt", "pork-butt-boneless"]),
        ("pork belly 408", ["pork-belly"]),
        ("tofu", ["none"]),
    ],
)
def test_a_number_an_animal_or_a_word_leads_on(book: RuleBook, name: str, near: list[str]):
    """A number leads to its cut, an animal to no other, a word to what holds it; what is near nothing, to the list."""
    assert offered(book, name) == near


@pytest.mark.parametrize("name", ["fresh ham", "fresh-ham", "ham", "Fresh Hams"])
def test_a_fresh_piece_is_offered_before_what_is_cured(book: RuleBook, name: str):
    """Pork leg is named fresh ham as well: no cured product comes before it."""
    near = offered(book, name, animal="pork")

    assert near[0] == "pork-leg"
    kinds = [rows()[id]["kind"] for id in near]
    assert kinds == sorted(kinds)
    assert offered(book, "cured ham")[0] == "cured-ham"


@pytest.mark.parametrize(
    ("name", "animal", "near"),
    [
        ("leg", "lamb", ["lamb-leg"]),
        ("shoulder", "turkey", ["none"]),
        ("406", "beef", ["none"]),
        ("406", "pork", ["pork-butt"]),
        ("lamb leg", "pork", ["lamb-leg"]),
    ],
)
def test_none_of_another_animal_is_offered_where_one_is_stated(book: RuleBook, name: str, animal: str, near: list[str]):
    """An animal in the name comes before the one that is stated."""
    assert offered(book, name, animal=animal) == near


def test_where_none_fits_the_list_is_offered(book: RuleBook):
    """It reads on after the word nearest, and names the cuts of the animal."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, "6 kg", *LOIN, cut="venison leg")

    assert refused.value.nearest == "none. GET /v1/cuts?animal=game lists all there are; leave cut out where none fits."


def test_one_wrong_letter_offers_the_right_id_first(book: RuleBook):
    """pork-but is pork-butt; every id that there is, is answered."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, "6 kg", *LOIN, cut="pork-but")

    assert str(refused.value.nearest).startswith("pork-butt, ")
    assert {answer_to(book, "6 kg", *LOIN, cut=id).cut is None for id in rows()} == {False}


def test_a_word_is_not_found_inside_another(book: RuleBook):
    """Round is not ground; each that is offered is of the round."""
    near = offered(book, "round")

    assert near[:2] == ["beef-eye-of-round", "beef-bottom-round"]
    assert [id for id in near if "round" not in rows()[id]["name"]] == []
    assert "ground-beef" not in near
