"""A car that is taken apart to the last panel: 40 panels, 300 steps, 120 photos."""

from __future__ import annotations

from django.core.files.base import ContentFile
from django.utils import timezone

from jobs.models import Job, Panel, PanelStep, Photo, User

PANELS, STEPS, PHOTOS = 40, 300, 120


def make_large_car(job: Job, by: User) -> None:
    """Add them to a job, a third of the steps done."""
    panels = Panel.objects.bulk_create(
        Panel(job=job, position=n, name=f"invented panel {n}", airbag_near=False,
              drilled=False, glass_near=False, removal="Three screws, then pull.")
        for n in range(1, PANELS + 1)
    )  # fmt: skip
    now = timezone.now()
    PanelStep.objects.bulk_create(
        PanelStep(job=job, panel=panels[n % PANELS], position=n, text=f"invented step {n}",
                  done_by=by if n % 3 == 0 else None, done_at=now if n % 3 == 0 else None)
        for n in range(STEPS)
    )  # fmt: skip
    file = Photo(job=job).small.storage.save("photos/large-car.jpg", ContentFile(b"x"))
    Photo.objects.bulk_create(
        Photo(job=job, panel=panels[n % PANELS], taken_by=by, image=file, small=file, original=file)
        for n in range(PHOTOS)
    )
