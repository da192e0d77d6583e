"""The two ways in which a calculation declines: a limit would be broken, or the thing cannot be done."""

from dataclasses import dataclass

from service.rules.finding import Finding


class Refusal(Exception):
    """Root of what a calculation raises on a request that is well formed."""


@dataclass
class LimitExceeded(Refusal):
    """A prescription would break a limit that may refuse. Carries every finding, kept and broken."""

    findings: tuple[Finding, ...]
    advice: str
    """What to change, in a sentence."""


@dataclass
class Impossible(Refusal):
    """No amounts do what was asked for, whatever the law says."""

    code: str
    """Stable code of the reason, for translation."""
    reason: str
    """Why, with the numbers."""
    nearest: str | None = None
    """The nearest thing that can be done."""
    findings: tuple[Finding, ...] = ()
