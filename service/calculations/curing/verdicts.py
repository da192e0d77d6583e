"""Holding a dose against the rules that bind it: refused before it is weighed, checked again after."""

from service.calculations.curing.advice import advice_on
from service.calculations.curing.readings import Figures, Readings
from service.calculations.curing.rulings import Ruling
from service.calculations.refusals import LimitExceeded
from service.quantities.scale import Scale
from service.rules.finding import Finding


def refuse_over_limits(ruling: Ruling, exact: Readings, scale: Scale) -> None:
    """Refuse what was asked for when it breaks a limit before any rounding. Raises LimitExceeded."""
    for each in ruling.refusing:
        if each.asked.breaks(each.figure(exact)):
            findings = tuple(each.asked.finding(each.figure(exact)) for each in ruling.yardsticks)
            raise LimitExceeded(findings, advice_on(findings, exact, scale))


def findings_of_dose(ruling: Ruling, figures: Figures, weighed: Readings, scale: Scale) -> tuple[Finding, ...]:
    """The findings on what will be weighed. Raises LimitExceeded when rounding down left a required range."""
    findings = tuple([each.finding(figures[each.figure]) for each in ruling.yardsticks])
    for finding in findings:
        if finding.refuses:
            raise LimitExceeded(findings, advice_on(findings, weighed, scale))
    return findings
