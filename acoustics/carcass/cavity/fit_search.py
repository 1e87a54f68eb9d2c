"""The search behind `fit`: every window on every base shape at once, then finer round the best."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from acoustics.carcass.cavity.cavity import Opening
from acoustics.carcass.cavity.fit_bases import (
    COARSE,
    FAR,
    LEAST_INSIDE,
    OUTLINE,
    RECTANGLE,
    Base,
    Task,
)
from acoustics.carcass.cavity.windows import Array, area_within, ends_at, right_end

# Rounds of halving after the first grid: a metre to 2 mm.
ROUNDS = 6
AROUND = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
Window = tuple[float, float, float, float]  # left, right, low, high


@dataclass(kw_only=True)
class Extra:
    """What closer looks asked for beyond the quick conditions.

    Attributes:
        behind: behind the driver [m].
        face: beside a hole in its face [m].
        port: before the mouth of a port [m].
        width: in the least width [m].
        cap: off the greatest width [m].
        looks: how many looks there were [-].
    """

    behind: float = 0.0
    face: float = 0.0
    port: float = 0.0
    width: float = 0.0
    cap: float = 0.0
    looks: int = 0


@dataclass(frozen=True, kw_only=True, eq=False)
class Measured:
    """Windows of a grid, measured; every array has the axes left, right, low, high.

    Attributes:
        ok: whether parts and opening allow the window, at some width [-].
        least: net volume at the least width [m³].
        most: net volume at the greatest width [m³].
        narrow: the least width [m].
        cap: the greatest width [m].
        depth: extent from front to rear of the car [m].
        wood: volume of the panels at the width that gives the litres wanted [m³].
        width: that width [m].
    """

    ok: NDArray[np.bool_]
    least: Array
    most: Array
    narrow: Array
    cap: Array
    depth: Array
    wood: Array
    width: Array


Grid = tuple[Array, Array, Array, Array]


def measure(base: Base, grid: Grid, task: Task, extra: Extra) -> Measured:
    """Measure every window of a grid.

    Args:
        base: the shape that is cut.
        grid: left, right, lower and upper sides to combine [m].
        task: what is wanted.
        extra: what closer looks asked for.

    Returns: the windows, measured

    Source: definition.
    """
    left, right, low, high = grid
    t, keep = task.thickness, task.clearances
    front = t if task.on_side else task.baffle
    da = right[None, :] - left[:, None]
    db = high[None, :] - low[:, None]
    if base.kind == RECTANGLE:
        outer = np.multiply.outer(da, db)
        air = np.multiply.outer(da - front - t, db - 2 * t)
        air[(da <= front + t)[:, :, None, None] | (db <= 2 * t)] = 0.0
    else:
        outer = area_within(base.outer_edges, (left, right), (low, high))
        air = area_within(base.inner_edges, (left + front, right - t), (low + t, high - t))
    air = np.maximum(air, 1e-9)
    ok = (da >= front + t + LEAST_INSIDE)[:, :, None, None] & (db >= 2 * t + LEAST_INSIDE)
    if base.kind != OUTLINE:  # an outline lies in its room wherever it is cut
        ok = ok & (area_within(base.room_edges, (left, right), (low, high)) >= outer - 1e-12)
    least_width: Array | float = task.load.least_width(t, keep) + extra.width
    if task.on_side:
        ok, least_width = _in_cheek(task, extra, ok, da, db)
    else:
        ok = ok & _before(base, grid, task, extra)
        least_width = least_width + _past_drivers(da, task)[:, :, None, None]
    a, b = da[:, :, None, None], db[None, None]
    depth, height = (b, a) if task.upward else (a, b)
    cap = np.minimum(base.room.width, _through(task.opening, depth, height)) - extra.cap
    width = (task.volume + task.taken) / air + task.walls
    ok = ok & (cap >= least_width)
    return Measured(
        ok=ok,
        least=air * (least_width - task.walls) - task.taken,
        most=air * (cap - task.walls) - task.taken,
        narrow=np.broadcast_to(least_width, ok.shape),
        cap=np.broadcast_to(cap, ok.shape),
        depth=np.broadcast_to(depth, ok.shape),
        wood=outer * width - air * (width - task.walls),
        width=width,
    )


def _through(opening: Opening | None, depth: Array, height: Array) -> Array:
    """The greatest width that goes through the opening, −inf when none does."""
    if opening is None:
        return np.full(np.broadcast_shapes(depth.shape, height.shape), np.inf)
    small, large = sorted((opening.width, opening.height))
    less, more = np.minimum(depth, height), np.maximum(depth, height)
    flat = np.where(less <= small, large, np.where(less <= large, small, -np.inf))
    return np.where((less <= small) & (more <= large), np.inf, flat)


def _past_drivers(da: Array, task: Task) -> Array:
    """How much wider a box must be whose ports come in from the side before its drivers' backs."""
    load, keep = task.load, task.clearances
    driver, wider = load.driver, np.zeros_like(da)
    sideways = [port for port, face, _ in load.tubes if face is not None]
    if driver is None:
        return wider
    for port in sideways:
        behind = da / 2 - max(port.outer_half) >= driver.mounting_depth + keep.apart
        beside = port.length + driver.cutout_diameter / 2 + keep.apart
        more = max(2 * load.drivers * beside - load.least_width(task.thickness, keep), 0.0)
        wider = np.maximum(wider, np.where(behind, 0.0, more))
    return wider


