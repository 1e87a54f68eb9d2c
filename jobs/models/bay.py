"""What is done in the bay beside ticking steps: measured, built otherwise, closed, signed."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, figure, number, prose
from jobs.models.channel_plan import Channel
from jobs.models.equipment import EquipmentItem, FactoryPart
from jobs.models.job import Job, JobPart, Stage
from jobs.models.panels import Fixing, Panel
from jobs.models.parts.catalogue import Conductor, Fuse, Part
from jobs.models.wiring.grounds import GroundPoint
from jobs.models.wiring.power_tree import PowerNode, Run

LONGEST = 240  # characters of a reason and of a note


class Measurement(JobPart):
    """A value to be measured in the bay, with the box it is written in."""

    class Kind(models.TextChoices):
        VOLTAGE = "voltage", _("voltage")
        CURRENT = "current", _("current")
        RESISTANCE = "resistance", _("resistance")
        LENGTH = "length", _("length")
        LEVEL = "level", _("sound level")

    class Beyond(models.TextChoices):
        LOOK = "look", _("a person decides")
        STOP = "stop", _("it must not stay so")

    class Derived(models.TextChoices):
        """What its limits are worked out from; of others they are typed."""

        REST = "rest", _("voltage at a load, everything off")
        LOAD = "load", _("voltage at a load, everything at full output")
        SPEAKER = "speaker", _("resistance of a speaker at the amplifier’s plug")
        FUSE = "fuse", _("voltage lost over a fuse at full output")
        GROUND = "ground", _("voltage between a ground point and the battery’s minus")
        KEY_OFF = "key_off", _("key-off current, car asleep")
        CHARGING = "charging", _("charging voltage, engine running")

    position = count(_("order"), most=999)
    name = models.CharField(_("what to measure"), max_length=160)
    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    expected = models.CharField(_("what to expect, in words"), max_length=120, blank=True)
    low = figure(_("at least"))
    high = figure(_("at most"))
    beyond = models.CharField(_("beyond that"), max_length=4, choices=Beyond, default=Beyond.LOOK)
    derived = models.CharField(max_length=8, choices=Derived, blank=True, editable=False)
    node = models.ForeignKey(
        PowerNode, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    channel = models.ForeignKey(
        Channel, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    run = models.ForeignKey(
        Run, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    ground = models.ForeignKey(
        GroundPoint, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    value = models.FloatField(_("measured"), null=True, blank=True)
    measured_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    measured_at = models.DateTimeField(null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("measurement")
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name


class AsBuilt(models.Model):
    """Somebody did it differently: all of these figures hold, the designed ones no more."""

    reason = models.CharField(_("why it was done differently"), max_length=LONGEST)
    done_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    done_at = models.DateTimeField()

    class Meta:
        abstract = True


class RunAsBuilt(AsBuilt, JobPart):
    """A run as it lies in the car."""

    # Every field of these names is one of the run.
    FIELDS = (
        *("conductor", "colour", "return_colour", "length", "zone"),
        *("fuse", "fuse_distance", "end_fuse", "end_fuse_distance"),
    )

    run = models.ForeignKey(Run, models.CASCADE, related_name="+", verbose_name=_("run"))
    conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable"),
    )
    colour = models.CharField(_("colour (IEC 60757)"), max_length=8, blank=True)
    return_colour = models.CharField(
        _("colour of the other core (IEC 60757)"), max_length=8, blank=True
    )
    length = figure(_("length, one way"))
    zone = models.CharField(
        _("hottest zone it passes"), max_length=12, choices=Run.Zone, blank=True
    )
    fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the start"),
    )
    fuse_distance = figure(_("cable from the source to the fuse"))
    end_fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the end"),
    )
    end_fuse_distance = figure(_("cable from the far source to its fuse"))
    # As a run's history keeps it: panel, place, whether with the loom, edge; in order.
    route = models.JSONField(default=list)

    class Meta(JobPart.Meta):
        verbose_name = _("run as built")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.run)


class FactoryAsBuilt(AsBuilt, JobPart):
    """A factory part, and what really became of it."""

    FIELDS = ("fate", "kept_where")

    factory_part = models.ForeignKey(
        FactoryPart, models.CASCADE, related_name="+", verbose_name=_("factory part")
    )
    fate = models.CharField(_("fate"), max_length=10, choices=FactoryPart.Fate, blank=True)
    kept_where = models.CharField(
        _("where it is kept, or how it goes back"), max_length=160, blank=True
    )

    class Meta(JobPart.Meta):
        verbose_name = _("factory part as built")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.factory_part)


class ItemAsBuilt(AsBuilt, JobPart):
    """Equipment as it was really fitted: another part, another unit, another place."""

    FIELDS = ("part", "serial", "place")

    item = models.ForeignKey(
        EquipmentItem, models.CASCADE, related_name="+", verbose_name=_("equipment")
    )
    part = models.ForeignKey(
        Part, models.PROTECT, related_name="fitted_instead", verbose_name=_("part")
    )
    serial = models.CharField(_("serial number"), max_length=120, blank=True)
    place = models.CharField(_("place"), max_length=80)

    class Meta(JobPart.Meta):
        verbose_name = _("equipment as built")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.item)


class PanelClosing(JobPart):
    """A panel went back on, on somebody's word; opened again, it says who and why."""

    panel = models.ForeignKey(Panel, models.CASCADE, related_name="closings")
    # Codes of jobs/design/job/closing.py.
    checked = models.JSONField(default=list)
    left_open = models.JSONField(default=list)
    reason = models.CharField(_("why it was closed all the same"), max_length=LONGEST, blank=True)
    closed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    closed_at = models.DateTimeField()
    reopened_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    reopened_at = models.DateTimeField(null=True, blank=True)
    reopened_why = models.CharField(_("why it was opened again"), max_length=LONGEST, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("closing of a panel")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.panel)


