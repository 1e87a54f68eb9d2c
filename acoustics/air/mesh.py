"""Triangles for the profile of a box: few where the air is calm, many near inner corners."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely

from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Floats

Ints = npt.NDArray[np.int64]
Profile = Sequence[tuple[float, float]]

# Pressure behaves like r^(2/3) at a right-angled inner corner; the mesh follows it inwards.
GRADING = 0.5  # longest edge over the distance from the nearest inner corner
FINEST = 1.0 / 32.0  # smallest edge over the ordinary one
FEW = 8  # inner corners that are followed so far; more of them share what time there is
MILDEST = np.pi / 12.0  # an inner corner that turns less is smooth enough for the ordinary mesh


def clean_profile(profile: Profile) -> Floats:
    """Corners of a profile anticlockwise, without a repeated first point or needless points.

    Args:
        profile: corners (x, y) in order, either way round [m]

    Returns: array of corners, shape (n, 2) [m]

    Raises:
        OutOfRangeError: fewer than three corners, lines that cross, no area, or not numbers.

    Source: definition.
    """
    if len(profile) < 3:
        raise OutOfRangeError(Name.CORNERS, len(profile), COUNT, at_least=3)
    corners = np.asarray(profile, dtype=np.float64)
    if corners.ndim != 2 or corners.shape[1] != 2 or not np.isfinite(corners).all():
        raise OutOfRangeError(Name.PROFILE, len(profile), COUNT, to_be="number-pairs")
    polygon = shapely.Polygon(corners)
    if not polygon.is_valid or polygon.area <= 1e-9 * float(np.ptp(corners, axis=0).max()) ** 2:
        raise OutOfRangeError(Name.PROFILE, polygon.area, "m²", to_be="simple-outline")
    ring = np.asarray(shapely.normalize(polygon.simplify(0.0)).exterior.coords)[:-1]
    x, y = ring.T
    twice = float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))
    anticlockwise: Floats = ring if twice > 0.0 else ring[::-1].copy()
    return anticlockwise


def triangulate(corners: Floats, edge: float) -> tuple[Floats, Ints]:
    """Conforming triangles of a simple polygon, no edge longer than wanted.

    A constrained Delaunay triangulation is refined by halving longest edges, which never makes
    an angle smaller than half of the smallest angle of the start (Rosenberg & Stenger).

    Args:
        corners: corners anticlockwise, from clean_profile [m]
        edge: longest edge allowed away from inner corners [m]

    Returns: points, shape (n, 2) [m], and triangles as point numbers, shape (m, 3) [-]

    Source: M. C. Rivara, "Algorithms for refining triangular grids", Int. J. Numer. Methods Eng.
        20 (1984) 745; I. G. Rosenberg & F. Stenger, SIAM J. Numer. Anal. 12 (1975) 442.
    """
    points, triangles = corners, _delaunay(corners)
    inner = corners[_is_inner_corner(corners)]
    while True:
        ends, of_triangle = _edges(triangles)
        lengths = np.hypot(*(points[ends[:, 0]] - points[ends[:, 1]]).T)
        longest = np.argmax(lengths[of_triangle], axis=1)
        rows = np.arange(len(triangles))
        longest_edge = of_triangle[rows, longest]
        too_long = lengths[longest_edge] > _allowed(points[triangles], inner, edge)
        if not too_long.any():
            return points, triangles
        split = np.zeros(len(ends), dtype=bool)
        split[longest_edge[too_long]] = True
        while True:  # a triangle with any split edge must split its longest edge as well
            follow = split[of_triangle].any(axis=1) & ~split[longest_edge]
            if not follow.any():
                break
            split[longest_edge[follow]] = True
        midpoint = np.full(len(ends), -1)
        midpoint[split] = len(points) + np.arange(np.count_nonzero(split))
        points = np.vstack([points, points[ends[split]].mean(axis=1)])
        triangles = _halve(triangles, midpoint[of_triangle], longest)


def _is_inner_corner(corners: Floats) -> npt.NDArray[np.bool_]:
    """Corners of more than 180° inside, where the pressure gradient is unbounded."""
    before = corners - np.roll(corners, 1, axis=0)
    after = np.roll(corners, -1, axis=0) - corners
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turn = np.arctan2(cross, (before * after).sum(axis=1))
    sharp: npt.NDArray[np.bool_] = turn < -MILDEST
    return sharp


def _delaunay(corners: Floats) -> Ints:
    """Constrained Delaunay triangles of the corners, as corner numbers, anticlockwise."""
    number = {(x, y): i for i, (x, y) in enumerate(corners.tolist())}
    parts = shapely.constrained_delaunay_triangles(shapely.Polygon(corners)).geoms
    triangles = np.array([[number[xy] for xy in part.exterior.coords[:3]] for part in parts])
    a, b, c = (corners[triangles[:, i]] for i in range(3))
    turn = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    triangles[turn < 0.0] = triangles[turn < 0.0][:, ::-1]
    kept: Ints = triangles[np.abs(turn) > 0.0].astype(np.int64)
    return kept


def _edges(triangles: Ints) -> tuple[Ints, Ints]:
    """Each edge once, and for each triangle the numbers of its edges 01, 12 and 20."""
    pairs = np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    key = pairs[:, 0] * (triangles.max() + 1) + pairs[:, 1]
    _, first, inverse = np.unique(key, return_index=True, return_inverse=True)
    ends: Ints = pairs[first]
    return ends, inverse.reshape(-1, 3)


def _allowed(vertices: Floats, inner: Floats, edge: float) -> Floats:
    """Longest edge allowed in each triangle, shrinking towards inner corners."""
    if len(inner) == 0:
        return np.full(len(vertices), edge)
    gaps = vertices.mean(axis=1)[:, None, :] - inner[None, :, :]
    distance = np.hypot(gaps[..., 0], gaps[..., 1]).min(axis=1)
    finest = min(FINEST * max(len(inner) / FEW, 1.0) ** 2, 1.0)
    allowed: Floats = np.clip(GRADING * distance, edge * finest, edge)
    return allowed


def _halve(triangles: Ints, midpoints: Ints, longest: Ints) -> Ints:
    """Split triangles at the midpoints of their edges (-1: edge stays), longest edge first."""
    rows = np.arange(len(triangles))[:, None]
    turn = (np.arange(3) + longest[:, None]) % 3  # turned so that edge 01 is the longest
    v0, v1, v2 = triangles[rows, turn].T
    m, p, q = midpoints[rows, turn].T
    whole = m < 0
    plain_right, split_right = ~whole & (p < 0), ~whole & (p >= 0)
    plain_left, split_left = ~whole & (q < 0), ~whole & (q >= 0)
    pieces = [
        (whole, (v0, v1, v2)),
        (plain_left, (v0, m, v2)),
        (split_left, (v0, m, q)),
        (split_left, (q, m, v2)),
        (plain_right, (m, v1, v2)),
        (split_right, (m, v1, p)),
        (split_right, (m, p, v2)),
    ]
    return np.vstack([np.column_stack([v[mask] for v in tri]) for mask, tri in pieces])
