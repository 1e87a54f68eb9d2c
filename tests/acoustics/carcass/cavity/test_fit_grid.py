"""Boxes found for a cavity against the best of a plain grid of boxes, cut with shapely."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening
from acoustics.carcass.cavity.fit import Wanted, fit
from acoustics.carcass.cavity.fit_build import Stock
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.errors import CarcassError, ProfileError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from tests.acoustics.carcass.cavity.test_fit import driver, tube, wanted, wedge_cavity


def grid_cases() -> list[tuple[Cavity, Wanted]]:
    """Twelve invented cavities with one driver in front, of which two are too small."""
    return [
        (wedge_cavity(), wanted(30)),
        (wedge_cavity(opening=Opening(width=0.5, height=0.33)), wanted(32)),
        (wedge_cavity(opening=Opening(width=0.42, height=0.3)), wanted(60)),
        (wedge_cavity(width=0.5), wanted(90)),
        (
            wedge_cavity(
                profile=Profile(
                    points=((0, 0), (0.45, 0), (0.45, 0.15), (0.7, 0.15), (0.7, 0.45), (0, 0.45))
                )
            ),
            wanted(60),
        ),
        (
            wedge_cavity(
                profile=Profile(points=((0, 0), (0.4, 0), (0.6, 0.2), (0.55, 0.5), (0, 0.5)))
            ),
            wanted(55),
        ),
        (wedge_cavity(), wanted(50, load=Load(driver=driver(), port=tube(0.18)))),
        (
            wedge_cavity(
                obstacles=(
                    Obstacle(
                        name="arch",
                        points=((0.3, 0), (0.6, 0), (0.6, 0.2), (0.3, 0.2)),
                        start=0.0,
                        end=0.25,
                    ),
                )
            ),
            wanted(45),
        ),
        (wedge_cavity(gap=0.0), wanted(20, load=Load(driver=driver(0.7)))),
        (
            wedge_cavity(profile=Profile(points=((0, 0), (0.75, 0.05), (0.6, 0.42), (0.0, 0.38)))),
            wanted(40, stock=Stock(thickness=0.015, layers=2)),
        ),
        # Shallow, so that a port from the side meets the driver's back unless the box is wider.
        (
            wedge_cavity(profile=Profile(points=((0, 0), (0.26, 0), (0.26, 0.4), (0, 0.4)))),
            wanted(30, load=Load(driver=driver(), port=tube(0.18), port_face="right")),
        ),
        # Deep and narrow: there the tube passes behind the driver, and no width is added.
        (
            wedge_cavity(
                profile=Profile(points=((0, 0), (0.7, 0), (0.7, 0.4), (0, 0.4))), width=0.46
            ),
            wanted(45, load=Load(driver=driver(), port=tube(0.18), port_face="right")),
        ),
    ]


def every_box(cavity: Cavity, wish: Wanted, steps: int = 13):
    """Boxes on a plain grid of windows: whole rectangles, and the outline cut by the window."""
    t, layers = wish.stock.thickness, wish.stock.layers
    taken = wish.load.driver.volume_behind(t * layers)
    if wish.load.port:
        taken += wish.load.port.volume_behind(t * layers)
    for room in cavity.rooms():
        x0, y0, x1, y1 = room.region.bounds
        xs, ys = np.linspace(x0, x1, steps), np.linspace(y0, y1, steps)
        for a, b in itertools.combinations(xs, 2):
            for c, d in itertools.combinations(ys, 2):
                window = box(a, c, b, d)
                cut = room.region & window
                if not isinstance(cut, Polygon) or cut.is_empty or cut.area < 0.02:
                    continue
                air = cut.buffer(-t, join_style="mitre") & box(a + t * layers, c, b, d)
                if not isinstance(air, Polygon) or air.area < 0.01:
                    continue
                yield room, cut, air.area, taken


@pytest.mark.second_method
@pytest.mark.parametrize(
    "case",
    [*range(0, 12, 3), *(pytest.param(n, marks=pytest.mark.long) for n in range(12) if n % 3)],
)
def test_near_the_best_of_an_exhaustive_grid(case):
    """Within 2 % of the best box on a grid, in depth, wood and, where none fits, in litres."""
    cavity, wish = grid_cases()[case]
    found = fit(cavity, wish)
    t = wish.stock.thickness
    candidates = []
    for room, cut, air, taken in every_box(cavity, wish):
        x0, y0, x1, y1 = cut.bounds
        width = (wish.net_volume + taken) / air + 2 * t
        widest = room.width
        if cavity.opening:
            small, large = sorted((cavity.opening.width, cavity.opening.height))
            lo, hi = sorted((x1 - x0, y1 - y0))
            if not (lo <= small and hi <= large):
                widest = min(widest, large if lo <= small else small if lo <= large else 0.0)
        candidates.append((cut, air, taken, width, widest))
    if found.answers:
        able = [c for c in candidates if c[3] <= c[4]]
        depth = min(a.size[0] for a in found.answers)
        wood = min(a.wood for a in found.answers)
        best_depth = first_good(
            sorted(able, key=lambda c: c[0].bounds[2] - c[0].bounds[0]), wish, found, depth
        )
        if best_depth is not None:
            bounds = best_depth.profile.polygon.bounds
            assert depth <= (bounds[2] - bounds[0]) * 1.02
        by_wood = sorted(able, key=lambda c: c[0].area * c[3] - c[1] * (c[3] - 2 * t))
        best_wood = first_good(by_wood, wish, found, wood)
        assert best_wood is not None
        assert wood <= (best_wood.outer_volume - best_wood.net_volume - able[0][2]) * 1.02
    else:
        by_litres = sorted(candidates, key=lambda c: -(c[1] * (c[4] - 2 * t) - c[2]))
        largest = first_good([(*c[:3], c[4], c[4]) for c in by_litres], wish, found, 0.0)
        assert largest is not None
        assert found.largest.net_volume >= largest.net_volume * 0.98


def first_good(candidates, wish: Wanted, found, ours: float) -> Carcass | None:
    """The first box of a sorted list that has no finding but notes."""
    for cut, _, _, width, _ in candidates[:400]:
        try:
            profile = Profile(
                points=tuple(cut.simplify(1e-6).normalize().reverse().exterior.coords)[:-1]
            )
        except ProfileError:
            continue
        front = max(
            range(len(profile)), key=lambda e: -profile.normal(e)[0] * profile.length(e) ** 0.25
        )
        name = profile.names[front]
        layers = (Layer(face=name, thickness=wish.stock.thickness),) * (wish.stock.layers - 1)
        try:
            bare = Carcass(
                profile=profile, width=width, thickness=wish.stock.thickness, layers=layers
            )
            full = replace(bare, contents=wish.load.arrange(bare, name))
        except CarcassError:
            continue
        if all(f.severity == "note" for f in check_contents(full, wish.clearances)):
            return full
    return None
