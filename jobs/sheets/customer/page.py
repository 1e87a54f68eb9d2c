"""The hand-over as a page: kept when it is issued, opened by the customer's own link."""

from __future__ import annotations

from django.template.loader import render_to_string
from django.urls import reverse

from jobs.design.job.whole import JobDesign
from jobs.models import CustomerPage, IssuedSheet, Photo
from jobs.sheets.customer import handover
from jobs.sheets.speaking import spoken


def keep(design: JobDesign, issued: IssuedSheet) -> None:
    """Put a hand-over that was issued behind the link of its job, in place of the one before.

    Photos of people are on the paper alone, since whoever has the link sees the page.
    """
    job = design.job
    page = CustomerPage.objects.filter(job=job).first() or CustomerPage(job=job)
    chosen = [photo for photo in design.records.photos if photo.on_handover]
    shown = [photo for photo in chosen if not photo.shows_person]

    def address(photo: Photo) -> str:
        name = photo.small.name
        if not name or not photo.small.storage.exists(name):
            raise FileNotFoundError
        return reverse("customer-photo", args=[page.token, photo.pk])

    with spoken(issued.language, design.records.workshop.units):
        context = {
            "job": job,
            "design": design,
            "workshop": design.records.workshop,
            "car": str(job.vehicle),
            "within": "public/handover_kept.html",
            "on_paper_only": len(chosen) - len(shown),
            **handover.gathered(design, shown, address),
        }
        page.html = render_to_string("sheets/handover.html", context)
    page.sheet, page.photos = issued, [photo.pk for photo in shown]
    page.save()
