"""Every kind of row and part: what the least of a new one is, and a text it cannot take."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils.html import escape

from jobs import models
from jobs.models import Job, Part
from jobs.pages.forms.route_field import RouteWidget
from jobs.pages.forms.rows_field import RowsWidget
from tests.jobs.curves import a_curve
from tests.jobs.sweeps import BOXED_SUB, THIS_SUB, sweep_text
from tests.jobs.week import to_come

BANANAS = "12 bananas"


def typed(form: forms.BaseForm) -> dict[str, Any]:
    """Return what a browser would send if nobody touched the form."""
    sent: dict[str, Any] = {}
    for bound in form:
        value = bound.value()
        if isinstance(bound.field.widget, RouteWidget | RowsWidget):
            sent |= bound.field.widget.sent(bound.html_name, value or [])
            continue
        if isinstance(bound.field.widget, forms.CheckboxInput):
            value = "on" if value else None
        if value is not None:
            sent[bound.html_name] = value
    return sent


def listed(field: forms.Field, name: str, *rows: Sequence[str]) -> dict[str, list[str]]:
    """Return what a browser would send of a list with these rows, each as long as it is typed."""
    assert isinstance(field.widget, RowsWidget)
    columns = len(field.widget.columns)
    return field.widget.sent(name, [(*row, *[""] * (columns - len(row))) for row in rows])


def says_beside(html: str, name: str, text: str) -> bool:
    """Whether the typed text is still there and the field has a message of its own."""
    return escape(text) in html and f'id="id_{name}_error"' in html


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of row of a job."""

    slug: str
    model: type[models.JobPart]
    least: Callable[[Job], dict[str, Any]]
    wrong: dict[str, str] = field(default_factory=dict)
    open_to_installer: bool = False
    # One of those who may edit it.
    who: str = "designer"


def _first(rows: Any) -> int:
    return int(rows.first().pk)


