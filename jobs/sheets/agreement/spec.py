"""Spec and price: what the customer is offered, to be agreed on paper or by its link."""

from __future__ import annotations

import datetime as dt
from typing import Any

from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from jobs.design.agreement.agreed import agreed
from jobs.design.agreement.shown import Shown, changes
from jobs.design.job.whole import JobDesign
from jobs.models import IssuedSheet, Offer


def context(design: JobDesign) -> dict[str, Any]:
    """Gather what is offered; an addition says what changes against what was agreed."""
    shown = Shown.of(design.price, design.job)
    basis = agreed(design.records.offers)
    before = Shown.read(basis.shown) if basis else None
    return {
        "shown": shown,
        "basis": basis,
        "before": before,
        "changes": changes(before, shown) if before else [],
        "more": shown.total - before.total if before else None,
        "valid_days": design.records.workshop.valid_days,
        "lacks": refuses(design),
    }


def refuses(design: JobDesign) -> str:
    """No price leaves the house that lacks something, and no addition that changes nothing."""
    if not design.price.lines:
        return _("Nothing is priced yet: there is nothing to offer.")
    if missing := design.price.missing:
        return _("%(n)d things are not in the total yet: see the page of the price.") % {
            "n": missing
        }
    basis = agreed(design.records.offers)
    if basis and not changes(Shown.read(basis.shown), Shown.of(design.price, design.job)):
        return _("It is what was agreed already: nothing changes.")
    return ""


def keep(design: JobDesign, issued: IssuedSheet) -> None:
    """Keep what the customer may say yes to beside the paper."""
    if reason := refuses(design):
        raise ValueError(reason)
    basis = agreed(design.records.offers)
    shown = Shown.of(design.price, design.job)
    days = dt.timedelta(days=design.records.workshop.valid_days)
    additions = [offer.addition for offer in design.records.offers if offer.is_accepted]
    Offer.objects.create(
        job=design.job,
        sheet=issued,
        basis=basis,
        addition=max(additions) + 1 if basis else 0,
        shown=shown.plain,
        total=shown.total,
        valid_until=localtime(issued.issued_at).date() + days,
    )
