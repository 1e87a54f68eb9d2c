"""Sheets: those that were issued, frozen with all they were printed from, and those asked for."""

from __future__ import annotations

import base64
import uuid
from typing import Any

from django.conf import settings
from django.core.files.base import ContentFile
from django.db import models
from django.utils.crypto import salted_hmac
from django.utils.translation import gettext_lazy as _

from jobs.models.base import new_token
from jobs.models.job import Job
from jobs.models.origin import Origin

SHORT, LONGEST_REASON = 12, 240


def token_of(job: int | None, kind: str, revision: int) -> str:
    """Return what the code of a sheet leads to: the same whenever it is printed, never guessed."""
    secret = salted_hmac("jobs.sheets", f"{job} {kind} {revision}", algorithm="sha256").digest()
    return base64.urlsafe_b64encode(secret[:16]).decode().rstrip("=")


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
    SPEC = "spec", _("spec and price")
    SETUP = "setup", _("set-up sheet")
    OPTIONS = "options", _("options side by side")
    INTAKE = "intake", _("intake")
    GLOVEBOX = "glovebox", _("glove box page")
    CUSTOMER = "customer", _("pack for the customer")
    BAY = "bay", _("pack for the bay")
    WORKINGS = "workings", _("workings")

    @property
    def chapters(self) -> tuple[SheetKind, ...]:
        """The sheets a pack holds, in its order; none of a sheet by itself."""
        packs = {
            SheetKind.CUSTOMER: (SheetKind.HANDOVER, SheetKind.GLOVEBOX, SheetKind.PANELS),
            SheetKind.BAY: (
                *(SheetKind.BUILD, SheetKind.CUT, SheetKind.CABLES),
                SheetKind.SETUP,
            ),
        }
        return packs.get(self, ())

    @property
    def is_for_the_customer(self) -> bool:
        """Whether the customer keeps it: it is printed in their language."""
        own = {SheetKind.HANDOVER, SheetKind.CUSTOMER, SheetKind.GLOVEBOX, SheetKind.INTAKE}
        return self in own | {SheetKind.SPEC, SheetKind.OPTIONS}

    @property
    def holds(self) -> tuple[SheetKind, ...]:
        """What somebody has who has it: itself, and the sheets within."""
        return (self, *self.chapters)


def sheet_path(instance: IssuedSheet, _filename: str) -> str:
    """Name the file of a sheet by chance: no name is guessed, and none is given twice."""
    return f"sheets/{instance.job_id}/{uuid.uuid4().hex}.pdf"


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
    # Its bytes lie in the row, or in the bucket under this name where one was set when it came.
    pdf = models.BinaryField(default=bytes)
    file = models.FileField(upload_to=sheet_path, blank=True)
    sha256 = models.CharField(max_length=64)
    data_sha256 = models.CharField(max_length=64)
    # Over all of these and the link of the job's sheet before: none is changed or taken out unseen.
    link = models.CharField(max_length=64)
    # Of the code printed on it, which says whether there is a newer one.
    token = models.CharField(max_length=22, unique=True)
    reason = models.CharField(_("what is new"), max_length=LONGEST_REASON, blank=True)
    issued_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    issued_at = models.DateTimeField()
    # Of one that came with its job from elsewhere: where, and the key whoever issued it had there.
    origin = models.ForeignKey(Origin, models.PROTECT, null=True, related_name="sheets")
    issuer_there = models.PositiveIntegerField(null=True)
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

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Save; the code is known before it is printed."""
        self.token = self.token or token_of(self.job_id, self.kind, self.revision)
        super().save(*args, **kwargs)

    def put(self, pdf: bytes) -> None:
        """Keep its bytes where they belong; the row is saved by whoever calls."""
        if settings.BUCKET:
            self.file.save("", ContentFile(pdf), save=False)
        else:
            self.pdf = pdf

    def content(self) -> bytes | None:
        """Return its bytes; None where the store has lost them, empty where they were erased."""
        if not self.file:
            return bytes(self.pdf)
        try:
            with self.file.open("rb") as opened:
                return bytes(opened.read())
        except FileNotFoundError:
            return None

    @property
    def holds_whole_job(self) -> bool:
        """Whether it is from the time when customer, budget and notes went inside every file."""
        return not self.fingerprint

    @property
    def short_hash(self) -> str:
        """Enough of its hash to tell two files apart by eye."""
        return self.sha256[:SHORT]


class CustomerPage(models.Model):
    """The hand-over issued last, as a page behind the customer's own link."""

    job = models.OneToOneField(Job, models.CASCADE, related_name="customer_page")
    sheet = models.ForeignKey(IssuedSheet, models.CASCADE, related_name="+")
    token = models.CharField(max_length=22, unique=True, default=new_token)
    # What it shows, as it was issued: never worked out again.
    html = models.TextField()
    # Keys of the photos on it: each has an address of its own.
    photos = models.JSONField(default=list)
    withdrawn_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"{self.job} {self.sheet.revision}"


class PrintOrder(models.Model):
    """One sheet somebody asked for: a draft, or one to be issued."""

    class State(models.TextChoices):
        WAITING = "waiting", _("waiting")
        PRINTING = "printing", _("being printed")
        PRINTED = "printed", _("printed")
        FAILED = "failed", _("failed")

    class Trouble(models.TextChoices):
        """Why it failed, in words for whoever asked."""

        NO_PDF = "no-pdf", _("No PDFs can be made on this machine: a library is missing.")
        NOT_ALLOWED = "not-allowed", _("Whoever asked for it may not do so any more.")
        ENDED = "ended", _("The process that prints ended over this sheet, three times.")
        BROKEN = "broken", _("Something went wrong while it was printed.")

    job = models.ForeignKey(Job, models.CASCADE, related_name="print_orders")
    kind = models.CharField(max_length=10, choices=SheetKind)
    options = models.JSONField()
    to_issue = models.BooleanField()
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    asked_at = models.DateTimeField()
    # Given by the button, so that one pressed twice issues once.
    entry_token = models.UUIDField(null=True, unique=True)
    # Of everything a draft says: while that is the same the draft is printed once.
    rests_on = models.CharField(max_length=64, blank=True, db_index=True)

    state = models.CharField(max_length=8, choices=State, default=State.WAITING)
    # Which process has it; what that one writes counts only while this is its name.
    worker = models.CharField(max_length=32, blank=True)
    tries = models.PositiveSmallIntegerField(default=0)
    # The page being laid out, in the end the last.
    page = models.PositiveSmallIntegerField(default=0)
    started_at = models.DateTimeField(null=True)
    finished_at = models.DateTimeField(null=True)
    trouble = models.CharField(max_length=12, choices=Trouble, blank=True)
    # What went wrong as a programmer calls it, for the manager.
    detail = models.CharField(max_length=80, blank=True)
    pdf = models.BinaryField(null=True)
    issued = models.ForeignKey(IssuedSheet, models.CASCADE, null=True, related_name="+")

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["state", "finished_at"], name="print_orders_by_state")]

    def __str__(self) -> str:
        return f"{self.job} {self.get_kind_display()}"

    @property
    def is_open(self) -> bool:
        """Whether it is still to come."""
        return self.state in (self.State.WAITING, self.State.PRINTING)


class PrintWorker(models.Model):
    """A process that prints, and when it last gave a sign of life."""

    name = models.CharField(max_length=32, primary_key=True)
    started_at = models.DateTimeField()
    beat_at = models.DateTimeField()

    def __str__(self) -> str:
        return self.name
