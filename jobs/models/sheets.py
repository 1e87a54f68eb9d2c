"""Issued sheets: printed once, frozen with everything they were printed from."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.job import Job

SHORT = 12


class SheetKind(models.TextChoices):
    """The documents a job can print."""

    BUILD = "build", _("build sheet")
    PANELS = "panels", _("panel record")
    HANDOVER = "handover", _("hand-over")
    CUT = "cut", _("cut sheet")
    TEMPLATES = "templates", _("paper templates")
    CABLES = "cables", _("cable sheet")
    LABELS = "labels", _("cable labels")
    COMPARE = "compare", _("boxes side by side")


class IssuedSheet(models.Model):
    """A sheet that left the desk: its bytes, its inputs and results, who and when."""

    job = models.ForeignKey(Job, models.PROTECT, related_name="issued_sheets")
    kind = models.CharField(max_length=10, choices=SheetKind)
    revision = models.PositiveSmallIntegerField()
    paper = models.CharField(max_length=10)
    language = models.CharField(max_length=5)
    data = models.JSONField()
    # Of the records it was made from; empty where these were not kept yet.
    fingerprint = models.CharField(max_length=64, blank=True)
    pdf = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    issued_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    issued_at = models.DateTimeField()
    # The person on it was erased: its bytes are gone; number, date, revision and hash are not.
    erased_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-issued_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "kind", "revision"], name="one_sheet_per_revision"
            )
        ]

    def __str__(self) -> str:
        return f"{self.job} {self.get_kind_display()} {self.revision}"

    @property
    def holds_whole_job(self) -> bool:
        """Whether it is from the time when customer, budget and notes went inside every file."""
        return not self.fingerprint

    @property
    def short_hash(self) -> str:
        """Enough of its hash to tell two files apart by eye."""
        return self.sha256[:SHORT]
