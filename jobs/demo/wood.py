"""Rings and trim panels of the invented jobs."""

from __future__ import annotations

import math
from datetime import date

from jobs.demo.catalogue import Parts
from jobs.demo.wood_supplies import add_supplies
from jobs.models import Box, BoxAsBuilt, Job, Ring, TrimPanel, WoodStep


def load_wood(job: Job, parts: Parts) -> None:
    """Add what the door speakers stand on and what covers the box."""
    woofer = job.equipmentitems.filter(part=parts["woofer"].part_ptr).first()
    Ring.objects.create(
        job=job,
        name="Door rings",
        place="front doors, behind the door cards",
        quantity=2,
        driver=woofer,
        material=parts["birch"],
        layers=1,
        outer_diameter=0.186,
        bolt_circle=0.158,
        screws=6,
        tilt=math.radians(4),
    )
    cover = TrimPanel(
        job=job,
        name="Boot-floor cover",
        place="over the box, under the carpet",
        material=parts["fibreboard"],
        width=0.62,
        height=0.45,
        box=job.boxes.first(),
        box_u=-0.04,
    )
    cover.openings = [[0.55, 0.1, 0.09, 0.05]]
    cover.round_over = 0.003
    cover.save()
    _floor(job, parts)
    _board(job, parts)
    _corner(job, parts)
    _moulded(job, parts)
    kinds, box = WoodStep.Kind, job.boxes.all()[0]
    box.grille_height = 0.03
    box.save()
    planned = [
        (kinds.MOCK_UP, 30, "fibreboard offcuts and tape; close the boot floor on it"),
        (kinds.CUT, 90, ""),
        (kinds.GLUE, 60, "dry run first"),
        (kinds.CURE, 720, "overnight, clamped"),
        (kinds.SEAL, 20, "every inner corner"),
        (kinds.WRAP, 75, "front only"),
        (kinds.FIT, 40, ""),
    ]
    for position, (kind, minutes, text) in enumerate(planned, start=1):
        WoodStep.objects.create(
            job=job, box=box, position=position, kind=kind, minutes=minutes, text=text
        )
    BoxAsBuilt.objects.create(
        job=job,
        box=box,
        measured_on=date(2026, 11, 27),
        measured_by="Mika Orsay",
        width=(box.width or 0.0) + 0.001,
        thickness=0.0178,
    )


def load_cheek(job: Job, parts: Parts) -> None:
    """Add a cheek that is bent round a corner over saw kerfs, and what holds in wood."""
    add_supplies(job, parts)
    TrimPanel.objects.create(
        job=job,
        name="Bent cheek",
        place="living room, round the corner of the bench",
        material=parts["fibreboard"],
        width=0.55,
        height=0.3,
        round_over=0.002,
        bend_at=0.2,
        bend_radius=0.12,
        bend_angle=math.radians(70),
        bend_skin=0.003,
        bend_blade=0.0032,
    )


def _floor(job: Job, parts: Parts) -> None:
    """The floor beside the box, wrapped, with a hatch over what is fused under it."""
    floor = TrimPanel(
        job=job,
        name="False floor",
        kind=TrimPanel.Kind.FLOOR,
        place="boot, from the sill to the seat back",
        material=parts["birch"],
        level=0.145,
        bears=80.0,
        cover=parts["carpet"],
        sample="no. 3, seen in daylight on 20 November",
        held_by=TrimPanel.Held.INSERTS,
        held_into="6 x M6 through the battens into the boot floor's own threads",
    )
    # The back of the seat was measured from a batten, the rest with a rule.
    floor.measured = TrimPanel.Measured.SPACE
    floor.outline = [
        [0, 0],
        [0.94, 0],
        [0.94, 0.45, 0, 0.06],
        [0.82, 0.63],
        [0.12, 0.63],
        [0, 0.45, 0, 0.06],
    ]
    floor.stations = [[4, 0.15, 0.014], [4, 0.35, 0.023], [4, 0.55, 0.013]]
    floor.supports = [
        ["batten", 0.46, 0.03, 0.8, 0.04],
        ["batten", 0.46, 0.585, 0.6, 0.04],
        ["block", 0.06, 0.36, 0.06, 0.1, 0.108],
        ["block", 0.86, 0.36, 0.06, 0.1],
    ]
    floor.hatches = [
        [0.62, 0.3, 0.3, 0.24, 0.0015, 0.028, 0.038, "magnets", "fuses of the amplifiers"]
    ]
    # In the block of the amplifiers; the third has its own hatch still to come.
    floor.beneath = [["F-P02", 0.58, 0.3], ["F-P03", 0.66, 0.31], ["Fused block", 0.62, 0.3]]
    floor.beneath_listed = True
    floor.save()


def _corner(job: Job, parts: Parts) -> None:
    """What was drawn instead and not built: a box in the rear corner, its skin leaning in."""
    built = job.boxes.all()[0]
    corner = Box(
        job=job,
        name="Corner box",
        place="rear corner, left",
        kind=built.kind,
        driver=built.driver,
        chosen=False,
        material=parts["birch"],
        shape=Box.Shape.PLAN,
        height=0.42,
        wanted_volume=built.wanted_volume,
    )
    lean = math.radians(10)
    corner.plan = [[0, 0], [0.46, 0], [0.46, 0.26, 0, lean], [0.3, 0.48], [0, 0.48]]
    corner.save()


def _moulded(job: Job, parts: Parts) -> None:
    """What may follow it: a moulded corner, of which a mould is filled and a ring is tried."""
    built = job.boxes.all()[0]
    shell = Box(
        job=job,
        name="Moulded corner",
        place="rear corner, right, under the glass",
        kind=built.kind,
        driver=built.driver,
        chosen=False,
        shape=Box.Shape.MOULDED,
        litres_by=Box.LitresBy.GRANULES,
        measured_in=Box.MeasuredIn.MOULD,
        skin_area=0.72,
        skin_thickness=0.006,
        skin_stray=0.001,
        skin_density=1500.0,
        skin_layup="4 layers of mat, 450 g/m², in polyester; fleece over the ring",
        wanted_volume=built.wanted_volume,
    )
    shell.fills = [0.0392, 0.0396, 0.0389]
    shell.save()
    Ring.objects.create(
        job=job,
        name="Ring of the moulded corner",
        driver=built.driver,
        material=parts["fibreboard"],
        layers=2,
        outer_diameter=0.34,
        screws=8,
        box=shell,
        raised=0.12,
        lean=math.radians(12),
        spacers=5,
        spacer_width=0.04,
    )


def _board(job: Job, parts: Parts) -> None:
    """What carries both amplifiers, under the floor."""
    board = TrimPanel(
        job=job,
        name="Amplifier board",
        kind=TrimPanel.Kind.BOARD,
        place="under the false floor",
        material=parts["birch"],
        room_above=0.105,
        held_by=TrimPanel.Held.INSERTS,
        held_into="4 x M6 on rubber, into the boot floor's own threads",
    )
    board.outline = [[x, y, 0, 0.02] for x, y in ((0, 0), (0.66, 0), (0.66, 0.26), (0, 0.26))]
    board.mounts = [[parts["six"].pk, 0.185, 0.13, False], [parts["mono"].pk, 0.51, 0.13, False]]
    board.openings = [[0.365, 0.035, 0.02]]
    board.save()
