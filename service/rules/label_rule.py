"""A statement that a label has to bear, as it is written down: where, in which words, by which law."""

from datetime import date

from pydantic import Field

from service.rules.rule import Row
from service.rules.vocabulary import Evidence, Jurisdiction, LabelItem, Operator


class LabelRule(Row):
    """What one law asks of a label."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    item: LabelItem | None
    """What is asked for; null for a rule on how something is written."""
    places: tuple[Jurisdiction, ...] = Field(min_length=1)
    """Where."""
    since: date | None
    """First day in force; null where the age is not known."""
    audience: tuple[Operator, ...]
    """Whom it binds for certain; a household is never bound, of anybody else left out it is not known here."""
    text: str = Field(min_length=3)
    """What has to stand there, or what may not, in a sentence."""
    quoted: tuple[str, ...] = ()
    """Words that the law itself sets, one line each."""
    where: str = Field(min_length=3)
    """Where on the label."""
    figures_percent: tuple[float, ...] = ()
    """Its numbers, in percent."""
    level_mg_per_kg: float | None = Field(default=None, ge=0, le=1000)
    """From so much on in the food as it is eaten; null where any amount counts."""
    citation: str = Field(min_length=5)
    """Where it is printed."""
    evidence: Evidence
    """How that is known."""
    text_as_of: str | None = Field(default=None, pattern=r"^[0-9]{4}(-[0-9]{2}){0,2}$")
    """Date of the text that was read."""
    note: str = ""
    """What else should be known about it."""

    def in_force(self, place: Jurisdiction, on: date) -> bool:
        return place in self.places and (self.since is None or self.since <= on)
