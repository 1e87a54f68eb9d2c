"""What stands between the workshop and the customer: what was agreed, paid, and worked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from jobs import money
from jobs.design.agreement.price import JobPrice
from jobs.design.agreement.shown import Shown
from jobs.design.records.records import JobRecords
from jobs.models import Offer, WorkKind

ZERO = Decimal(0)


class Standing(StrEnum):
    """How an offer stands."""

    OPEN = "open"
    ACCEPTED = "accepted"
    WITHDRAWN = "withdrawn"
    REPLACED = "replaced"
    EXPIRED = "expired"


def agreed(offers: Sequence[Offer]) -> Offer | None:
    """Return what holds: the last offer somebody said yes to."""
    accepted = [offer for offer in offers if offer.accepted_at is not None]
    return max(accepted, key=lambda offer: (offer.accepted_at, offer.pk), default=None)


def standing(offer: Offer, offers: Sequence[Offer]) -> Standing:
    """Return how an offer of a job stands; a yes holds whatever comes after it."""
    if offer.is_accepted:
        return Standing.ACCEPTED
    if offer.revoked_at is not None:
        return Standing.WITHDRAWN
    if any(other.pk > offer.pk for other in offers):
        return Standing.REPLACED
    return Standing.EXPIRED if offer.is_expired() else Standing.OPEN


@dataclass(frozen=True, kw_only=True)
class Hours:
    """One kind of work: minutes sold with what was agreed, and minutes worked."""

    kind: WorkKind
    sold: Decimal
    worked: Decimal

    @property
    def over(self) -> bool:
        """Whether more was worked than sold."""
        return self.worked > self.sold


@dataclass(frozen=True, kw_only=True)
class Account:
    """What was agreed, what is paid of it, and whether the job is still what was agreed."""

    agreed: Offer | None
    shown: Shown | None
    paid: Decimal
    hours: Sequence[Hours]
    price: JobPrice

    @property
    def balance(self) -> Decimal | None:
        """What is still to be paid; None as long as nothing is agreed."""
        return None if self.shown is None else self.shown.total - self.paid

    @property
    def deposit_open(self) -> Decimal:
        """What of the deposit has not come in yet."""
        wanted = self.shown.deposit if self.shown else ZERO
        return max(wanted - self.paid, ZERO)

    @property
    def hours_sold(self) -> Decimal:
        """All hours that were sold."""
        return sum((row.sold for row in self.hours), ZERO)

    @property
    def hours_worked(self) -> Decimal:
        """All hours that were worked."""
        return sum((row.worked for row in self.hours), ZERO)

    @property
    def changed_since(self) -> Decimal | None:
        """How far the job as it is designed now is from what was agreed; None where it is not."""
        if self.shown is None or self.price.total == self.shown.total:
            return None
        return self.price.total - self.shown.total

    @property
    def currency(self) -> str:
        """What it is reckoned in."""
        return self.shown.currency if self.shown else self.price.currency


def work_out_account(records: JobRecords, price: JobPrice) -> Account:
    """Hold what was agreed against what came in and what was worked."""
    offer = agreed(records.offers)
    shown = Shown.read(offer.shown) if offer else None
    return Account(
        agreed=offer,
        shown=shown,
        paid=sum((payment.counted for payment in records.payments), ZERO),
        hours=work_out_hours(records),
        price=price,
    )


def work_out_hours(records: JobRecords) -> list[Hours]:
    """Hold the hours worked against those sold with what was agreed."""
    offer = agreed(records.offers)
    shown = Shown.read(offer.shown) if offer else None
    sold = {line.key: line.quantity or ZERO for line in shown.lines} if shown else {}
    worked = {
        kind: sum(row.minutes or 0 for row in records.work_times if row.kind == kind)
        for kind in WorkKind
    }
    return [
        Hours(
            kind=kind,
            sold=sold.get(f"work {kind.value}", ZERO),
            worked=round(Decimal(worked[kind]) / money.MINUTES, 2),
        )
        for kind in WorkKind
        if worked[kind] or f"work {kind.value}" in sold
    ]
