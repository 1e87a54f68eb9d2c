"""What was set, measured, wanted and kept of a car in the driver's seat."""

from __future__ import annotations

from datetime import date

from jobs.models import ChannelCurve, ChannelSetting, Job, Part, ProcessorFile, TargetCurve
from tests.jobs.curves import a_curve


def make_seat(job: Job) -> None:
    """Make one row of each kind."""
    ChannelSetting.objects.create(job=job, channel=job.channels.first(), set_by="somebody",
                                  set_on=date(2026, 11, 28), level=-2.0)  # fmt: skip
    TargetCurve.objects.create(job=job, name="ours", content=a_curve())
    processor = job.equipmentitems.filter(part__kind=Part.Kind.PROCESSOR).first()
    ProcessorFile.objects.create(job=job, processor=processor, saved_on=date(2026, 11, 28),
                                 saved_by="somebody", kept="", kept_name="a.bin",
                                 size=5)  # fmt: skip
    ChannelCurve.objects.create(job=job, channel=job.channels.first(), place="driver's seat",
                                measured_on=date(2026, 11, 27), measured_by="somebody",
                                content=a_curve())  # fmt: skip
