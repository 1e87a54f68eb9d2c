"""Every upright window on an outline at once: the area it cuts out, without cutting anything.

The area of the part of a polygon that lies left of x and below y is, by Green's theorem,
F(x, y) = ∮ min(X, x) · [Y ≤ y] dY. The area within a window is then F at its four corners, so
tens of thousands of windows cost four look-ups each.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

Array = NDArray[np.float64]


def edges_of(shape: BaseGeometry) -> Array:
    """Return the edges of a polygon or of several, holes run the other way.

    Args:
        shape: the polygon or polygons, coordinates in [m].

    Returns: rows (x, y, x of the end, y of the end) [m]

    Source: definition.
    """
    rows = []
    for piece in getattr(shape, "geoms", [shape]):
        if not isinstance(piece, Polygon) or piece.is_empty:
            continue
        for ring, ccw in ((piece.exterior, True), *((hole, False) for hole in piece.interiors)):
            points = np.asarray(ring.coords)
            points = points if ring.is_ccw == ccw else points[::-1]
            rows.append(np.hstack((points[:-1], points[1:])))
    return np.vstack(rows) if rows else np.zeros((0, 4))


def area_below(edges: Array, x: Array, y: Array) -> Array:
    """Return the area left of each x and below each y.

    F(x, y) = Σ over edges ∫ min(X, x) · [Y ≤ y] dY.

    Args:
        edges: rows of `edges_of` [m].
        x: places across [m].
        y: heights [m].

    Returns: one row per x, one column per y [m²]

    Source: G. Green, An Essay on the Application of Mathematical Analysis (1828), from memory.
    """
    # Every edge run towards greater x; one that was turned round counts against.
    turned = edges[:, 0] > edges[:, 2]
    x0, y0, x1, y1 = np.where(turned[:, None], edges[:, [2, 3, 0, 1]], edges).T[
        :, :, None
    ]  # edges × 1
    dx, dy = x1 - x0, y1 - y0
    with np.errstate(divide="ignore", invalid="ignore"):
        height = np.clip(np.where(dy == 0, 0.0, (y - y0) / dy), 0.0, 1.0)  # edges × y
        cross = np.clip(np.where(dx == 0, x0 <= x, (x - x0) / dx), 0.0, 1.0)  # edges × x
    weight = np.where(turned, -1.0, 1.0) * np.abs(dy[:, 0])
    # ∫ of min(X, x) over the first part of an edge, up to s, is x·s + m·(x0 − x + dx·m/2) with
    # m = min(s, cross). A rising edge counts up to where it meets y, a falling one from there on.
    lean, beyond = dx / 2, x0 - x
    m = np.minimum(height[:, None, :], cross[:, :, None])
    bent = (m * (beyond[:, :, None] + lean[:, :, None] * m)).reshape(len(edges), -1)
    first = (weight @ bent).reshape(len(x), len(y)) + x[:, None] * (weight @ height)
    whole = x + cross * (beyond + lean * cross)
    below: Array = first - (np.where(dy[:, 0] < 0, weight, 0.0) @ whole)[:, None]
    return below


def area_within(edges: Array, x: tuple[Array, Array], y: tuple[Array, Array]) -> Array:
    """Return the area within every window of a grid.

    Args:
        edges: rows of `edges_of` [m].
        x: left sides and right sides [m].
        y: lower sides and upper sides [m].

    Returns: axes left, right, low, high; without meaning where a window is inside out [m²]

    Source: definition.
    """
    (left, right), (low, high) = x, y
    across = np.concatenate((left, right))
    upward = np.concatenate((low, high))
    below = area_below(edges, across, upward)
    n, m = len(left), len(low)
    strip = below[:, m:][:, None, :] - below[:, :m][:, :, None]  # x × low × high
    window: Array = strip[n:][None, :, :, :] - strip[:n][:, None, :, :]
    return window


def right_end(edges: Array, y: Array) -> Array:
    """Return the greatest x of an outline at each height, −inf beside it.

    Args:
        edges: rows of `edges_of` [m].
        y: heights [m].

    Returns: one x per height [m]

    Source: definition.
    """
    x0, y0, x1, y1 = (column[:, None] for column in edges.T)
    with np.errstate(divide="ignore", invalid="ignore"):
        s = np.where(y1 == y0, np.nan, (y - y0) / (y1 - y0))
    meets = (s >= 0) & (s <= 1)
    x = np.where(meets, x0 + np.where(meets, s, 0.0) * (x1 - x0), -np.inf)
    far: Array = x.max(axis=0, initial=-np.inf)
    return far


def ends_at(edges: Array, x: Array) -> tuple[Array, Array]:
    """Return the least and the greatest y of an outline at each x.

    Args:
        edges: rows of `edges_of` [m].
        x: places [m].

    Returns: least y, +inf beside the outline, and greatest y, −inf beside it [m]

    Source: definition.
    """
    swapped = edges[:, [1, 0, 3, 2]]
    mirrored = swapped * np.array([-1.0, 1.0, -1.0, 1.0])
    return -right_end(mirrored, x), right_end(swapped, x)
