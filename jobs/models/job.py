"""A job: one car, one visit, one number, and the brief it started from."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Max
from django.utils.translation import gettext_lazy as _

from jobs.locks import hold_table
from jobs.models.agreement.money_field import money, percent
from jobs.models.base import Record
from jobs.models.bounded import figure, prose
from jobs.models.vehicle import Vehicle


class Stage(models.TextChoices):
    """Where a job stands, in the order it walks."""

    ENQUIRY = "enquiry", _("enquiry")
    BRIEF = "brief", _("brief")
    SPEC = "spec", _("spec")
    AGREED = "agreed", _("agreed")
    PARTS = "parts", _("parts")
    BAY = "bay", _("in the bay")
    SET_UP = "set_up", _("set up")
    HANDED_OVER = "handed_over", _("handed over")
    AFTERCARE = "aftercare", _("aftercare")


class Job(Record):
    """One car, one visit."""

    class Looks(models.TextChoices):
        HIDDEN = "hidden", _("hidden")
        DISCREET = "discreet", _("discreet")
        ON_SHOW = "on_show", _("on show")

    class Halt(models.TextChoices):
        """Why a job does not go on, wherever it stands."""

        ON_HOLD = "on_hold", _("on hold")
        LOST = "lost", _("lost")
        CANCELLED = "cancelled", _("cancelled")

    class Programme(models.TextChoices):
        """What is usually played, and how loud: it decides the average current."""

        COMPRESSED = "compressed", _("loud and dense, peaks just clip")
        MUSIC = "music", _("usual music, peaks just clip")
        QUIET = "quiet", _("speech or quiet listening")

    number = models.PositiveIntegerField(_("number"), unique=True, editable=False)
    vehicle = models.ForeignKey(Vehicle, models.PROTECT, related_name="jobs")
    stage = models.CharField(_("stage"), max_length=12, choices=Stage, default=Stage.ENQUIRY)
    halt = models.CharField(_("does not go on"), max_length=9, choices=Halt, blank=True)
    halt_why = models.CharField(_("why it does not"), max_length=240, blank=True)
    look_again_on = models.DateField(_("look again on"), null=True, blank=True)
    title = models.CharField(_("in one line"), max_length=120)
    consultant = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="jobs"
    )
    created_at = models.DateTimeField(auto_now_add=True)
    # When it was handed over, the last time it was; reminders count from here.
    left_on = models.DateField(_("handed over"), null=True, editable=False)
    promised_on = models.DateField(_("promised for"), null=True, blank=True)
    wishes = prose(_("what the customer wants, in their words"))
    listening = prose(_("what they listen to, how loud, on which seat"))
    programme = models.CharField(
        _("what is usually played"), max_length=10, choices=Programme, blank=True
    )
    calls_heard = models.BooleanField(
        _("a hands-free call must be heard over the music"), null=True, blank=True
    )
    reserve_wanted = figure(_("to play with the engine off"))
    looks = models.CharField(_("looks"), max_length=10, choices=Looks, blank=True)
    space_to_keep = prose(_("space to keep"))
    must_stay_factory = prose(_("what must stay factory"))
    # What the plan is held against; empty where nobody set a limit.
    room_at_most = figure(_("room the boxes may take"), most=20.0)
    height_at_most = figure(_("no box higher than"), most=3.0)
    heavier_at_most = figure(_("heavier by at most"), most=2000.0)
    current_at_most = figure(_("current while it plays, at most"), most=2000.0)
    undrilled = models.BooleanField(_("no panel may be drilled"), null=True, blank=True)
    budget = money(_("budget"))
    discount = percent(_("discount in per cent"))
    # Where another one than the usual was asked for.
    deposit = percent(_("deposit in per cent of the total"))
    # Kept, so that the board of ten thousand jobs computes nothing; None until counted anew.
    open_stops = models.PositiveSmallIntegerField(null=True, editable=False)
    open_looks = models.PositiveSmallIntegerField(null=True, editable=False)
    # Drawn anew whenever the counts are taken away: who read the job before writes none of them.
    edition = models.PositiveIntegerField(default=0, editable=False)
    # Of the sheet issued last, so that one taken from the end is missed too.
    last_link = models.CharField(max_length=64, blank=True, editable=False)
    why_this = prose(_("what was chosen and why, for the customer"))
    how_to_use = prose(_("how it is used: level knob, presets, in a call"))
    care_notes = prose(_("care, for the customer"))

    class Meta:
        ordering = ["-number"]
        indexes = [models.Index(fields=["stage", "-number"])]

    def __str__(self) -> str:
        return self.code

    @property
    def code(self) -> str:
        """The number as it is written and printed, such as J-0042."""
        return f"J-{self.number:04d}"

    @classmethod
    def next_number(cls) -> int:
        """Return the number after the highest ever given, removed jobs included.

        Nobody else is given one before the transaction this one is for has ended.
        """
        hold_table(cls)
        return (cls.with_removed.aggregate(top=Max("number"))["top"] or 0) + 1


class JobPart(Record):
    """A record that belongs to one job."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="%(class)ss")

    class Meta:
        abstract = True
        base_manager_name = "with_removed"
