"""The hand-over: what the customer keeps, in words that need nobody beside them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.job.stages import let_go, open_before_handover, release_of
from jobs.design.job.whole import JobDesign
from jobs.design.records.records import JobRecords
from jobs.design.setup.hearing import Heard, work_out_hearing
from jobs.design.wiring.cores import fuses_of
from jobs.drawings.wiring import wiring_pictures
from jobs.models import EquipmentItem, Fuse, Part, Photo, PowerNode, Run, Stage
from jobs.sheets import photo_data

# What a customer calls it, in the order they would show it to a friend.
ROLES: dict[Promise, tuple[str, ...]] = {
    _("What you hear"): (Part.Kind.DRIVER,),
    _("What drives it and sets it"): (Part.Kind.AMPLIFIER, Part.Kind.PROCESSOR),
    _("What keeps the car quiet"): (Part.Kind.DAMPING,),
    _("And besides"): (),
}


@dataclass(frozen=True, kw_only=True)
class FuseOfCar:
    """One fuse as its owner meets it: what it is, what falls silent with it, where it sits."""

    part: Fuse
    protects: str
    sits: str


def context(design: JobDesign) -> dict[str, Any]:
    """Gather what is printed of it."""
    return gathered(design, design.records.photos, photo_data.address)


def gathered(
    design: JobDesign, photos: Iterable[Photo], address: Callable[[Photo], str]
) -> dict[str, Any]:
    """Gather what the customer has, how it is lived with, and what the car goes with open."""
    records = design.records
    as_set = {each.channel.pk: each.now for each in design.as_set if each.now is not None}
    release = release_of(Stage.HANDED_OVER, design)
    before, lost_before = pictures(photos, Photo.Moment.BEFORE, address)
    after, lost_after = pictures(photos, Photo.Moment.AFTER, address)
    return {
        "before": before,
        "after": after,
        "lost": lost_before + lost_after,
        "roles": _roles(design.numbered),
        # As each was set, and as planned where nobody wrote that down.
        "set": [(row.channel, as_set.get(row.channel.pk)) for row in design.channels],
        "signal": wiring_pictures.signal(design),
        "loudest": _loudest(work_out_hearing(design.setup.starts)),
        "reserves": design.supply.reserves,
        "key_off": design.supply.key_off,
        **on_the_road(records),
        "open_stops": design.open_stops,
        # The manager's word, and what of it is still so.
        "release": release,
        "let_go": let_go(open_before_handover(design), release),
    }


def on_the_road(records: JobRecords) -> dict[str, Any]:
    """Return what its owner needs when a fuse blows or a battery is changed."""
    fuses = [fuse for run in records.runs for fuse in _fuses(run)]
    return {
        "batteries": sum(node.kind == PowerNode.Kind.BATTERY for node in records.nodes),
        "fuses": fuses,
        "spares": list(Counter(fuse.part for fuse in fuses).items()),
    }


def pictures(
    photos: Iterable[Photo], moment: str, address: Callable[[Photo], str] = photo_data.address
) -> tuple[list[tuple[str, str]], int]:
    """Return what was chosen for the customer, and of how many the file is lost."""
    shown, lost = [], 0
    for photo in photos:
        if photo.on_handover == moment:
            try:
                shown.append((photo.caption, address(photo)))
            except OSError:
                lost += 1
    return shown, lost


def _roles(
    numbered: Sequence[tuple[EquipmentItem, str]],
) -> list[tuple[Promise, list[tuple[EquipmentItem, str]]]]:
    named = {kind for kinds in ROLES.values() for kind in kinds}
    rows = [
        (role, [row for row in numbered if row[0].part.kind in kinds or _rest(row, kinds, named)])
        for role, kinds in ROLES.items()
    ]
    return [(role, these) for role, these in rows if these]


def _rest(row: tuple[EquipmentItem, str], kinds: tuple[str, ...], named: set[str]) -> bool:
    return not kinds and row[0].part.kind not in named


def _fuses(run: Run) -> list[FuseOfCar]:
    """Each sits at its end of the cable and protects what is beyond it."""
    return [
        FuseOfCar(
            part=fuse.part,
            protects=run.goes_to if fuse.at_start else run.goes_from,
            sits=fuse.node.place or str(fuse.node) if fuse.node else "",
        )
        for fuse in fuses_of(run)
    ]


def _loudest(heard: Iterable[Heard]) -> Heard | None:
    """The channel that is enough soonest; None where no level is known."""
    return max(heard, key=lambda each: each.in_a, default=None)
