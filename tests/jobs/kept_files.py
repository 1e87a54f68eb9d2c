"""Rows of a job with the file that each keeps."""

from __future__ import annotations

from typing import Any

from django.core.files.base import ContentFile
from django.utils import timezone

from jobs import models
from jobs.models import Job


def a_report(job: Job) -> list[Any]:
    """An answer with a tester's file."""
    row, _made = models.CarAnswer.objects.get_or_create(
        job=job, code="codes-before",
        defaults={"written_by": models.User.objects.first(), "written_at": timezone.now()},
    )  # fmt: skip
    if not row.report:
        row.report.save("x", ContentFile(b"P0000"))
    return [row.pk]


def a_take(job: Job) -> list[Any]:
    """A curve with its recording."""
    row = models.ChannelCurve.objects.filter(job=job).first()
    if not row.take:
        row.take.save("x", ContentFile(b"RIFF"))
    return [row.pk]


def a_processor_file(job: Job) -> list[Any]:
    """A processor's file that is there."""
    row = models.ProcessorFile.objects.filter(job=job).first()
    row.kept.save("x", ContentFile(b"kept"))
    return [row.pk]
