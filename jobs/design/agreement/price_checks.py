"""What the price lacks, and whether it is more than the customer would spend."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from django.utils.formats import date_format

from jobs import money
from jobs.design.agreement.price import JobPrice
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.models import Job

SECTION = "price"


def check_price(job: Job, price: JobPrice) -> Iterator[Finding]:
    """Name what the total does not hold; nothing that is unknown counts as nothing."""
    day = date_format(price.on, "SHORT_DATE_FORMAT")
    if price.unpriced:
        yield _finding("price-unknown", job, price.unpriced)
    if price.untimed:
        yield _finding("work-without-minutes", job, price.untimed)
    if price.untaxed:
        yield _finding("tax-rate-unknown", job, price.untaxed, day)
    if runs := price.bought.unmeasured:
        yield _finding("cable-not-priced", job, [(label, label) for label in runs])
    if price.bought.not_laid:
        yield _finding("wood-not-priced", job, price.bought.not_laid)
    if price.over_budget is not None:
        total, budget = (
            money.show(amount, price.currency) for amount in (price.total, price.budget)
        )
        yield _finding("above-budget", job, [(str(price.total), total)], budget)


def _finding(code: str, job: Job, things: Sequence[tuple[str, str]], limit: str = "") -> Finding:
    return Finding(
        code=code,
        severity="note",
        section=SECTION,
        about=about(job),
        name=job.code,
        value=", ".join(key for key, _words in things),
        value_said=", ".join(words for _key, words in things),
        limit=limit,
    )
