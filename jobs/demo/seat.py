"""What was measured in the driver's seat of the estate car; made up, as everything here."""

from __future__ import annotations

import math
from datetime import date

from django.core.files.base import ContentFile

from jobs.models import Channel, ChannelCurve, ChannelSetting, Job, Part, ProcessorFile, TargetCurve

PLACE = "driver's seat, microphone where the head is, windows shut"
METER = {"Tweeter left": 2.95, "Midrange left": 3.4, "Woofer left": 3.85, "Bass": 7.6}  # V
PROCESSOR_BYTES = bytes(range(256))  # nobody can read it, as with any such file
# Name of the channel: (band in Hz, level, delay against the mark in s, how sure).
HEARD = {
    "Tweeter left": (3200.0, 40_000.0, 80.0, 0.0002, 20e-6),
    "Midrange left": (380.0, 3200.0, 81.0, 0.0005, 60e-6),
    "Woofer left": (70.0, 380.0, 83.0, 0.0009, 210e-6),
    "Bass": (22.0, 70.0, 88.0, 0.0034, 1.1e-3),
}


def load_seat(job: Job) -> None:
    """Keep a curve of each channel of the left side, of the tweeter before it was set too."""
    first, second = date(2026, 11, 27), date(2026, 11, 28)
    for channel in job.channels.filter(name__in=HEARD):
        _keep(job, channel, second)
        if channel.name == "Tweeter left":
            _keep(job, channel, first, 2.0)


def _keep(job: Job, channel: Channel, day: date, louder: float = 0.0) -> None:
    low, high, level, delay, within = HEARD[channel.name]
    level += louder
    ChannelCurve.objects.create(
        job=job,
        channel=channel,
        place=PLACE,
        measured_on=day,
        measured_by="Mika Orsay",
        microphone="measuring microphone of the bench",
        calibration="\n".join(f"{f}\t{0.0 if f < 5000 else 0.6}" for f in _thirds()),
        content="\n".join(f"{f}\t{_heard(f, low, high, level):.2f}" for f in _thirds()),
        recorded=True,
        delay=delay,
        delay_within=within,
        inverted=False,
    )


def _thirds() -> list[float]:
    return [round(1000.0 * 10 ** (band / 20), 1) for band in range(-34, 25)]


def _heard(f: float, low: float, high: float, level: float) -> float:
    """Slopes of 24 dB an octave, and what a car does to a curve."""
    slopes = 20 * math.log10(1 + (f / high) ** 4) + 20 * math.log10(1 + (low / f) ** 4)
    car = 2.5 * math.sin(4.1 * math.log(f)) + 1.5 * math.sin(9.7 * math.log(f) + 1.0)
    return max(level + car - slopes, 35.0 + math.sin(f))


def load_set(job: Job) -> None:
    """Write down how the left side was set, the tweeter on a first visit and on a second."""
    left = job.channels.filter(name__in=HEARD)
    visits = [(date(2026, 11, 27), 0.0), (date(2026, 11, 28), -2.0)]
    for channel in left:
        for day, level in visits if channel.name == "Tweeter left" else visits[1:]:
            ChannelSetting.objects.create(
                job=job,
                channel=channel,
                set_on=day,
                set_by="Mika Orsay",
                preset="1, driver",
                level=level,
                gain_voltage=METER[channel.name],
                delay=round(0.0034 - HEARD[channel.name][3], 5),
                **{name: getattr(channel, name) for name in ChannelSetting.FILTERS},
            )
    TargetCurve.objects.create(
        job=job,
        name="as the customer likes it",
        content="Hz\tdB\n20\t5\n60\t5\n120\t2\n250\t0\n1000\t0\n4000\t-1\n10000\t-2\n16000\t-4\n",
    )
    kept = ProcessorFile(
        job=job,
        processor=job.equipmentitems.filter(part__kind=Part.Kind.PROCESSOR).first(),
        saved_on=visits[1][0],
        saved_by="Mika Orsay",
        note="preset 1, driver; preset 2, both seats",
        kept_name="set-up-28-nov.bin",
        size=len(PROCESSOR_BYTES),
    )
    kept.kept.save("kept", ContentFile(PROCESSOR_BYTES))