def _in_cheek(
    task: Task, extra: Extra, ok: NDArray[np.bool_], da: Array, db: Array
) -> tuple[NDArray[np.bool_], float]:
    """A driver in a cheek: its hole within the outline, its depth across the width."""
    driver, keep, t = task.load.driver, task.clearances, task.thickness
    least_width = 2 * t + LEAST_INSIDE + extra.width
    if driver is not None:
        room = driver.cutout_diameter + 2 * (t + keep.cutout_to_edge) + extra.face
        ok = ok & (da >= room)[:, :, None, None] & (db >= room)
        least_width = driver.mounting_depth + keep.behind + t + extra.behind + extra.width
    if task.load.row_of_ports:  # in a row with the driver, along the cheek
        ok = ok & (da >= task.load.least_width(t, keep) + extra.width)[:, :, None, None]
    for port, _, _ in task.load.tubes:
        beyond = port.length + keep.port_mouths * port.mouth + t + extra.port
        least_width = max(least_width, beyond)
    return ok, least_width


def _before(base: Base, grid: Grid, task: Task, extra: Extra) -> NDArray[np.bool_]:
    """A driver and ports in the wall at the left of the window: clear face, room behind."""
    left, right, low, high = grid
    t, keep, load = task.thickness, task.clearances, task.load
    bottom, top = ends_at(base.outer_edges, left)
    foot, head = ends_at(base.inner_edges, left + task.baffle)
    # Axes left × low × high; the driver sits in the middle of its face.
    lower = np.maximum(bottom[:, None], low)[:, :, None]
    upper = np.minimum(top[:, None], high)[:, None, :]
    middle = (lower + upper) / 2
    clear_low = np.maximum(foot[:, None], low + t)[:, :, None]
    clear_high = np.minimum(head[:, None], high - t)[:, None, :]
    beside = np.minimum(clear_high - middle, middle - clear_low)
    ok = np.ones(middle.shape, dtype=bool)
    wants = []
    if load.driver is not None:
        hole = load.driver.cutout_diameter / 2 + keep.cutout_to_edge
        ok &= beside >= hole + extra.face
        ok &= upper - lower >= load.driver.flange_diameter
        depth = load.driver.mounting_depth + keep.behind + extra.behind
        wants.append((load.driver.motor_diameter / 2, depth))
    for port in (port for port, face, _ in load.tubes if face is None):
        half = port.outer_half[1]
        ok &= beside >= half
        length = port.length + keep.port_mouths * port.mouth + extra.port
        wants.append((half, length))
    fits = np.broadcast_to(ok[:, None], (len(left), len(right), *ok.shape[1:])).copy()
    for half, depth in wants:
        heights = np.clip(middle[..., None], -FAR, FAR) + half * np.array([-1.0, 0.0, 1.0])
        reach = right_end(base.inner_edges, heights.ravel()).reshape(heights.shape).min(axis=-1)
        fits &= (reach - left[:, None, None] >= depth)[:, None]
        fits &= (right - t - left[:, None] >= depth)[:, :, None, None]
    return fits


