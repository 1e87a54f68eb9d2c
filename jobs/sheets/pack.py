"""Packs: several sheets under one cover, with the page numbers of the whole."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.models import Photo, SheetKind
from jobs.sheets.customer.handover import pictures


def for_the_bay(design: JobDesign) -> dict[str, Any]:
    """Gather what the cover says besides: which sheets want a printer of their own."""
    return {"apart": [SheetKind.LABELS.label, SheetKind.TEMPLATES.label]}


def for_the_customer(design: JobDesign) -> dict[str, Any]:
    """Gather the picture on the cover; what the house still has to decide is not on it."""
    after, _lost = pictures(design.records.photos, Photo.Moment.AFTER)
    return {
        "customer": design.job.vehicle.customer,
        "cover": after[:1],
        "open": [],
        "decided": [],
    }
