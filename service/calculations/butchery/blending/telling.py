"""Tells a solution: amounts, composition, limits, what is left out, and the next-best blend."""

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal

from service.calculations.butchery.blending.limits import InItsUnit, Limit, PerMaterial, dot
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.savings import Cost, Prices, Saving
from service.calculations.butchery.blending.solution import Solution
from service.calculations.butchery.blending.told import (
    AnimalShare,
    BlendItem,
    BlockComposition,
    BlockTotal,
    ChosenBlend,
    LeftOutMaterial,
    LimitTold,
    NextBestTold,
    SavingTold,
)
from service.calculations.butchery.blending.weighing import told_tolerance
from service.quantities.models import made
from service.quantities.money import Money, present_money
from service.quantities.quantity import Mass, Units, Weight, present_weight
from service.quantities.units import factor
from service.rules.finding import Finding
from service.rules.vocabulary import Animal

PERCENT_DIGITS = 6
CHOSEN = {
    "least_cost": "The cheapest blend that keeps every limit.",
    "only_blend": "No other blend keeps every limit; without prices there is nothing to choose.",
    "least_weight": "Without prices, and with several blends to choose from: the one that weighs least, so that no "
    "more is added than need be.",
    "oldest_stock": "Without prices, and with several blends to choose from: the one that takes the oldest stock.",
    "listed_first": "Without prices and ages, and with several blends to choose from: the one that takes most of what "
    "is listed first.",
}
BROKEN_TIE = (
    " Others are as cheap: of those the lightest, then the one with the oldest stock, then what is listed first."
)