KINDS = [
    Kind(
        slug="item",
        model=models.EquipmentItem,
        least=lambda job: {"part": _first(Part.objects), "place": "under the seat"},
        wrong={"quantity": BANANAS},
    ),
    Kind(
        slug="channel",
        model=models.Channel,
        least=lambda job: {"name": "Centre", "source": "factory head unit"},
        wrong={"highpass_frequency": BANANAS},
    ),
    Kind(
        slug="sweep",
        model=models.DriverSweep,
        least=lambda job: {
            "item": _first(job.equipmentitems.filter(part__kind=Part.Kind.DRIVER)),
            "measured_on": "2026-11-20",
            "measured_by": "somebody",
            "content": sweep_text(THIS_SUB, 3),
        },
        wrong={"content": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="channel-setting",
        model=models.ChannelSetting,
        least=lambda job: {
            "channel": _first(job.channels.filter(amplifier__isnull=False)),
            "set_on": "2026-11-28",
            "set_by": "somebody",
        },
        wrong={"delay": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="processor-file",
        model=models.ProcessorFile,
        least=lambda job: {
            "processor": _first(job.equipmentitems.filter(part__kind=Part.Kind.PROCESSOR)),
            "saved_on": "2026-11-28",
            "saved_by": "somebody",
            "sent": SimpleUploadedFile("setup.bin", b"\x00kept"),
        },
        wrong={"saved_on": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="target-curve",
        model=models.TargetCurve,
        least=lambda job: {"name": "ours", "content": a_curve()},
        wrong={"content": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="channel-curve",
        model=models.ChannelCurve,
        least=lambda job: {
            "place": "driver's seat",
            "measured_on": "2026-11-20",
            "measured_by": "somebody",
            "content": a_curve(),
        },
        wrong={"content": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="factory",
        model=models.FactoryPart,
        least=lambda job: {"kind": "speaker", "place": "dashboard, middle"},
        wrong={"place": "far " * 30 + "away"},
    ),
    Kind(
        slug="box",
        model=models.Box,
        least=lambda job: {"name": "Second idea"},
        wrong={"wanted_volume": BANANAS},
    ),
    Kind(
        slug="box-sweep",
        model=models.BoxSweep,
        least=lambda job: {
            "box": _first(job.boxes.all()),
            "measured_on": "2026-11-20",
            "measured_by": "somebody",
            "content": sweep_text(BOXED_SUB, 3),
        },
        wrong={"content": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="box-as-built",
        model=models.BoxAsBuilt,
        least=lambda job: {
            "box": _first(job.boxes.all()),
            "measured_on": "2026-11-20",
            "measured_by": "somebody",
        },
        wrong={"width": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="ring",
        model=models.Ring,
        least=lambda job: {"name": "Second ring"},
        wrong={"outer_diameter": BANANAS},
    ),
    Kind(
        slug="trim-panel",
        model=models.TrimPanel,
        least=lambda job: {"name": "Side cover"},
        wrong={"reveal": BANANAS},
    ),
    Kind(
        slug="wood-step",
        model=models.WoodStep,
        least=lambda job: {"box": _first(job.boxes), "kind": "seal"},
        wrong={"minutes": BANANAS},
    ),
    Kind(
        slug="node",
        model=models.PowerNode,
        least=lambda job: {"kind": "load", "name": "Fan"},
        wrong={"voltage": BANANAS},
    ),
    Kind(
        slug="run",
        model=models.Run,
        least=lambda job: {"kind": "P", "from_text": "block", "to_text": "fan"},
        wrong={"length": BANANAS},
    ),
    Kind(
        slug="ground",
        model=models.GroundPoint,
        least=lambda job: {"name": "Stud in the boot", "kind": "body"},
        wrong={"resistance": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="join",
        model=models.LoomJoin,
        least=lambda job: {"connector": "behind the head unit"},
        wrong={"level": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="panel",
        model=models.Panel,
        least=lambda job: {"name": "Headliner"},
        wrong={"position": BANANAS},
    ),
    Kind(
        slug="step",
        model=models.PanelStep,
        least=lambda job: {"panel": _first(job.panels), "text": "Look twice."},
        wrong={"position": BANANAS},
    ),
    Kind(
        slug="fixing",
        model=models.Fixing,
        least=lambda job: {"panel": _first(job.panels), "name": "push clip"},
        wrong={"quantity": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="run-as-built",
        model=models.RunAsBuilt,
        least=lambda job: {"run": job.runs.last().pk, "reason": "The grommet was taken."},
        wrong={"length": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="factory-as-built",
        model=models.FactoryAsBuilt,
        least=lambda job: {
            "factory_part": job.factory_parts.last().pk,
            "reason": "It broke.",
        },
        wrong={"kept_where": "far " * 60 + "away"},
        open_to_installer=True,
    ),
    Kind(
        slug="layer",
        model=models.DampingLayer,
        least=lambda job: {
            "panel": _first(job.panels),
            "part": _first(models.Damping.objects),
            "where": "inner skin",
        },
        wrong={"area": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="item-as-built",
        model=models.ItemAsBuilt,
        least=lambda job: {
            "item": job.equipmentitems.last().pk,
            "part": job.equipmentitems.last().part_id,
            "place": "under the seat",
            "reason": "The first one was dead.",
        },
        wrong={"serial": "far " * 60 + "away"},
        open_to_installer=True,
    ),
    Kind(
        slug="content",
        model=models.PanelContent,
        least=lambda job: {"panel": _first(job.panels), "description": "a felt strip"},
        wrong={"fixing": "glue " * 33},
        open_to_installer=True,
    ),
    Kind(
        slug="cabin-curve",
        model=models.CabinCurve,
        least=lambda job: {
            "place": "on the roof",
            "measured_on": "2026-11-20",
            "measured_by": "somebody",
            "content": "\n".join(f"{20 + n}\t{n}" for n in range(12)),
        },
        wrong={"content": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="measurement",
        model=models.Measurement,
        least=lambda job: {"name": "Block, engine running", "kind": "voltage"},
        wrong={"position": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="visit",
        model=models.ServiceVisit,
        least=lambda job: {
            "day": "2026-11-29",
            "reason": "complaint",
            "person": _first(models.User.objects),
        },
        wrong={"day": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="lot",
        model=models.CableLot,
        least=lambda job: {"conductor": _first(models.Conductor.objects), "number": "L-2291"},
        wrong={"number": "9" * 400},
        open_to_installer=True,
    ),
    Kind(
        slug="price-line",
        model=models.PriceLine,
        least=lambda job: {"kind": "thing", "text": "Delivery"},
        wrong={"each": BANANAS},
        who="manager",
    ),
    Kind(
        slug="payment",
        model=models.Payment,
        least=lambda job: {"kind": "deposit", "amount": "300", "received_on": "2026-11-29"},
        wrong={"amount": BANANAS},
        who="manager",
    ),
    Kind(
        slug="work-time",
        model=models.WorkTime,
        least=lambda job: {"kind": "car", "minutes": "90", "worked_on": "2026-11-29"},
        wrong={"minutes": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="conversation",
        model=models.Conversation,
        least=lambda job: {"held_on": "2026-11-29", "way": "phone", "text": "Called back."},
        wrong={"held_on": BANANAS},
        open_to_installer=True,
    ),
    Kind(
        slug="booking",
        model=models.Booking,
        least=lambda job: {"kind": "work", "first_day": str(to_come())},
        wrong={"minutes": BANANAS},
    ),
    Kind(
        slug="car-template",
        model=models.CarTemplate,
        least=lambda job: {"name": "Five, from 2024"},
        wrong={"takes": BANANAS},
    ),
]
every_kind = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.slug)
# Where one code answers for all kinds: every third each day, all of them in `make long`.
third_kinds = pytest.mark.parametrize(
    "kind",
    [
        pytest.param(kind, id=kind.slug, marks=[pytest.mark.long] if number % 3 else [])
        for number, kind in enumerate(KINDS)
    ],
)

# What the least of a new part is, and a field of it that takes a figure with a unit.
PARTS: dict[str, tuple[dict[str, str], str]] = {
    "driver": ({"name": "Invented 10"}, "vas"),
    "amplifier": (
        {
            "name": "Invented 2",
            "ratings-power": "100 W",
            "ratings-load": "4 Ω",
            "ratings-bridged": "",
        },
        "lowest_load",
    ),
    "processor": ({"name": "Invented P"}, "current"),
    "conductor": ({"name": "Invented 6", "size": "6 mm²"}, "size"),
    "terminal": ({"name": "Invented ring"}, "torque"),
    "fuse": ({"name": "Invented F", "type": "maxi", "rating": "40 A"}, "rating"),
    "sheet_material": ({"name": "Invented ply", "thickness": "12 mm"}, "thickness"),
    "damping": ({"name": "Invented felt"}, "thickness"),
    "cover": ({"name": "Invented carpet"}, "roll_width"),
    "supply": ({"name": "Invented glue", "use": "glue"}, "spread"),
    "other": ({"name": "Invented plug"}, "price"),
}
