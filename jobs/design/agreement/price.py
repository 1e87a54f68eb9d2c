"""The price of a job: lines that follow the design, discount, tax by date, total and deposit.

Every line is rounded to the smallest coin, halves up; lines are then added exactly. The discount
is taken off what each class of tax comes to, and the tax of a class is worked out once, from its
sum. Source: EN 16931-1, BR-CO-10, BR-CO-14 and BR-CO-17, from memory
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cached_property

from django.utils import timezone

from jobs import money
from jobs.design.agreement.lines import GROUPS, Group, Line, Unit
from jobs.design.agreement.materials import Bought, work_out_bought
from jobs.design.agreement.work import Task, work_lines, work_out_tasks
from jobs.design.box.boxes import BoxResult
from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wiring.schedule import LaidRuns
from jobs.design.wood.trim import TrimResult
from jobs.models import PriceLine, TaxClass, TaxRate

ZERO = Decimal(0)


@dataclass(frozen=True, kw_only=True)
class TaxLine:
    """What one class of tax comes to; without a rate for the day the tax is unknown."""

    tax_class: str
    percent: Decimal | None
    net: Decimal
    discount: Decimal
    currency: str

    @property
    def label(self) -> str:
        """What people call the class."""
        return str(TaxClass(self.tax_class).label)

    @property
    def base(self) -> Decimal:
        """What is taxed: the lines of the class less the discount."""
        return self.net - self.discount

    @property
    def tax(self) -> Decimal | None:
        """The tax, rounded once."""
        return None if self.percent is None else money.share(self.base, self.percent, self.currency)


@dataclass(frozen=True, kw_only=True)
class Block:
    """The lines of one group with their sum, as far as it is known."""

    group: Group
    lines: tuple[Line, ...]

    @property
    def title(self) -> str:
        """The heading over them."""
        return str(GROUPS[self.group])

    @property
    def net(self) -> Decimal:
        """What its lines come to, as far as known."""
        return sum((line.net for line in self.lines if line.net is not None), ZERO)


@dataclass(frozen=True, kw_only=True)
class JobPrice:
    """What a job comes to; as long as something is missing, no more than what is known of it."""

    currency: str
    on: date
    lines: tuple[Line, ...]
    tasks: tuple[Task, ...]
    bought: Bought
    discount_percent: Decimal
    deposit_percent: Decimal
    taxes: tuple[TaxLine, ...]
    budget: Decimal | None

    @cached_property
    def blocks(self) -> list[Block]:
        """The lines under their headings."""
        blocks = [
            Block(group=group, lines=tuple(line for line in self.lines if line.group == group))
            for group in Group
        ]
        return [block for block in blocks if block.lines]

    @property
    def net(self) -> Decimal:
        """What the lines come to before discount and tax."""
        return sum((tax.net for tax in self.taxes), ZERO)

    @property
    def discount(self) -> Decimal:
        """What is taken off."""
        return sum((tax.discount for tax in self.taxes), ZERO)

    @property
    def tax(self) -> Decimal:
        """All tax, as far as its rates are known."""
        return sum((tax.tax for tax in self.taxes if tax.tax is not None), ZERO)

    @property
    def total(self) -> Decimal:
        """What the customer pays."""
        return self.net - self.discount + self.tax

    @property
    def deposit(self) -> Decimal:
        """What is paid before the work begins."""
        return money.share(self.total, self.deposit_percent, self.currency)

    @property
    def over_budget(self) -> Decimal | None:
        """How far it is above what the customer would spend; None where it is not."""
        if self.budget is None or self.total <= self.budget:
            return None
        return self.total - self.budget

    @property
    def left_of_budget(self) -> Decimal | None:
        """What the budget still leaves."""
        return None if self.budget is None else self.budget - self.total

    @property
    def cost(self) -> Decimal:
        """What it costs the workshop, as far as known."""
        return sum((line.cost for line in self.lines if line.cost is not None), ZERO)

    @property
    def without_cost(self) -> list[str]:
        """What of it nobody knows the cost of."""
        return [line.name for line in self.lines if line.cost is None]

    @property
    def margin(self) -> Decimal | None:
        """What is left of the price without tax; None as long as a cost is unknown."""
        if self.without_cost or self.missing:
            return None
        return self.net - self.discount - self.cost

    # -- what is missing, as (key, words)

    @cached_property
    def unpriced(self) -> list[tuple[str, str]]:
        """Things and hours that nobody named a price for."""
        return [(line.key, line.name) for line in self.lines if line.each is None]

    @cached_property
    def untimed(self) -> list[tuple[str, str]]:
        """Work that nobody said the minutes of."""
        return [(task.key, task.name) for task in self.tasks if task.minutes is None]

    @cached_property
    def untaxed(self) -> list[tuple[str, str]]:
        """Classes of tax without a rate on the day."""
        return [(tax.tax_class, tax.label) for tax in self.taxes if tax.percent is None]

    @property
    def missing(self) -> int:
        """How many things the total does not hold yet."""
        unknown = (self.unpriced, self.untimed, self.untaxed)
        counted = self.bought.unmeasured, self.bought.not_laid
        return sum(len(things) for things in (*unknown, *counted))


def work_out_price(
    records: JobRecords,
    boxes: Sequence[BoxResult],
    trims: Sequence[TrimResult],
    laid: LaidRuns,
) -> JobPrice:
    """Add a job up as it is designed now."""
    job, shop = records.job, records.workshop
    bought = work_out_bought(records, boxes, trims, laid)
    tasks = work_out_tasks(records, boxes, trims)
    by_hand = _by_hand(records.price_lines, shop.currency)
    lines = (*bought.lines, *by_hand, *work_lines(tasks, shop))
    on = job.promised_on or timezone.localdate()
    discount = job.discount or ZERO
    deposit = shop.usual_deposit if job.deposit is None else job.deposit
    return JobPrice(
        currency=shop.currency,
        on=on,
        lines=lines,
        tasks=tuple(tasks),
        bought=bought,
        discount_percent=discount,
        deposit_percent=deposit or ZERO,
        taxes=tax_lines(lines, records.tax_rates, on, discount, shop.currency),
        budget=job.budget,
    )


def _by_hand(rows: Iterable[PriceLine], currency: str) -> list[Line]:
    return [
        Line(
            group=Group.BY_HAND,
            key=about(row).id,
            name=row.text,
            unit=Unit.PIECE,
            quantity=row.quantity,
            each=row.each,
            cost_each=row.cost,
            tax_class=row.tax_class,
            currency=currency,
        )
        for row in rows
        if not row.is_work
    ]


def tax_lines(
    lines: Iterable[Line],
    rates: Sequence[TaxRate],
    on: date,
    discount: Decimal,
    currency: str,
) -> tuple[TaxLine, ...]:
    """Add the lines up by their class of tax, with the rate that holds on a day."""
    sums: dict[str, Decimal] = {}
    for line in lines:
        sums[line.tax_class] = sums.get(line.tax_class, ZERO) + (line.net or ZERO)
    return tuple(
        TaxLine(
            tax_class=tax_class,
            percent=rate_on(rates, tax_class, on),
            net=sums[tax_class],
            discount=money.share(sums[tax_class], discount, currency),
            currency=currency,
        )
        for tax_class in TaxClass.values
        if tax_class in sums
    )


def rate_on(rates: Iterable[TaxRate], tax_class: str, on: date) -> Decimal | None:
    """Return the rate of a class that holds on a day: the last that began by then."""
    begun = [rate for rate in rates if rate.tax_class == tax_class and rate.valid_from <= on]
    return max(begun, key=lambda rate: (rate.valid_from, rate.pk)).percent if begun else None