class Teller:
    """Reads a solution off, in the units that are asked for."""

    def __init__(self, solution: Solution, units: Units, scale_step: Mass | None) -> None:
        self._solution, self._units, self._step = solution, units, scale_step
        self.materials: tuple[Material, ...] = solution.terms.in_play.materials
        self.amounts_g = solution.grams(solution.weighed)
        prices = [material.price for material in self.materials if material.price]
        self._prices = [price.of_a_gram for price in prices]
        self.currency = prices[0].currency if prices else ""
        self._one_g = Decimal(str(factor(solution.terms.unit)))
        self._block_cost = max(self._prices, default=Decimal(0)) or Decimal(1)
        self._block_cost *= Decimal(solution.terms.scale_g)

    def weigh(self) -> tuple[BlendItem, ...]:
        """What the block consists of, in the order of the request."""
        return self._items(self.amounts_g, self._step)

    def total(self) -> BlockTotal:
        """The whole block."""
        block_g, cost = sum(self.amounts_g), self._cost(self.amounts_g)
        each = None if cost is None else cost / Decimal(block_g) * self._one_g
        return made(
            BlockTotal,
            weight=present_weight(block_g, self._units),
            exact_g=block_g,
            cost=self._money(cost),
            cost_of_one=self._money(each, 4),
            per="kg" if self._units == "metric" else "lb",
        )

    def composition(self) -> BlockComposition:
        """What the block holds."""
        block_g, used = sum(self.amounts_g), [n for n, amount_g in enumerate(self.amounts_g) if amount_g]
        protein = self._share([self.materials[n].protein_percent for n in used], used, block_g)
        moisture = self._share([self.materials[n].moisture_percent for n in used], used, block_g)
        return made(
            BlockComposition,
            fat_percent=self._share([self.materials[n].fat_percent for n in used], used, block_g),
            protein_percent=protein,
            moisture_percent=moisture,
            salt_percent=self._share([self.materials[n].salt_percent for n in used], used, block_g),
            moisture_to_protein_ratio=round(moisture / protein, 4) if moisture is not None and protein else None,
        )

    def animals(self) -> tuple[AnimalShare, ...]:
        """The most first."""
        block_g, each_g = sum(self.amounts_g), defaultdict[Animal, float](float)
        for material, amount_g in zip(self.materials, self.amounts_g, strict=True):
            each_g[material.animal] += amount_g
        rows = sorted(((mass_g, animal) for animal, mass_g in each_g.items() if mass_g), key=lambda row: -row[0])
        return tuple(
            made(AnimalShare, animal=animal, share_percent=round(100 * mass_g / block_g, PERCENT_DIGITS))
            for mass_g, animal in rows
        )

    def cured(self) -> tuple[str, ...]:
        """Names of what is used and was cured before."""
        rows = zip(self.materials, self.amounts_g, strict=True)
        return tuple(material.name for material, amount_g in rows if material.cured and amount_g)

    def chosen(self) -> ChosenBlend:
        """How it was chosen."""
        choice = self._solution.choice
        tie = BROKEN_TIE if choice.by == "least_cost" and not choice.only_one else ""
        return made(ChosenBlend, by=choice.by, only_one=choice.only_one, text=CHOSEN[choice.by] + tie)

    def limits(self, prices: Prices | None, findings: tuple[Finding, ...], *, full: bool) -> tuple[LimitTold, ...]:
        """Every limit; in brief those that bind."""
        solution, exact = self._solution, self._solution.choice.amounts
        savings = {id(saving.limit): saving for saving in prices.savings(holding=full)} if prices else {}
        rows = zip(solution.limits, solution.solved, strict=True)
        held = {finding.rule: finding.figure for finding in findings}
        return tuple(
            self._limit(limit, savings.get(id(solved)), held, binds=solved.is_tight(exact))
            for limit, solved in rows
            if full or solved.is_tight(exact)
        )

    def left_out(self, prices: Prices | None) -> Iterator[LeftOutMaterial]:
        """Every material that is not used."""
        for material, code, text in self._solution.terms.in_play.out:
            yield made(LeftOutMaterial, name=material.name, code=code, text=text, comes_in_below=None)
        chosen = self._solution.choice.amounts
        for material, amount_g, amount in zip(self.materials, self.amounts_g, chosen, strict=True):
            if not amount_g and (amount or prices is None):
                text = f"Less than half a step of {material.name}." if amount else f"No {material.name} is needed."
                yield made(LeftOutMaterial, name=material.name, code="not_needed", text=text, comes_in_below=None)
        for entry in prices.entries() if prices else ():
            yield self._too_dear(entry.number, entry.penalty)

    def next_best(self, prices: Prices | None) -> NextBestTold | None:
        """The next-best blend."""
        found = prices.next_best() if prices else None
        if prices is None or found is None:
            return None
        return made(
            NextBestTold,
            without=self.materials[found.without].name,
            costs_more=self._money(Decimal(found.cost - prices.cost) * self._block_cost),
            cost=self._money(Decimal(found.cost) * self._block_cost),
            weigh=self._items(self._solution.grams(found.amounts), None),
        )

    def _items(self, amounts_g: PerMaterial, step: Mass | None) -> tuple[BlendItem, ...]:
        block_g = sum(amounts_g)
        return tuple(
            made(
                BlendItem,
                name=material.name,
                animal=material.animal,
                amount=self._weight(amount_g, step),
                exact_g=amount_g,
                share_percent=round(100 * amount_g / block_g, PERCENT_DIGITS),
                cost=self._money(self._prices[number] * Decimal(amount_g)) if self._prices else None,
            )
            for number, (material, amount_g) in enumerate(zip(self.materials, amounts_g, strict=True))
            if amount_g
        )

    def _weight(self, amount_g: float, step: Mass | None) -> Weight:
        if step is None:
            return present_weight(amount_g, self._units)
        return made(Weight, value=round(amount_g / factor(step.unit), 9), unit=step.unit)

    def _cost(self, amounts_g: PerMaterial) -> Decimal | None:
        if not self._prices:
            return None
        return sum((price * Decimal(g) for price, g in zip(self._prices, amounts_g, strict=True)), Decimal(0))

    def _money(self, value: Decimal | None, decimals: int = 2) -> Money | None:
        return None if value is None else present_money(value, self.currency, decimals=decimals)

    def _share(self, percents: list[float | None], used: list[int], block_g: float) -> InItsUnit | None:
        if any(percent is None for percent in percents):
            return None
        held = dot(tuple([percent or 0.0 for percent in percents]), tuple([self.amounts_g[n] for n in used]))
        return round(held / block_g, PERCENT_DIGITS)

    def _limit(self, limit: Limit, saving: Saving | None, held: dict[str, float | None], *, binds: bool) -> LimitTold:
        """A limit of the law has the figure of its finding, and nothing may put it past that."""
        solution = self._solution
        figure = held[limit.law.id] if limit.law else _rounded(limit.figure(solution.weighed))
        tolerance = 0.0 if limit.law else told_tolerance(limit, solution.choice.amounts, solution.step)
        return made(
            LimitTold,
            code=limit.code,
            words=limit.words,
            place=limit.place,
            rule=limit.law.id if limit.law else None,
            bound=limit.bound,
            value=limit.value,
            figure=figure,
            unit=limit.unit,
            tolerance=round(tolerance, 9),
            binds=binds,
            saving=self._saving(saving) if saving else None,
        )

    def _saving(self, saving: Saving) -> SavingTold:
        return made(
            SavingTold,
            by="raising" if saving.higher else "lowering",
            for_one=present_money(Decimal(saving.for_one) * self._block_cost, self.currency, decimals=4),
            holds_to=None if saving.holds_to is None else round(saving.holds_to, 9),
        )

    def _too_dear(self, number: int, penalty: Cost | None) -> LeftOutMaterial:
        name = self.materials[number].name
        if penalty is None:
            text = f"At no price does {name} fit in."
            return made(LeftOutMaterial, name=name, code="no_price_helps", text=text, comes_in_below=None)
        dearest = max(self._prices) or Decimal(1)
        price = (self._prices[number] - Decimal(penalty) * dearest) * self._one_g
        if penalty <= AS_GOOD:
            text = f"A blend with {name} would cost as much."
            return made(LeftOutMaterial, name=name, code="as_good", text=text, comes_in_below=None)
        unit = self._solution.terms.unit
        if price <= 0:
            text = f"{name} would have to cost less than nothing to be used."
            return made(LeftOutMaterial, name=name, code="no_price_helps", text=text, comes_in_below=None)
        told = present_money(price, self.currency, decimals=4)
        text = f"{name} is too dear: under {told.amount} {told.currency} per {unit} it would be used."
        return made(LeftOutMaterial, name=name, code="too_dear", text=text, comes_in_below=told)


def _rounded(figure: InItsUnit | None) -> InItsUnit | None:
    return None if figure is None else round(figure, 9)


AS_GOOD = 1e-7
"""Of the dearest price: a material that costs no more than this too much is as good."""
