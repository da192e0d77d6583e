"""Why a chain has no answer, and what can be stated in its place."""

from math import floor

from service.calculations.butchery.cutting import naming
from service.calculations.refusals import Impossible
from service.rules.wording import told_apart

REASONS = naming.REASONS | {
    "no_published_yield": "For this stage nothing fitting is published, so its share has to be stated or weighed.",
    "pick_up_not_stated": "What a cure brings or takes is stated or weighed, never taken from a table.",
    "weighed_in_a_plan": "A weight that was weighed belongs to a batch that was bought, not to one that is to be.",
    "range_out_of_order": "A range does not go from low over usual to high.",
    "share_out_of_range": "Two weights come to a share that no stage leaves.",
    "wrong_basis": "A share is of another weight than the one that enters its stage.",
    "cut_of_another_product": "The cut that is named cannot be the product that the law is asked for.",
    "cured_after_cooking": "What is cooked is not cured afterwards.",
    "too_much_to_buy": "It would take more than a million tonnes.",
}
"""Every way in which a chain has no answer."""

LEAST_LEFT_FRACTION, MOST_LEFT_FRACTION = 0.05, 2.5
"""Own bounds on what a stage leaves: those of the percentages that can be stated."""
MOST_G = 1e12
"""A million tonnes (own bound)."""


def nothing_published(missing: list[str], published: str, numbers: list[int], otherwise: str) -> Impossible:
    """Stages without a share, and what is published. otherwise: another way, where there is one."""
    return Impossible(
        code="no_published_yield",
        reason=f"Nothing that fits is published for {' or '.join(missing)}. {published}",
        nearest=f"State change for {stages_named(numbers)}: what is left of the weight that enters, or a test of your "
        f"own.{otherwise}",
    )


def no_pick_up(cures: list[int], numbers: list[int]) -> Impossible:
    """A cure without a share, among all the stages that have none."""
    return Impossible(
        code="pick_up_not_stated",
        reason=f"What the cure of {stages_named(cures)} brings or takes hangs on pump, pickle and days: no table has "
        "it.",
        nearest=f"State change for {stages_named(numbers)}: of a cure the pump that is weighed in, as gained, or a "
        "test of your own. Of a batch that is cured already, state weighed with a task of bought.",
    )


def stages_named(numbers: list[int]) -> str:
    """Stages in words."""
    return ("stage " if len(numbers) == 1 else "stages ") + " and ".join(str(number) for number in numbers)


def weighed_in_a_plan(number: int) -> Impossible:
    """A fact in a plan."""
    return Impossible(
        code="weighed_in_a_plan",
        reason=f"Stage {number} states what this batch weighed, and the task asks what to buy for another one.",
        nearest="Ask with a task of bought to go on from that weight, or leave weighed out and state change "
        "with kind own_test.",
    )


def out_of_order(what: str) -> Impossible:
    """A range that runs backwards."""
    return Impossible(
        code="range_out_of_order",
        reason=f"The range of {what} does not go from low to high, with what is usual between.",
        nearest="Write the least as low and the most as high, or leave both out.",
    )


def require_share(fraction: float, what: str) -> None:
    """Raises Impossible for two weights that belong to no one stage: a slip of the unit, most of the time."""
    if not LEAST_LEFT_FRACTION <= fraction <= MOST_LEFT_FRACTION:
        raise Impossible(
            code="share_out_of_range",
            reason=f"{what} {_apart(100 * fraction)} percent of what went in; "
            f"a stage leaves {100 * LEAST_LEFT_FRACTION:g} to {100 * MOST_LEFT_FRACTION:g}.",
            nearest="Look at the units of both weights, and state weights that lie within that.",
        )


def _apart(percent: float) -> str:
    """With as many digits as it takes to see on which side of a bound it lies."""
    least, most = (100 * fraction for fraction in (LEAST_LEFT_FRACTION, MOST_LEFT_FRACTION))
    return told_apart(percent, limit=least if percent < least else most)


def require_carted(buy_g: float, *, wanted_g: float) -> None:
    """Raises Impossible where nobody could buy as much."""
    if not buy_g <= MOST_G:
        most_g = wanted_g * MOST_G / buy_g
        most = f"{min(floor(most_g) / 1000, 1e6):.12g} kg" if most_g >= 1000 else f"{floor(1e3 * most_g) / 1e3:.12g} g"
        raise Impossible(
            code="too_much_to_buy",
            reason=f"It would take {buy_g / MOST_G:,.2f} million tonnes.",
            nearest=f"Ask with a task of weight_wanted for at most {most}.",
        )
