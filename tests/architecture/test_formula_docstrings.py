"""Each formula is published with its equation, units, range, example and source."""

import ast
import textwrap

import pytest

from tests.architecture.formula_docstrings import faults, formulas
from tests.architecture.house import Source, listed, sources

GOOD = textwrap.dedent('''
    def brine_ppm(salt_g: float, *, share_fraction: float, water_kg: float, cut: Cut) -> float:
        """What a brine holds, per million.

        .. math:: ppm = salt share / water

        Parameters
        ----------
        salt_g : float
            Salt [g]
        share_fraction : float
            Share of it [fraction]
        water_kg : float
            Water [kg]
        cut : Cut
            What lies in it.

        Returns
        -------
        ppm : float
            Salt [ppm]

        Raises
        ------
        DryBrine
            Without water.

        Notes
        -----
        Holds for water.

        Examples
        --------
        >>> brine_ppm(1, share_fraction=1, water_kg=1, cut=loin)
        1000.0

        References
        ----------
        A handbook, p. 1.
        """
        require(water_kg > 0, DryBrine)
        return salt_g * share_fraction * 1000 / water_kg
''')

PLANTED = {
    "no sentence": ("What a brine holds, per million.", "What a brine holds", "does not begin with a sentence"),
    "no equation": (".. math:: ppm = salt share / water", "Nothing to see.", "no equation after the sentence"),
    "another unit": ("Water [kg]", "Water [g]", "[g] for water_kg"),
    "no unit": ("Share of it [fraction]", "Share of it", "no [unit] for share_fraction"),
    "another name": ("salt_g : float", "sugar_g : float", "describes the parameters ['sugar_g', 'share_fraction'"),
    "another order": (
        "salt_g: float, *, share_fraction: float",
        "share_fraction: float, *, salt_g: float",
        "takes ['share",
    ),
    "another result": ("Salt [ppm]", "Salt [percent]", "[percent] for brine_ppm"),
    "no references": ("A handbook, p. 1.", "", "no section References"),
    "no notes": ("Holds for water.", "", "no section Notes"),
    "no raises": ("Raises\n", "Rises\n", "no section Raises"),
    "another example": (">>> brine_ppm(", ">>> cure_ppm(", "no example calls brine_ppm"),
    "prose for an example": (">>> brine_ppm(", "brine_ppm(", "no example calls brine_ppm"),
}


def only(text: str) -> list[str]:
    """The faults of the one formula in this text."""
    (formula,) = formulas(Source("service/calculations/brine.py", text))
    return faults(formula)


def test_every_formula_states_what_it_needs_and_where_it_is_from():
    """Names and units in the docstring of each formula agree with its signature, and no section is missing."""
    every = [(source, formula) for source in sources("service/calculations") for formula in formulas(source)]

    found = [source.at(formula, f"{formula.name}: {fault}") for source, formula in every for fault in faults(formula)]

    assert every
    assert not found, listed(found)


def test_a_full_docstring_has_no_fault():
    """The checker is content with a docstring that leaves nothing out."""
    assert only(GOOD) == []


@pytest.mark.parametrize("planted", PLANTED)
def test_a_planted_mistake_is_found(planted: str):
    """Each mistake in an otherwise full docstring is found."""
    right, wrong, fault = PLANTED[planted]

    found = only(GOOD.replace(right, wrong, 1))

    assert GOOD.count(right) >= 1
    assert any(line.startswith(fault) or fault in line for line in found), found


def test_a_formula_without_a_docstring_is_found():
    """Silence is the first fault."""
    assert "no section Parameters" in only("def salt_g(meat_g: float) -> float:\n    return meat_g\n")


def test_what_returns_no_number_is_no_formula():
    """Private functions and functions with other answers are left alone."""
    text = "def _salt_g() -> float: ...\ndef cut() -> Cut: ...\ndef salt_g() -> float | None: ..."

    assert [formula.name for formula in formulas(Source("a.py", text))] == ["salt_g"]
    assert isinstance(formulas(Source("a.py", text))[0], ast.FunctionDef)
