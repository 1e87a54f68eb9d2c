"""Short ways to make jobs and rows for tests; every figure is invented."""

from __future__ import annotations

from jobs import models
from jobs.models import Job, Part


def job(like: Job, *, number: int) -> Job:
    """Return an empty job for the same car."""
    return Job.objects.create(number=number, vehicle=like.vehicle, title=f"invented {number}")


def rows(of: Job, count: int) -> None:
    """Add this many of every kind of row, linked to each other as in a real job."""
    driver, amplifier, processor = (
        Part.objects.filter(kind=kind).first() for kind in ("driver", "amplifier", "processor")
    )
    for n in range(count):
        speaker = models.EquipmentItem.objects.create(job=of, part=driver, place=f"door {n}")
        power = models.EquipmentItem.objects.create(job=of, part=amplifier, place=f"boot {n}")
        brain = models.EquipmentItem.objects.create(job=of, part=processor, place=f"seat {n}")
        factory = models.FactoryPart.objects.create(job=of, kind="speaker", place=f"door {n}")
        channel = models.Channel.objects.create(
            job=of, name=f"way {n}", source="radio", processor=brain, amplifier=power,
            speaker=speaker, amplifier_channel=1,
        )  # fmt: skip
        models.Box.objects.create(
            job=of, name=f"box {n}", driver=speaker, channel=channel, wanted_volume=0.02,
            width=0.4, height=0.35, depth=0.3, material=models.SheetMaterial.objects.first(),
        )  # fmt: skip
        sheet = models.SheetMaterial.objects.first()
        models.Ring.objects.create(
            job=of, name=f"ring {n}", driver=speaker, material=sheet, outer_diameter=0.2,
            bolt_circle=0.17, inner_diameter=0.14,
        )  # fmt: skip
        models.TrimPanel.objects.create(
            job=of, name=f"cover {n}", box=of.boxes.first(), material=sheet, width=0.6, height=0.5
        )
        battery = models.PowerNode.objects.create(
            job=of, kind="battery", name=f"battery {n}", voltage=12.6, internal_resistance=0.005
        )
        load = models.PowerNode.objects.create(
            job=of, kind="amplifier", name=f"amplifier {n}", equipment=power
        )
        run = models.Run.objects.create(
            job=of, kind="P", number=models.Run.objects.filter(job=of).count() + 1, start=battery,
            end=load, length=1.0, conductor=models.Conductor.objects.first(),
            fuse=models.Fuse.objects.first(), return_kind="cable", return_length=1.0, zone="boot",
        )  # fmt: skip
        panel = models.Panel.objects.create(job=of, name=f"panel {n}")
        models.Stretch.objects.create(run=run, panel=panel)
        models.PanelStep.objects.create(job=of, panel=panel, text="look")
        models.PanelContent.objects.create(job=of, panel=panel, equipment=power)
        models.PanelContent.objects.create(job=of, panel=panel, factory_part=factory)
        models.Measurement.objects.create(job=of, name=f"volts {n}", kind="voltage")
