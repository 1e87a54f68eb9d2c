"""Boxes that go into a cavity: several that give the litres wanted, or the largest that will go."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import get_args

import numpy as np
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, Room
from acoustics.carcass.cavity.fit_bases import OUTLINE, RECTANGLE, SLOPE, Task, bases
from acoustics.carcass.cavity.fit_build import Built, Facing, build, turned
from acoustics.carcass.cavity.fit_search import (
    Extra,
    Grid,
    Measured,
    Window,
    coarse,
    finest,
    least,
    measure,
    width_of,
)
from acoustics.carcass.cavity.fit_terms import Answer, Fit, Limit, Turned, Wanted
from acoustics.carcass.cavity.over_plan import largest_over_plan, over_plan
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.room.inner_clearance import TOUCH
from acoustics.carcass.shape.errors import CarcassError
from acoustics.findings import Finding

__all__ = ["Answer", "Fit", "Limit", "Wanted", "fit"]

AIMS = ("shallowest", "least-wood", "least-space")
SIMPLEST = "simplest-cuts"
# A closer look at one aim is taken this often before the next shape is tried.
LOOKS = 4
# After so many closer looks in vain at one aim the rest of its shapes are not looked at.
ALL_LOOKS = 8
SAME_SIZE = 0.005
PARTS = ("driver", "port")
KINDS = (RECTANGLE, SLOPE, OUTLINE)
ROOMS, MOST = 4, 3
# Windows tried on the way from the smallest box to the largest.
PATH = 21
# What a fault asks more of: see Extra.
ASKS = {
    "driver-deeper-than-box": "behind",
    "driver-near-back": "behind",
    "port-does-not-fit": "port",
    "port-mouth-near-wall": "port",
    "parts-collide": "width",
    "parts-crowded": "width",
    "box-too-near": "cap",
}


def fit(cavity: Cavity, wanted: Wanted) -> Fit:
    """Find boxes of a net volume in a cavity that honour every clearance.

    Boxes are prisms over the cavity's side view: rectangles, rectangles with one panel that
    leans as the cavity does, and the cavity's own outline, each cut by an upright window. For
    every window the width follows from the litres; each answer is then checked as any other box.
    Where something does not reach across, or no prism goes, boxes over a plan are looked for too.

    Args:
        cavity: the cavity.
        wanted: what the box is to be.

    Returns: up to six different answers, or the largest box that goes and what binds

    Raises:
        CarcassError: when cavity and wood leave no inside at all.

    Valid: outlines of up to 12 panels; parts in a row at half height of their face.

    Source: definition.
    """
    fault = too_little_wood(wanted)
    if fault is not None:
        return Fit(answers=(), limits=(Limit(what="driver", volume=None, finding=fault),))
    search = _Search(cavity, wanted)
    answers: list[Answer] = []
    for number, aim in enumerate(AIMS):
        # Where two aims found nothing that passes, a third has the same windows to choose from.
        answer = search.best(aim) if answers or number < 2 else None
        if answer is not None:
            _gather(answers, answer)
    simplest = False
    for kind in KINDS:  # from no bevels to many
        more = len(answers) < 3 and all(a.kind != kind for a in answers)
        if answers and (more or not simplest):
            answer = search.best("least-wood", kind)
            if answer is not None:
                _gather(answers, replace(answer, best_at=() if simplest else (SIMPLEST,)))
                simplest = True
    answers += over_plan(cavity, wanted, always=not answers)
    if answers:
        return Fit(answers=tuple(answers))
    largest = max(
        (box for box in (search.best("largest"), largest_over_plan(cavity, wanted)) if box),
        key=lambda box: box.net_volume,
        default=None,
    )
    # Where even the largest has too few litres, the least that holds the parts does not bind.
    enough = largest is not None and largest.net_volume >= wanted.net_volume
    smallest = search.best("smallest") if enough else None
    return Fit(
        answers=(),
        largest=largest,
        smallest=smallest,
        limits=tuple(_limits(cavity, wanted, largest, smallest)),
        turned=tuple(_turned(cavity, wanted)),
    )


def _turned(cavity: Cavity, wanted: Wanted) -> Iterator[Turned]:
    """Boxes that go where the driver looks another way; the one with the least wood for each."""
    for facing in get_args(Facing):
        if facing == wanted.facing or (facing == "side" and wanted.load.drivers > 1):
            continue
        answer = _Search(cavity, replace(wanted, facing=facing)).best("least-wood")
        if answer is not None:
            yield Turned(facing=facing, answer=answer)


def _gather(answers: list[Answer], new: Answer) -> None:
    """Add an answer, or say of one of the same size that it is best at this too."""
    for i, old in enumerate(answers):
        close = zip(old.size, new.size, strict=True)
        if old.kind == new.kind and all(abs(a - b) < SAME_SIZE for a, b in close):
            answers[i] = replace(old, best_at=old.best_at + new.best_at)
            return
    answers.append(new)


class _Search:
    """One cavity and one wish, with every base shape measured once."""

    def __init__(self, cavity: Cavity, wanted: Wanted) -> None:
        self.cavity, self.wanted = cavity, wanted
        self._between: dict[tuple[float, ...], list[Window]] = {}
        self._grids: dict[tuple[float, ...], tuple[Grid, Measured]] = {}
        stock = wanted.stock
        self.task = Task(
            volume=wanted.net_volume,
            thickness=stock.thickness,
            baffle=stock.thickness * stock.layers,
            load=wanted.load,
            on_side=wanted.facing == "side",
            upward=wanted.facing == "top",
            clearances=wanted.clearances,
            opening=cavity.opening,
            whole=turned(cavity.profile.polygon, wanted.facing),
        )
        rooms = sorted(cavity.rooms(), key=lambda r: -r.region.area * r.width)[:ROOMS]
        self.bases = [
            base
            for room in rooms
            for base in bases(
                Room(region=turned(room.region, wanted.facing), start=room.start, end=room.end),
                stock.thickness,
            )
        ]

    def best(self, aim: str, kind: str | None = None, *, more_than: float = 0.0) -> Answer | None:
        """Return the best box for one aim that passes a closer look.

        A shape is not even measured while its room promises less than another gives, or no more
        than a volume that is there already.
        """
        extras = {i: Extra() for i, b in enumerate(self.bases) if kind in (None, b.kind)}
        first: dict[int, tuple[float, Window] | None] = {}
        promised = {i: self._promise(i, aim) for i in extras}
        waiting = sorted((key, i) for i, key in promised.items() if key < -more_than)[::-1]
        fine: set[int] = set()
        while True:
            # Of equals, rounding aside, the one with fewer bevels.
            order = sorted((float(f"{f[0]:.9g}"), i) for i, f in first.items() if f is not None)
            if waiting and (not order or waiting[-1][0] <= _near(order[0][0])):
                _, i = waiting.pop()
                first[i] = self._first(i, aim, extras[i])
                continue
            if not order or sum(extra.looks for extra in extras.values()) > ALL_LOOKS:
                return None
            rough = [i for key, i in order[:MOST] if i not in fine and key <= _near(order[0][0])]
            if rough:
                for i in rough:
                    start = first[i]
                    assert start is not None
                    first[i] = finest(self.bases[i], self.task, aim, extras[i], start)
                    fine.add(i)
                continue
            i = order[0][1]
            built = self._build(i, aim, first[i][1], extras[i])  # type: ignore[index]
            if built is not None and not built.faults:
                return self._answer(built, aim)
            again = built is not None and _asked(extras[i], built.faults)
            first[i] = self._first(i, aim, extras[i]) if again else None
            fine.discard(i)

    def _promise(self, i: int, aim: str) -> float:
        """Return a key no window of a shape can beat: the litres of its whole room for the largest.

        Its inside lies within the room, a thickness of wood from its outline and its ends.
        """
        if aim != "largest":
            return -np.inf
        room, wood = self.bases[i].room, self.task.thickness
        inside = room.region.buffer(-wood, join_style="mitre").area
        return float(self.task.taken - inside * (room.width - self.task.walls))

    def _measured(self, i: int, extra: Extra) -> tuple[Grid, Measured]:
        key = (i, *list(vars(extra).values())[:-1])
        if key not in self._grids:
            self._grids[key] = coarse(self.bases[i], self.task, extra)
        return self._grids[key]

    def _first(self, i: int, aim: str, extra: Extra) -> tuple[float, Window] | None:
        """The best window of the first grid; if none will do, one between smallest and largest."""
        grid, measured = self._measured(i, extra)
        start = least(grid, measured, self.task, aim)
        if start is not None or aim in ("largest", "smallest"):
            return start
        key = (i, *list(vars(extra).values())[:-1])
        if key not in self._between:
            self._between[key] = self._from_small_to_large(i, extra, grid, measured)
        tried = [
            least(single, measure(self.bases[i], single, self.task, extra), self.task, aim)
            for a, b, c, d in self._between[key]
            for single in [(np.array([a]), np.array([b]), np.array([c]), np.array([d]))]
        ]
        return min((start for start in tried if start is not None), default=None)

    def _from_small_to_large(
        self, i: int, extra: Extra, grid: Grid, measured: Measured
    ) -> list[Window]:
        """Windows that grow from the smallest box to the largest: some hold the litres wanted.

        The first grid steps over them where little more than the least is wanted, or little less
        than the most.
        """
        ends = []
        for aim in ("smallest", "largest"):
            rough = least(grid, measured, self.task, aim)
            if rough is None:
                return []
            ends.append(finest(self.bases[i], self.task, aim, extra, rough))
        (least_key, small), (most_key, large) = ends
        if least_key > self.task.volume or -most_key < self.task.volume:
            return []
        shares = np.linspace(0.0, 1.0, PATH)[:, None]
        windows = (1 - shares) * np.array(small) + shares * np.array(large)
        return [tuple(window) for window in windows.tolist()]

    def _build(self, i: int, aim: str, window: Window, extra: Extra) -> Built | None:
        base, width = self.bases[i], None
        if aim in ("largest", "smallest"):
            width = width_of(base, window, self.task, extra, aim)
        try:
            return build(
                base,
                window,
                task=self.task,
                stock=self.wanted.stock,
                cavity=self.cavity,
                facing=self.wanted.facing,
                width=width,
            )
        except CarcassError:
            return None

    def _answer(self, built: Built, aim: str) -> Answer:
        x0, y0, x1, y1 = turned(built.carcass.profile.polygon, self.wanted.facing).bounds
        low = y0 if self.task.upward else y0 - 1e3
        lost: Polygon = self.task.whole & box(x0, low, x1 + 1e3, y1)
        return Answer(
            best_at=(aim,) if aim in AIMS else (),
            carcass=built.carcass,
            face=built.face,
            z=built.z,
            kind=built.kind,
            space=float(lost.area) * built.carcass.width,
        )


def too_little_wood(wanted: Wanted) -> Finding | None:
    """Return what is wrong with the driver's own screw circle, which no box can mend.

    Args:
        wanted: what the box is to be.

    Returns: finding, or None

    Source: definition.
    """
    part = wanted.load.driver
    wood = None if part is None else part.wood_at_screws
    limit = wanted.clearances.wood_at_screw
    if part is None or wood is None or wood >= limit - TOUCH:
        return None
    return Finding(code="screws-off-wood", detail=("driver",), value=wood, limit=limit, unit="m")


def _near(key: float) -> float:
    """How far off the best of a rough grid another may be and still win on a finer one."""
    return key + 0.1 * abs(key)


def _asked(extra: Extra, faults: tuple[Finding, ...]) -> bool:
    """Ask more room of the next try, as much as is missing; False when it is no use."""
    extra.looks += 1
    if extra.looks > LOOKS:
        return False
    for fault in faults:
        what = ASKS.get(fault.code, "face")
        missing = 0.0
        if isinstance(fault.value, float) and isinstance(fault.limit, float):
            missing = abs(fault.limit - fault.value)
        # What collides does not say by how much.
        missing = missing + 0.001 if missing else 0.01
        setattr(extra, what, getattr(extra, what) + missing)
    return True


def _limits(
    cavity: Cavity, wanted: Wanted, largest: Answer | None, smallest: Answer | None
) -> Iterator[Limit]:
    """What would let more litres in, were it not there; the cavity itself when nothing would."""
    limits = []
    have = 0.0 if largest is None else largest.net_volume
    if smallest is not None and smallest.net_volume > wanted.net_volume:
        yield Limit(what="parts", volume=smallest.net_volume)
        return
    # Smaller and larger boxes go, or larger ones alone were found: nothing that is known binds.
    if smallest is not None or have >= wanted.net_volume:
        return

    def lifted(what: str, without: Cavity, less: Wanted) -> None:
        other = _Search(without, less).best("largest", more_than=have * 1.005)
        if other is not None and other.net_volume > have * 1.005:
            fault = _fault(other, wanted) if what in PARTS else None
            limits.append(Limit(what=what, volume=other.net_volume, finding=fault))

    if cavity.opening is not None:
        lifted("opening", replace(cavity, opening=None), wanted)
    if cavity.gap:
        lifted("gap", replace(cavity, gap=0.0), wanted)
    for obstacle in cavity.obstacles:
        others = tuple(o for o in cavity.obstacles if o is not obstacle)
        lifted(obstacle.name, replace(cavity, obstacles=others), wanted)
    if wanted.load.driver is not None:
        lifted("driver", cavity, replace(wanted, load=replace(wanted.load, driver=None)))
    if wanted.load.tubes:
        bare = replace(wanted.load, port=None, second=None)
        lifted("port", cavity, replace(wanted, load=bare))
    limits.sort(key=lambda limit: -(limit.volume or 0.0))
    enough = [limit for limit in limits if limit.volume and limit.volume >= wanted.net_volume]
    if not enough:
        yield Limit(what="cavity", volume=None)
    yield from limits


def _fault(other: Answer, wanted: Wanted) -> Finding | None:
    """What is short, in millimetres, when everything is put into the box that went without."""
    try:
        contents = wanted.load.arrange(replace(other.carcass, contents=()), other.face)
        full = replace(other.carcass, contents=contents)
    except CarcassError:
        return None
    findings = check_contents(full, wanted.clearances)
    return next((f for f in findings if f.severity != "note"), None)
