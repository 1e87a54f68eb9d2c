"""Begin a job like an earlier one: what is taken over of it, and what each car has of its own.

What was measured, signed or looked up in one car is true of that car: it comes along only where
the same car comes again. Ticks, photos, decisions and sheets stay with the job they belong to.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.job.earlier.panel_sets import take_over
from jobs.design.job.earlier.taught import CAVITY, lay
from jobs.design.records.sides import swap_sides
from jobs.models import (
    Box,
    BoxCorner,
    Channel,
    EquipmentItem,
    FactoryPart,
    GroundPoint,
    Job,
    JobPart,
    LoomJoin,
    Measurement,
    Panel,
    PanelContent,
    PowerNode,
    Ring,
    Run,
    TrimPanel,
    Vehicle,
    WoodStep,
)
from jobs.models.box.row_lists import WithLists, copied_lists

# What is taken over, in the order of the strip: a row finds what it points at already there.
ASPECTS: dict[str, tuple[Promise, tuple[type[JobPart], ...]]] = {
    "car": (_("the car’s figures: battery, charging, cabin, airbag isolation"), ()),
    "factory": (_("factory audio and its fate"), (FactoryPart,)),
    "panels": (_("panels: how they come off, fixings, steps"), (Panel,)),
    "equipment": (_("equipment"), (EquipmentItem,)),
    "channels": (_("channel plan"), (Channel,)),
    "boxes": (_("boxes, rings and trim panels, with the work on them"), (Box, Ring, TrimPanel)),
    "cavities": (_("cavities: the room for a box, as it was measured"), (Box,)),
    "cables": (
        _("power tree, ground points and cables with their routes"),
        (PowerNode, GroundPoint, Run),
    ),
    "values": (_("values to be measured"), (Measurement,)),
}
# What a template of a model takes over: what its maker built, and what somebody measured of that.
OF_A_MODEL = ("car", "factory", "panels", "cavities")
# Rows that go along with those of an aspect.
WITH: dict[str, tuple[type[JobPart], ...]] = {"boxes": (WoodStep,), "cables": (LoomJoin,)}

# What lies on one side of a car.
SIDED = {"factory", "panels", "cables"}

# Of a car: what its maker built it with. The rest was read off or measured in one car.
OF_THE_MODEL = (
    *("body", "battery_place", "battery_chemistry", "battery_charge", "battery_cca"),
    *("charging_source", "charging_current", "charging_current_idle", "charging_hot_share"),
    *("accessory_limit", "recovery_current", "start_stop", "smart_charging"),
    *("cabin_volume", "cabin_length", "airbag_procedure"),
)
_MEASURED = {"corners__outline": BoxCorner.Outline.CAVITY}
_RECORD = {"id", "job", "version", "entry_token", "removed_at"}
# Of the visit: never taken over.
OF_THE_VISIT: dict[type[JobPart], set[str]] = {
    WoodStep: {"done_by", "done_at"},
    Measurement: {"value", "measured_by", "measured_at"},
    TrimPanel: {"cover_state"},
}
# Of the one car: taken over only where it is the same.
OF_THE_CAR: dict[type[JobPart], set[str]] = {
    EquipmentItem: {"serial", "state", "ventilated"},
    FactoryPart: {"kept_where"},
    PowerNode: {"voltage", "internal_resistance"},
    GroundPoint: {"surface", "resistance"},
    LoomJoin: {"signal", "level"},
    Run: {"chassis_resistance", "ambient", "fuse_sheathed", "end_fuse_sheathed"},
}
_OF_THE_PANEL = (*Panel.DANGERS, "damping_note")


@dataclass(frozen=True, kw_only=True)
class Offer:
    """An aspect of an earlier job: how many rows there are of it."""

    code: str
    word: Promise
    count: int
    # Whether it is taken unless somebody says no.
    usual: bool


def offers(
    earlier: Job, job: Job | None = None, *, same: bool = False, mirrored: bool = False
) -> list[Offer]:
    """Say what an earlier job can give a new one, or a job that has nothing of it yet.

    Of the same car the figures are there already. Of a car with its driver on the other side,
    what lies on one side is not taken unless somebody asks for it.
    """
    offered = []
    for code, (word, kinds) in ASPECTS.items():
        if code == "car":
            count = 0 if same else len(_figures(earlier.vehicle))
        else:
            of_it = {"job": earlier} | (_MEASURED if code == "cavities" else {})
            count = sum(kind.objects.filter(**of_it).distinct().count() for kind in kinds)
        if count and not (job and _has(job, kinds)):
            # Whoever takes a box over has its cavity with it.
            usual = not (mirrored and code in SIDED) and code != "cavities"
            offered.append(Offer(code=code, word=word, count=count, usual=usual))
    return offered


def _has(job: Job, kinds: Iterable[type[JobPart]]) -> bool:
    # The number of a cable that was removed is not given again.
    return any(
        (kind.with_removed if kind is Run else kind.objects).filter(job=job).exists()
        for kind in kinds
    )


def is_same_car(earlier: Job, car: Vehicle) -> bool:
    """Whether the car of an earlier job has come again, perhaps under another owner."""
    before = earlier.vehicle
    return before.pk == car.pk or bool(car.vin and car.vin == before.vin)


def _figures(car: Vehicle) -> dict[str, Any]:
    values = {name: getattr(car, name) for name in OF_THE_MODEL}
    return {name: value for name, value in values.items() if value not in (None, "")}


def begin_like(
    job: Job, earlier: Job, codes: Sequence[str], *, same: bool, swap: bool = False
) -> None:
    """Take these aspects of an earlier job over; what the job has already stays as it is.

    Swapped are the sides of panels and of what the car's maker fitted: they follow the driver.
    Cables keep theirs, for so do the speakers they lead to.
    """
    taken: dict[JobPart, Any] = {}
    for code, (_word, kinds) in ASPECTS.items():
        if code not in codes:
            continue
        if code == "car":
            _take_figures(job.vehicle, earlier)
        elif code == "panels":
            take_over(job, earlier, swap=swap)
        elif code == "cavities":
            _take_cavities(job, earlier)
        elif not _has(job, kinds):
            for kind in (*kinds, *WITH.get(code, ())):
                _copy_all(kind, earlier, job, taken, same=same)
        if swap and code == "factory":
            _swap_factory(taken.values())
        taken |= _panels_by_name(job, earlier, same=same and code == "panels")
    if same and {"panels", "equipment"} <= set(codes):
        _copy_all(PanelContent, earlier, job, taken, same=True)


def _take_cavities(job: Job, earlier: Job) -> None:
    """Begin a box in each cavity; the box of the other car stays there."""
    if _has(job, (Box,)):
        return
    for box in Box.objects.filter(job=earlier, **_MEASURED).distinct():
        measured = {name: getattr(box, name) for name in CAVITY}
        Box(job=job, name=box.name, place=box.place, chosen=False, **measured).save()


def _swap_factory(rows: Iterable[JobPart]) -> None:
    for part in rows:
        if isinstance(part, FactoryPart):
            swap_sides(part, "place", "description")
            part.save()


def _take_figures(car: Vehicle, earlier: Job) -> None:
    """Fill what nobody has typed of a car with the figures of its model."""
    figures = _figures(earlier.vehicle)
    empty = {name: value for name, value in figures.items() if getattr(car, name) in (None, "")}
    if not empty:
        return
    for name, value in empty.items():
        setattr(car, name, value)
    car.figures_from = earlier.code
    car.version += 1
    car.save()


def _panels_by_name(job: Job, earlier: Job, *, same: bool) -> dict[JobPart, Any]:
    """Pair panels of the same name; what is behind those of the same car has not moved."""
    mine = {panel.name.casefold(): panel for panel in Panel.objects.filter(job=job)}
    pairs: dict[JobPart, Any] = {}
    for panel in Panel.objects.filter(job=earlier):
        if new := mine.get(panel.name.casefold()):
            pairs[panel] = new
            if same and new.learnt_from_id == earlier.pk:
                for name in _OF_THE_PANEL:
                    setattr(new, name, getattr(panel, name))
                new.save()
    return pairs


def _copy_all(
    kind: type[JobPart], earlier: Job, job: Job, taken: dict[JobPart, Any], *, same: bool
) -> None:
    for row in kind.objects.filter(job=earlier):
        if (new := _copied(row, job, taken, same=same)) is None:
            continue
        new.save()
        taken[row] = new
        if isinstance(row, Run) and isinstance(new, Run):
            _copy_route(row, new, taken)


def _copied(row: JobPart, job: Job, taken: dict[JobPart, Any], *, same: bool) -> JobPart | None:
    """Return a row of another job as one of this; None where it is nothing without another row."""
    kind = type(row)
    own = _RECORD | OF_THE_VISIT.get(kind, set()) | (set() if same else OF_THE_CAR.get(kind, set()))
    values: dict[str, Any] = {"job": job}
    for field in kind._meta.concrete_fields:
        if field.name in own:
            continue
        value = getattr(row, field.name)
        if isinstance(value, JobPart):
            value = taken.get(value)
            # It was about something that is not taken along.
            if value is None and not (field.null and _means_something_alone(row)):
                return None
        values[field.name] = value
    if isinstance(row, WithLists):
        values |= copied_lists(row)
    return kind(**values)


def _means_something_alone(row: JobPart) -> bool:
    return not isinstance(row, Measurement | WoodStep | PanelContent)


def _copy_route(run: Run, new: Run, taken: dict[JobPart, Any]) -> None:
    """Lay the route through the panels of this job, and say what the cable turns on."""
    lay(new, run.stretches.select_related("panel"), taken)
    new.wakes.set([taken[item] for item in run.wakes.all() if item in taken])
    new.note_what_hangs()