def keys(grid: Grid, measured: Measured, task: Task, aim: str) -> Array:
    """Return what is to be made small, infinite where a window will not do.

    Args:
        grid: the grid of the windows [m].
        measured: windows, measured.
        task: what is wanted.
        aim: largest, smallest, shallowest, least-wood or least-space.

    Returns: one key per window, in the unit of the aim [m or m³]

    Source: definition.
    """
    if aim == "largest":
        return np.where(measured.ok, -measured.most, np.inf)
    if aim == "smallest":
        return np.where(measured.ok, measured.least, np.inf)
    good = measured.ok & (measured.least <= task.volume) & (task.volume <= measured.most)
    # A little of the wood decides between equals.
    if aim == "shallowest":
        key = measured.depth + 0.05 * measured.wood
    elif aim == "least-wood":
        key = measured.wood
    else:
        key = space_lost(grid, measured, task) + 0.02 * measured.wood
    return np.where(good, key, np.inf)


def space_lost(grid: Grid, measured: Measured, task: Task) -> Array:
    """Return the boot space that boxes of the litres wanted take, with all behind them.

    Args:
        grid: the grid of the windows [m].
        measured: windows, measured.
        task: what is wanted.

    Returns: one volume per window [m³]

    Source: definition.
    """
    left, _, low, high = grid
    far = np.array([FAR])
    area = area_within(task.whole_edges, (left, far), (low if task.upward else -far, high))
    space: Array = area * measured.width
    return space


def coarse(base: Base, task: Task, extra: Extra) -> tuple[Grid, Measured]:
    """Measure a base on its first grid.

    Args:
        base: the shape that is cut.
        task: what is wanted.
        extra: what closer looks asked for.

    Returns: the grid [m] and its windows, measured

    Source: definition.
    """
    a, b = base.places(task.opening)
    grid = (a, a, b, b)
    return grid, measure(base, grid, task, extra)


def finest(
    base: Base, task: Task, aim: str, extra: Extra, start: tuple[float, Window]
) -> tuple[float, Window]:
    """Search closer and closer round a window.

    Args:
        base: the shape that is cut.
        task: what is wanted.
        aim: what is to be made small.
        extra: what closer looks asked for.
        start: key and window to start from [m or m³, m].

    Returns: the best key and its window [m or m³, m]

    Source: definition (halving of steps).
    """
    key, window = start
    x0, y0, x1, y1 = base.outer.bounds
    steps = [(x1 - x0) / COARSE] * 2 + [(y1 - y0) / COARSE] * 2
    limits = ((x0, x1), (x0, x1), (y0, y1), (y0, y1))
    for _ in range(ROUNDS):
        grid = tuple(
            np.clip(place + step * AROUND, *limit)
            for place, step, limit in zip(window, steps, limits, strict=True)
        )
        finer = least(grid, measure(base, grid, task, extra), task, aim)
        if finer is not None and finer[0] < key:
            key, window = finer
        steps = [step / 2 for step in steps]
    return key, window


def width_of(base: Base, window: Window, task: Task, extra: Extra, aim: str) -> float:
    """Return the greatest or, for the smallest box, the least width of a window.

    Args:
        base: the shape that is cut.
        window: the window [m].
        task: what is wanted.
        extra: what closer looks asked for.
        aim: largest or smallest.

    Returns: width [m]

    Source: definition.
    """
    grid = tuple(np.array([s]) for s in window)
    measured = measure(base, grid, task, extra)  # type: ignore[arg-type]
    return float((measured.narrow if aim == "smallest" else measured.cap).flat[0])


def least(grid: Grid, measured: Measured, task: Task, aim: str) -> tuple[float, Window] | None:
    """Return the best window of a grid, or None when no window will do.

    Args:
        grid: the grid [m].
        measured: its windows, measured.
        task: what is wanted.
        aim: what is to be made small.

    Returns: key and window [m or m³, m]

    Source: definition.
    """
    key = keys(grid, measured, task, aim)
    at = np.unravel_index(int(np.argmin(key)), key.shape)
    if not np.isfinite(key[at]):
        return None
    left, right, low, high = (float(axis[i]) for axis, i in zip(grid, at, strict=True))
    return float(key[at]), (left, right, low, high)
