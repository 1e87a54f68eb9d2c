"""What people did in the bay beside ticking steps: closed a panel, signed, noted, sent later."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, number, prose
from jobs.models.job import Job, JobPart
from jobs.models.panels import Fixing, Panel


class PanelClosing(JobPart):
    """A panel went back on, on somebody's word; opened again, it says who and why."""

    panel = models.ForeignKey(Panel, models.CASCADE, related_name="closings")
    # Codes of jobs/design/job/closing.py.
    checked = models.JSONField(default=list)
    left_open = models.JSONField(default=list)
    reason = models.CharField(_("why it was closed all the same"), max_length=240, blank=True)
    closed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    closed_at = models.DateTimeField()
    reopened_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    reopened_at = models.DateTimeField(null=True, blank=True)
    reopened_why = models.CharField(_("why it was opened again"), max_length=240, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("closing of a panel")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.panel)


class GateSign(JobPart):
    """One thing that was checked before hand-over, by whom and when."""

    # A code of jobs/design/job/handover_gate.py, and what of it, such as one factory function.
    code = models.CharField(max_length=40)
    subject = models.CharField(max_length=120, blank=True)
    signed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    signed_at = models.DateTimeField()

    class Meta(JobPart.Meta):
        verbose_name = _("check before hand-over")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.subject or self.code


class CarAnswer(JobPart):
    """What was read, kept alive or taught again in the car's electronics, in somebody's words."""

    # A code of jobs/design/job/electronics.py.
    code = models.CharField(max_length=40)
    text = prose(_("what was read or done"))
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    written_at = models.DateTimeField()

    class Meta(JobPart.Meta):
        verbose_name = _("electronics of the car")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.code


class HandOverRelease(JobPart):
    """The manager handed the car over with something open, and said why: it is printed."""

    # What was open then: by keys, and in words for people.
    left_open = models.JSONField(default=dict)
    reason = models.CharField(_("reason, which is printed"), max_length=240)
    released_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    released_at = models.DateTimeField()

    class Meta(JobPart.Meta):
        verbose_name = _("hand-over released")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.reason


class BayNote(JobPart):
    """What somebody noticed, broke, did besides or spent time on."""

    class Kind(models.TextChoices):
        NOTE = "note", _("note")
        CLIP = "clip", _("broken clip")
        EXTRA = "extra", _("extra work")
        TIME = "time", _("minutes")

    panel = models.ForeignKey(
        Panel,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("panel"),
    )
    kind = models.CharField(_("kind"), max_length=5, choices=Kind, default=Kind.NOTE)
    fixing = models.ForeignKey(
        Fixing,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("clip, screw or nut"),
    )
    pieces = count(_("how many"), most=200, least=1)
    minutes = number(_("minutes"), most=1440, least=1)
    text = models.CharField(_("in words"), max_length=240, blank=True)
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    written_at = models.DateTimeField(auto_now_add=True)

    class Meta(JobPart.Meta):
        verbose_name = _("note of the bay")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.text or str(self.fixing or self.get_kind_display())


class BayAct(models.Model):
    """What a phone did without signal and has sent: its answer is kept, so that it counts once."""

    key = models.UUIDField(unique=True)
    job = models.ForeignKey(Job, models.CASCADE, related_name="+")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    did_at = models.DateTimeField()  # by the clock of the phone
    came_at = models.DateTimeField(auto_now_add=True)
    status = models.PositiveSmallIntegerField()
    says = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.key)
