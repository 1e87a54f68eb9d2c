"""Stickers for what is no cable: fuse holders, amplifiers, ground points, panels; once each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from django.urls import reverse
from django.utils.translation import gettext as _

from jobs.design.job.whole import JobDesign
from jobs.design.wiring.schedule import FusePlace, Schedule
from jobs.models import EquipmentItem, GroundPoint, Panel
from jobs.sheets import codes
from jobs.units import show


class Words(NamedTuple):
    """What one says: its name in large letters, a few lines, the code of its panel's page."""

    name: str
    lines: tuple[str, ...]
    code: str = ""


@dataclass(frozen=True, kw_only=True)
class PlaceLabel:
    """One sticker and its place on the stock."""

    words: Words
    column: int
    row: int


def place_labels(
    design: JobDesign, schedule: Schedule, *, columns: int, per_sheet: int, code_side: float
) -> list[list[PlaceLabel]]:
    """Return one sticker for every holder, amplifier, ground point and panel, sheet by sheet."""
    labels = []
    for count, words in enumerate(_every(design, schedule, code_side)):
        row, column = divmod(count % per_sheet, max(columns, 1))
        labels.append(PlaceLabel(words=words, column=column, row=row))
    return [labels[n : n + per_sheet] for n in range(0, len(labels), per_sheet)]


def _every(design: JobDesign, schedule: Schedule, code_side: float) -> Iterator[Words]:
    records = design.records
    yield from (_fuse(fuse) for fuse in schedule.fuses)
    for item in records.equipment:
        if item.part_id in records.amplifiers:
            yield from [_amplifier(item)] * item.quantity
    yield from (_ground(point) for point in records.grounds)
    yield from (_panel(panel, code_side) for panel in records.panels)


def _fuse(fuse: FusePlace) -> Words:
    kind = f"{show(fuse.part.rating, 'current', exact=True)}, {fuse.part.get_type_display()}"
    protects = _("protects %(runs)s") % {"runs": ", ".join(fuse.protects)} if fuse.protects else ""
    lines = (kind, fuse.place, protects, _("Never a larger one."))
    return Words(fuse.label, _typed(*lines))


def _amplifier(item: EquipmentItem) -> Words:
    number = _("serial number %(number)s") % {"number": item.serial} if item.serial else ""
    return Words(str(item.part), _typed(item.place, number))


def _ground(point: GroundPoint) -> Words:
    torque = show(point.torque, "torque") if point.torque else _("torque not recorded")
    return Words(point.name, _typed(point.get_kind_display(), point.place, point.stud, torque))


def _panel(panel: Panel, code_side: float) -> Words:
    page = reverse("panel-page", args=[panel.token]) if panel.token else ""
    address = codes.public_address(page) if page else ""
    fits = address and codes.module(address, code_side) >= codes.SMALLEST_MODULE
    says = _("What is behind it: see the panel record.")
    if panel.airbag_near is not False:
        says = _("AIRBAG behind it") if panel.airbag_near else _("Airbag: not recorded")
    code = codes.code_uri(address) if fits else ""
    return Words(f"{panel.position}. {panel.name}", _typed(says), code)


def _typed(*lines: str) -> tuple[str, ...]:
    return tuple(line for line in lines if line)
