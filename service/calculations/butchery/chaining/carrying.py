"""A chain carried through: the weight at every point, from what was bought, or back from what is wanted."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from service.calculations.butchery.chaining.asking import CookStage, TrimStage
from service.calculations.butchery.chaining.bands import NOISE, WHOLE, CarriedWeight, Share
from service.calculations.butchery.chaining.links import CHANGES, Link
from service.calculations.butchery.chaining.refusing import require_carted, require_share, weighed_in_a_plan
from service.calculations.butchery.chaining.yields import worth_of_a_point_g


@dataclass(frozen=True)
class Chain:
    """Stages with the weight before the first and after each."""

    links: tuple[Link, ...]
    points: tuple[CarriedWeight, ...]
    is_bought: bool
    """Whether the first weight was weighed; else it is worked out."""
    _shares: dict[tuple[int, int], Share] = field(default_factory=dict, repr=False)

    def is_fact(self, point: int) -> bool:
        """Whether the weight there was weighed."""
        return self.is_bought if point == 0 else self.links[point - 1].weighed_g is not None

    def share(self, later: int, earlier: int) -> Share:
        """What part a later weight is of an earlier one, every combination within.

        From a weight that was weighed in between, the later one no longer hangs on the earlier one.
        """
        known = self._shares.get((later, earlier))
        if known is None:
            known = self._shares[later, earlier] = self._share(later, earlier)
        return known

    def _share(self, later: int, earlier: int) -> Share:
        if later == earlier:
            return WHOLE
        link = self.links[later - 1]
        if link.share is None or link.weighed_g is not None:
            return self.points[later].share_of(self.points[earlier])
        return link.share if later - 1 == earlier else self.share(later - 1, earlier).times(link.share)

    def saved_g(self, number: int) -> float:
        """What one more point of yield in a stage saves to buy, with what is usual in every other."""
        share = self.share(number, number - 1)
        return worth_of_a_point_g(self.points[0].typical_g, left_fraction=share.typical_fraction)

    @cached_property
    def green(self) -> int | None:
        """The last point at which the piece is fresh and trimmed for certain; None where nothing says so."""
        links = self.links
        changing = next((link.number - 1 for link in links if self._changes(link)), None)
        if changing is None:
            changing = max((link.number for link in links if isinstance(link.stage, TrimStage)), default=0)
        of = links[changing].of if changing < len(links) else links[-1].left
        return changing if of == "trimmed" else None

    def _changes(self, link: Link) -> bool:
        """Whether the piece is no longer fresh after it: cured, cooked, or heavier than it was."""
        return isinstance(link.stage, CHANGES) or self.share(link.number, link.number - 1).high_fraction > 1 + NOISE

    @cached_property
    def is_cooked(self) -> bool:
        return any(isinstance(link.stage, CookStage) for link in self.links)


def forwards(bought_g: float, links: tuple[Link, ...]) -> Chain:
    """From what was bought to what is left. Raises Impossible where a weight that was weighed cannot be so."""
    return Chain(links, tuple(_forwards(CarriedWeight.exactly(bought_g), links)), is_bought=True)


def _forwards(weight: CarriedWeight, links: tuple[Link, ...]) -> Iterator[CarriedWeight]:
    yield weight
    for link in links:
        if link.weighed_g is not None:
            require_share(link.weighed_g / weight.typical_g, f"What was weighed after stage {link.number} is")
            weight = CarriedWeight.exactly(link.weighed_g)
        elif link.share:
            weight = weight.after(link.share)
        yield weight


def backwards(wanted_g: float, links: tuple[Link, ...]) -> Chain:
    """From what is wanted to what is to be bought. Raises Impossible for a plan that states what was weighed."""
    for link in links:
        if link.weighed_g is not None:
            raise weighed_in_a_plan(link.number)
    points = [CarriedWeight.exactly(wanted_g)]
    for link in reversed(links):
        points.append(points[-1].before(link.share) if link.share else points[-1])
    require_carted(points[-1].high_g, wanted_g=wanted_g)
    return Chain(links, tuple(reversed(points)), is_bought=False)
