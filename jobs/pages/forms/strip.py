"""The strip that follows the job: its steps, what is missing and what is unsafe."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext as _

from jobs import access
from jobs.design.agreement.price import JobPrice
from jobs.design.job import board_counts
from jobs.design.job.whole import JobDesign, load, typed_price, work_out
from jobs.design.records.records import JobRecords
from jobs.models import Job


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of the strip."""

    slug: str
    label: str
    url: str
    current: bool
    # The one after the current.
    follows: bool
    # "done", "missing", "look" or "stop": said by shape, word and colour
    state: str
    says: str


def worked_out(request: HttpRequest, job: Job) -> JobDesign:
    """Return the job worked out, once per request however many parts of the page ask."""
    kept: dict[int, JobDesign] = request.__dict__.setdefault("_worked_out", {})
    if job.pk not in kept:
        kept[job.pk] = work_out(load(job))
        board_counts.keep(kept[job.pk])
    return kept[job.pk]


def steps(request: HttpRequest, job: Job, current: str) -> list[Step]:
    """Return the strip from brief to sheets as the job stands."""
    design = worked_out(request, job)
    labels = {
        "brief": _("Brief"),
        "car": _("Car"),
        "equipment": _("Equipment"),
        "channels": _("Channels"),
        "boxes": _("Box"),
        "power": _("Wiring"),
        "panels": _("Panels"),
        "price": _("Price"),
        "findings": _("Findings"),
        "bay": _("Bay"),
        "setup": _("Set-up"),
        "sheets": _("Sheets"),
    }
    if not access.may_see_prices(access.signed_in(request)):
        del labels["price"]
    slugs = list(labels)
    following = slugs[slugs.index(current) + 1 :][:1] if current in slugs else []
    return [
        Step(
            slug=slug,
            label=label,
            url=reverse(slug, args=[job.code]),
            current=slug == current,
            follows=slug in following,
            state=design.state_of(slug).state,
            says=design.state_of(slug).says,
        )
        for slug, label in labels.items()
    ]


def price_now(request: HttpRequest, job: Job, changed: JobRecords | None = None) -> JobPrice | None:
    """Return what the job costs, with what is being typed; nothing for who may not see prices."""
    if not access.may_see_prices(access.signed_in(request)):
        return None
    return worked_out(request, job).price if changed is None else typed_price(changed)
