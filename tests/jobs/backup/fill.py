"""Fill a database that was migrated with what a back-up is tried on: `python -m …fill`."""

from __future__ import annotations

import datetime as dt

import django

WHEN = dt.datetime(2026, 11, 28, 9, 30, tzinfo=dt.UTC)


def add_photos_and_a_sheet(job: object, installer: object) -> None:
    """Add what a scene has none of."""
    from django.core.files.base import ContentFile

    from jobs.models import IssuedSheet, Job, Photo

    assert isinstance(job, Job)
    for number in range(3):
        pictures = {
            name: ContentFile(bytes([number]) * 5000, "x")
            for name in ("image", "small", "original")
        }
        Photo.objects.create(job=job, panel=job.panels.first(), taken_by=installer, **pictures)
    IssuedSheet.objects.create(
        job=job, kind="build", revision=1, paper="a4", language="en", data={"a": 1},
        pdf=b"%PDF-1.7 invented", sha256="0" * 64, issued_by=installer, issued_at=WHEN,
    )  # fmt: skip


def fill() -> None:
    """Set the scene."""
    from tests.conftest import hire
    from tests.jobs.scenes import set_hatchback
    from tests.jobs.shelf import stock_shelf

    people = hire()
    scene = set_hatchback(stock_shelf(), people.consultant, people.installer)
    add_photos_and_a_sheet(scene.job, people.installer)


if __name__ == "__main__":
    django.setup()
    from django.db import transaction

    with transaction.atomic():
        fill()
