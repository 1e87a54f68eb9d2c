"""The channel plan, what was set of it, and what was measured of its channels in the seat."""

from __future__ import annotations

import uuid
from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.models.base import TypedFigures, written_day
from jobs.models.bounded import count, figure, number, prose, setting
from jobs.models.equipment import EquipmentItem, FactoryPart
from jobs.models.job import JobPart

LONGEST_TEXT = 400_000
FARTHEST = 8.0  # from a seat to any speaker of a car or a van [m]


def take_path(instance: ChannelCurve, _filename: str) -> str:
    """Name a recording by chance, so that no address can be guessed."""
    return f"takes/{instance.job_id}/{uuid.uuid4().hex}"


class FilterShape(models.TextChoices):
    """Filter shapes and orders the trade dials in; the number is the slope in dB per octave."""

    BUTTERWORTH_6 = "bw6", _("Butterworth 6 dB/oct")
    BUTTERWORTH_12 = "bw12", _("Butterworth 12 dB/oct")
    BUTTERWORTH_18 = "bw18", _("Butterworth 18 dB/oct")
    BUTTERWORTH_24 = "bw24", _("Butterworth 24 dB/oct")
    LINKWITZ_12 = "lr12", _("Linkwitz–Riley 12 dB/oct")
    LINKWITZ_24 = "lr24", _("Linkwitz–Riley 24 dB/oct")
    LINKWITZ_48 = "lr48", _("Linkwitz–Riley 48 dB/oct")
    # What the corner of a Bessel filter means differs from processor to processor.
    BESSEL_12 = "be12", _("Bessel 12 dB/oct, −3 dB at the corner")
    BESSEL_24 = "be24", _("Bessel 24 dB/oct, −3 dB at the corner")
    BESSEL_12_PHASE = "be12p", _("Bessel 12 dB/oct, corner by phase")
    BESSEL_24_PHASE = "be24p", _("Bessel 24 dB/oct, corner by phase")
    BESSEL_12_DELAY = "be12d", _("Bessel 12 dB/oct, corner by delay")
    BESSEL_24_DELAY = "be24d", _("Bessel 24 dB/oct, corner by delay")


