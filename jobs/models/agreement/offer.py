"""A spec and price that was frozen for the customer: its link, its yes, and what was paid on it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.rates import LONGEST_WORK, WorkKind
from jobs.models.base import Signed, new_token, written_day
from jobs.models.bounded import number
from jobs.models.job import Job, JobPart
from jobs.models.panels import Photo
from jobs.models.sheets import IssuedSheet


class Offer(Signed, JobPart):
    """One frozen spec and price, or an addition to one that was agreed."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="offers")
    sheet = models.OneToOneField(IssuedSheet, models.PROTECT, related_name="offer")
    # The agreed offer this one changes; None of the first spec and price.
    basis = models.ForeignKey("self", models.PROTECT, null=True, related_name="additions")
    # Counts the additions of a job; 0 of a spec and price.
    addition = models.PositiveSmallIntegerField(_("addition"), default=0)
    # What the customer reads, as plain data: never worked out again.
    shown = models.JSONField(default=dict)
    total = models.DecimalField(_("total with tax"), max_digits=12, decimal_places=3)
    valid_until = models.DateField(_("valid until"))
    token = models.CharField(max_length=22, unique=True, default=new_token)
    revoked_at = models.DateTimeField(_("withdrawn"), null=True)

    accepted_at = models.DateTimeField(_("accepted"), null=True)
    accepted_name = models.CharField(_("accepted by"), max_length=120, blank=True)
    # [[x, y, x, y, …], …]: what was drawn, without when; empty of a paper that was signed.
    signature = models.JSONField(default=list)
    # Said with the yes; without it no photo stands behind the link.
    photos_wanted = models.BooleanField(_("photos of the work may be shown here"), default=False)
    photos = models.ManyToManyField(Photo, related_name="links", verbose_name=_("photos"))
    # Who wrote down that a paper was signed.
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+"
    )

    class Meta(JobPart.Meta):
        verbose_name = _("spec and price")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.number

    @property
    def number(self) -> str:
        """What is printed on it: the job and the revision."""
        return f"{self.job.code}/{self.sheet.revision}"

    @property
    def is_accepted(self) -> bool:
        """Whether somebody said yes."""
        return self.accepted_at is not None

    def is_expired(self, on: date | None = None) -> bool:
        """Whether its last day is over."""
        return (on or timezone.localdate()) > self.valid_until


class Payment(JobPart):
    """Money that came in."""

    class Kind(models.TextChoices):
        DEPOSIT = "deposit", _("deposit")
        BALANCE = "balance", _("balance")
        BACK = "back", _("paid back")

    job = models.ForeignKey(Job, models.CASCADE, related_name="payments")
    kind = models.CharField(_("kind"), max_length=8, choices=Kind, default=Kind.DEPOSIT)
    amount = models.DecimalField(
        _("amount"),
        max_digits=10,
        decimal_places=2,
        validators=[MinValueValidator(Decimal("0.01"))],
    )
    received_on = models.DateField(_("on"), default=timezone.localdate)
    note = models.CharField(_("how, or its number in the books"), max_length=120, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("payment")
        ordering = ["received_on", "pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {written_day(self.received_on)}"

    @property
    def counted(self) -> Decimal:
        """What it adds to what was paid."""
        return -self.amount if self.kind == self.Kind.BACK else self.amount


class WorkTime(JobPart):
    """Time somebody worked on a job."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="work_times")
    kind = models.CharField(_("kind of work"), max_length=8, choices=WorkKind, default=WorkKind.CAR)
    minutes = number(_("minutes"), most=LONGEST_WORK, least=1)
    worked_on = models.DateField(_("on"), default=timezone.localdate)
    text = models.CharField(_("what was done"), max_length=120, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("time worked")
        ordering = ["worked_on", "pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {written_day(self.worked_on)}"
