"""A plain way to make what was offered to a customer."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from hashlib import sha256
from typing import Any

from django.utils import timezone

from jobs import models
from jobs.models import Job, User


def make_offer(job: Job, by: User, *, net: str = "100", **figures: Any) -> models.Offer:
    """Return an offer of one line that is open, with a paper of a few bytes."""
    pdf = f"%PDF {job.code} {net}".encode()
    last = models.IssuedSheet.objects.filter(job=job, kind="spec").count()
    sheet = models.IssuedSheet.objects.create(
        job=job, kind="spec", revision=last + 1, paper="a4", language="en", data={}, pdf=pdf,
        sha256=sha256(pdf).hexdigest(), fingerprint="f", issued_by=by, issued_at=timezone.now(),
    )  # fmt: skip
    line = {
        "key": "part 1", "group": "equipment", "name": "A speaker", "unit": "piece",
        "quantity": "2", "net": net, "places": ["doors"],
    }  # fmt: skip
    shown = {
        "title": job.title, "currency": "EUR", "on": "2026-12-01", "lines": [line], "net": net,
        "discount_percent": "0", "discount": "0", "total": net, "deposit_percent": "30",
        "deposit": str(Decimal(net) * 30 / 100),
        "taxes": [{"percent": "0", "base": net, "tax": "0"}],
    }  # fmt: skip
    plain = {"shown": shown, "total": Decimal(net), "valid_until": date(2099, 1, 1)}
    return models.Offer.objects.create(job=job, sheet=sheet, **(plain | figures))