class Channel(TypedFigures, JobPart):
    """One way from a source to its speakers."""

    class Connection(models.TextChoices):
        PARALLEL = "parallel", _("parallel")
        SERIES = "series", _("series")

    class Side(models.TextChoices):
        LEFT = "left", _("left")
        RIGHT = "right", _("right")
        BOTH = "both", _("both sides")

    position = count(_("order"), most=999)
    name = models.CharField(_("name"), max_length=60)
    source = models.CharField(_("source"), max_length=80)
    side = models.CharField(_("side it plays"), max_length=5, choices=Side, blank=True)
    processor = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("processor"),
    )
    processor_output = number(_("processor output"), most=64, least=1)
    amplifier = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("amplifier"),
    )
    amplifier_channel = number(_("amplifier channel"), most=32, least=1)
    bridged = models.BooleanField(_("bridged with the next channel"), default=False)
    speaker = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("speaker"),
    )
    factory_speaker = models.ForeignKey(
        FactoryPart,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("factory speaker that stays in use"),
    )
    speaker_count = count(_("how many on this channel"), most=32, least=1)
    connection = models.CharField(
        _("speakers connected in"), max_length=8, choices=Connection, default=Connection.PARALLEL
    )
    coil_connection = models.CharField(
        _("coils of one speaker in"), max_length=8, choices=Connection, default=Connection.PARALLEL
    )
    highpass_frequency = figure(_("high-pass"), least=1.0, most=40_000.0)
    highpass_shape = models.CharField(
        _("high-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    lowpass_frequency = figure(_("low-pass"), least=1.0, most=40_000.0)
    lowpass_shape = models.CharField(
        _("low-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    level = setting(_("level"), least=-120.0, most=40.0)
    delay = models.FloatField(_("delay"), default=0.0, validators=[MinValueValidator(0.0)])
    inverted = models.BooleanField(_("polarity inverted"), default=False)
    # By the tape, from the cone to the listener's head.
    distance = figure(_("distance to the listener's head"), most=FARTHEST)

    class Meta(JobPart.Meta):
        verbose_name = _("channel")
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        """Refuse a channel on which nothing could be heard, or that drives two things at once."""
        wrong: dict[str, Any] = {}
        low, high = self.highpass_frequency, self.lowpass_frequency
        if low is not None and high is not None and low >= high:
            wrong["highpass_frequency"] = gettext(
                "Above the low-pass nothing is left to play. Are the two exchanged?"
            )
        if self.speaker_id and self.factory_speaker_id:
            wrong["factory_speaker"] = gettext(
                "This channel has a speaker of ours already: one of the two, or a channel each."
            )
        if wrong:
            raise ValidationError(wrong)

    @property
    def output(self) -> str:
        """What its speakers hang on: the amplifier and which of its channels."""
        if self.amplifier is None:
            return self.source
        number = f" {self.amplifier_channel}" if self.amplifier_channel else ""
        return f"{self.amplifier.part}{number}"


class ChannelCurve(JobPart):
    """A curve measured in the car, kept as the text it came as or as a recording led to."""

    channel = models.ForeignKey(
        Channel,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="curves",
        verbose_name=_("channel; empty: all together"),
    )
    place = models.CharField(_("seat, and where the microphone stood"), max_length=80)
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    microphone = models.CharField(_("microphone"), max_length=80, blank=True)
    calibration = prose(_("its calibration: frequency, dB"), most=LONGEST_TEXT)
    # Text columns as they were pasted or read from a file, or as the recording came to: Hz, dB, °.
    content = models.TextField(_("curve: frequency, level in dB, phase in degrees"), blank=True)
    # Of a recording with time marks; None where it was none, or where it cannot be told.
    recorded = models.BooleanField(default=False, editable=False)
    delay = figure(_("delay against the mark"))
    delay_within = figure(_("how far it may be off"))
    inverted = models.BooleanField(_("polarity turned against the mark"), null=True, blank=True)
    above_noise = figure(_("above the noise, where it plays"))
    # The recording itself, as it came.
    take = models.FileField(_("recording"), upload_to=take_path, blank=True, editable=False)
    take_name = models.CharField(_("name of the recording"), max_length=100, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("measured channel")
        ordering = [
            "place",
            models.F("channel__position").asc(nulls_first=True),
            "channel",
            "-measured_on",
            "-pk",
        ]

    def __str__(self) -> str:
        which = self.channel or _("all together")
        return f"{which}, {self.place}, {written_day(self.measured_on)}"


class ChannelSetting(JobPart):
    """What was dialled in for a channel; of several the newest holds, the others stay."""

    # Every field of these names is one of the plan.
    FILTERS = ("highpass_frequency", "highpass_shape", "lowpass_frequency", "lowpass_shape")
    FIELDS = (*FILTERS, "level", "delay", "inverted")

    channel = models.ForeignKey(
        Channel, models.CASCADE, related_name="settings", verbose_name=_("channel")
    )
    set_on = models.DateField(_("set on"))
    set_by = models.CharField(_("set by"), max_length=80)
    preset = models.CharField(_("preset in the processor"), max_length=60, blank=True)
    highpass_frequency = models.FloatField(_("high-pass"), null=True, blank=True)
    highpass_shape = models.CharField(
        _("high-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    lowpass_frequency = models.FloatField(_("low-pass"), null=True, blank=True)
    lowpass_shape = models.CharField(
        _("low-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    level = models.FloatField(_("level"), default=0.0)
    delay = models.FloatField(_("delay"), default=0.0, validators=[MinValueValidator(0.0)])
    inverted = models.BooleanField(_("polarity inverted"), default=False)
    # Of the tone the gain is set with; None where nobody measured it.
    gain_voltage = figure(_("measured with the gain tone, speaker unplugged"))
    note = prose(_("what else was set: equaliser, limiter"), most=2000)

    class Meta(JobPart.Meta):
        verbose_name = _("channel as set")
        ordering = ["channel__position", "channel", "-set_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.channel}, {written_day(self.set_on)}"


class TargetCurve(JobPart):
    """A sound somebody wants, as text columns: the bands of any channel may be proposed for it."""

    name = models.CharField(_("name"), max_length=80)
    content = models.TextField(_("wanted: frequency, level in dB"))

    class Meta(JobPart.Meta):
        verbose_name = _("wanted curve")
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


def processor_file_path(instance: ProcessorFile, _filename: str) -> str:
    """Name a processor's file by chance, so that no address can be guessed."""
    return f"processors/{instance.job_id}/{uuid.uuid4().hex}"


class ProcessorFile(JobPart):
    """The file a processor's own program saves: kept as it came, and never looked into."""

    processor = models.ForeignKey(
        EquipmentItem, models.CASCADE, related_name="saved_files", verbose_name=_("processor")
    )
    saved_on = models.DateField(_("saved on"))
    saved_by = models.CharField(_("saved by"), max_length=80)
    note = models.CharField(_("what is in it"), max_length=160, blank=True)
    kept = models.FileField(_("file"), upload_to=processor_file_path, editable=False)
    kept_name = models.CharField(_("name of the file"), max_length=100, editable=False)
    size = models.PositiveIntegerField(_("bytes"), editable=False)

    class Meta(JobPart.Meta):
        verbose_name = _("processor’s own file")
        ordering = ["processor", "-saved_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.kept_name}, {written_day(self.saved_on)}"
