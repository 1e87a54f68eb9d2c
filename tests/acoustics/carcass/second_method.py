"""The same boxes built another way: solids by trimesh, sections by cutting strips with shapely."""

import math

import numpy as np
import trimesh
from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.panel import Panel

FAR = 10.0


def solid_of(panel: Panel) -> trimesh.Trimesh:
    """A watertight mesh of a panel from its corners in the box, faces by ear cutting."""
    outside, inside = panel.corners()
    flat = Polygon(panel.outside)
    triangles = ears(list(flat.exterior.coords)[:-1])
    n = len(outside)
    faces = [*triangles, *[(c + n, b + n, a + n) for a, b, c in triangles]]
    for i in range(n):
        j = (i + 1) % n
        faces += [(i, i + n, j), (j, i + n, j + n)]
    mesh = trimesh.Trimesh(vertices=np.vstack((outside, inside)), faces=faces, process=False)
    assert mesh.is_watertight
    return mesh


def ears(points: list[tuple[float, float]]) -> list[tuple[int, int, int]]:
    """Triangulate a simple counter-clockwise polygon by cutting ears."""
    left = list(range(len(points)))
    triangles = []
    while len(left) > 3:
        for k, b in enumerate(left):
            a, c = left[k - 1], left[(k + 1) % len(left)]
            (ax, ay), (bx, by), (cx, cy) = points[a], points[b], points[c]
            if (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) <= 0:
                continue
            ear = Polygon([points[a], points[b], points[c]])
            if any(ear.covers(_spot(points[i])) for i in left if i not in (a, b, c)):
                continue
            triangles.append((a, b, c))
            left.pop(k)
            break
        else:
            raise AssertionError("no ear left")
    return [*triangles, tuple(left)]


def _spot(point: tuple[float, float]):
    from shapely.geometry import Point

    return Point(point)


def strip(points: list[tuple[float, float]], edge: int, depth: float) -> Polygon:
    """Everything within a depth of an edge's endless line, on the inner side."""
    a, b = np.asarray(points[edge]), np.asarray(points[(edge + 1) % len(points)])
    along = (b - a) / math.dist(a, b)
    line = LineString([a - FAR * along, b + FAR * along])
    return line.buffer(depth, single_sided=True, cap_style="flat")


def convex_inside(points: list[tuple[float, float]], depths: list[float]) -> Polygon:
    """The inside of a convex box: the outline less a strip along every edge."""
    inside = Polygon(points)
    for edge, depth in enumerate(depths):
        inside = inside.difference(strip(points, edge, depth))
    return inside