class CautionRead(models.Model):
    """Somebody has read what to mind on a day: at a panel, behind which they may begin, or at all.

    Without a panel it is about the cautions of the whole car.
    """

    job = models.ForeignKey(Job, models.CASCADE, related_name="+")
    panel = models.ForeignKey(Panel, models.CASCADE, null=True, related_name="+")
    read_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    read_on = models.DateField()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["panel", "read_by", "read_on"], name="cautions_read_once_a_day"
            ),
            models.UniqueConstraint(
                fields=["job", "read_by", "read_on"],
                condition=models.Q(panel=None),
                name="car_cautions_read_once_a_day",
            ),
        ]

    def __str__(self) -> str:
        return str(self.panel or self.job)


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


def report_path(instance: CarAnswer, _filename: str) -> str:
    """Name a tester's file by chance, so that no address can be guessed."""
    return f"reports/{instance.job_id}/{uuid.uuid4().hex}"


class CarAnswer(JobPart):
    """What was read, kept alive or taught again in the car's electronics, in somebody's words."""

    # A code of jobs/design/job/electronics.py.
    code = models.CharField(max_length=40)
    # Of a question that is answered by yes or no; None of every other.
    yes = models.BooleanField(_("yes"), null=True, blank=True)
    text = prose(_("what was read or done"))
    report = models.FileField(_("file of the tester"), upload_to=report_path, blank=True)
    report_name = models.CharField(_("name of that file"), max_length=100, blank=True)
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    written_at = models.DateTimeField()

    class Meta(JobPart.Meta):
        verbose_name = _("electronics of the car")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.code

    @property
    def says(self) -> str:
        """The answer in words."""
        word = "" if self.yes is None else str(_("Yes") if self.yes else _("No"))
        return ". ".join(part for part in (word, self.text) if part)


class StageRelease(JobPart):
    """The manager let a job go on with something open, and said why: it is printed."""

    stage = models.CharField(_("to"), max_length=12, choices=Stage, default=Stage.HANDED_OVER)
    # What was open then: by keys, and in words for people.
    left_open = models.JSONField(default=dict)
    reason = models.CharField(_("reason, which is printed"), max_length=LONGEST)
    released_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    released_at = models.DateTimeField()

    class Meta(JobPart.Meta):
        verbose_name = _("stage released")
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
    text = models.CharField(_("in words"), max_length=LONGEST, blank=True)
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
