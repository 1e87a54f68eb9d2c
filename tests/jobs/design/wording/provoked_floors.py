"""One way to bring about each refusal of rings, floors, hatches and measured edges."""

from __future__ import annotations

from collections.abc import Callable

from acoustics.carcass.panels.floor import Floor, Hatch, hole_in_lid, support_height
from acoustics.carcass.panels.kerf_bend import KerfBend
from acoustics.carcass.panels.trim import AdaptorRing as Ring
from acoustics.carcass.shape.edges import Corner, edged, inset
from acoustics.carcass.shape.edges import measured as measured_edges
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.sheets.roll import Cut, lay_on_roll
from jobs.design.wood.bends import bent_of
from jobs.models import TrimPanel


def ring(**changes) -> Ring:
    """An invented ring."""
    sizes = {"outer_diameter": 0.2, "inner_diameter": 0.15, "bolt_circle_diameter": 0.18}
    rest = {"layers": (0.018,), "screws": 4, "screw_diameter": 0.004}
    return Ring(**{**sizes, **rest, **changes})


def plate(first, second) -> list[Corner]:
    """An invented plate of 0.8 by 0.5 m, with what is said of its first two corners."""
    places = ((0.0, 0.0), (0.8, 0.0), (0.8, 0.5), (0.0, 0.5))
    more = zip(places, (first, second, {}, {}), strict=True)
    return [Corner(at=at, **rest) for at, rest in more]


def lid(**changes) -> Hatch:
    """An invented hatch under carpet of 4 mm."""
    sizes = {"middle": (0.5, 0.3), "width": 0.3, "height": 0.24}
    return Hatch(**{**sizes, "gap": 0.0015, "finish": 0.004, "ledge": 0.028, **changes})


def bent_beyond() -> object:
    """A quarter turn that begins too far to the right of an invented panel."""
    typed = {"bend_radius": 0.15, "bend_angle": 1.57, "bend_skin": 0.003, "bend_blade": 0.0032}
    return bent_of(TrimPanel(bend_at=0.1, **typed), 0.018, 0.2, 0.0)


def bend(**changes) -> KerfBend:
    """An invented bend of a board of 18 mm."""
    sizes = {"thickness": 0.018, "skin": 0.003, "blade": 0.0032, "radius": 0.15, "angle": 1.57}
    return KerfBend(**{**sizes, **changes})


FLOORS: dict[str, tuple[Callable[[], object], str]] = {
    "ring": (lambda: ring(bolt_circle_diameter=0.25), "250 mm"),
    "two screws": (lambda: ring(screws=2), "1 layers with 2 screws"),
    "rounded arc": (
        lambda: edged(plate({"bow": 0.02}, {"radius": 0.02})),
        "corner 2 cannot be rounded beside a curved edge",
    ),
    "rounded away": (lambda: edged(plate({"radius": 0.9}, {})), "500 mm is the most"),
    "off the batten": (
        lambda: edged(plate({"stations": ((0.9, 0.01),)}, {})),
        "900 mm along the batten of corner 1 lies off it; it is 800 mm long",
    ),
    "twice at a batten": (
        lambda: edged(plate({"stations": ((0.4, 0.01), (0.4, 0.02))}, {})),
        "two stations of the batten of corner 1",
    ),
    "batten of nothing": (
        lambda: measured_edges(plate({}, {}), [(5, 0.1, 0.01)]),
        "after corner 5, and the outline has 4",
    ),
    "gap of all": (lambda: inset(edged(plate({}, {})), 0.3), "300 mm off every edge leaves"),
    "lid of nothing": (lambda: lid(height=0.018), "take 19 mm of a hatch of"),
    "lid without ledge": (lambda: lid(ledge=0.009), "make it 19.5 mm"),
    "hatch of ledges": (lambda: lid(ledge=0.12), "closes the hatch"),
    "finger hole": (lambda: hole_in_lid(lid(), diameter=0.2), "it must be 8 mm to"),
    "floor on nothing": (
        lambda: Floor(outline=rectangle(0, 0, 1, 1), openings=(), supports=()),
        "needs something to stand on",
    ),
    "floor below itself": (
        lambda: support_height(level=0.02, thickness=0.018, finish=0.004),
        "take 22 mm, and its top is to lie 20 mm high",
    ),
    "skin of a board": (lambda: bend(skin=0.018), "18 mm are to be left under the kerfs"),
    "bend of itself": (lambda: bend(radius=0.018), "leaves no room inside for a board"),
    "more than a turn": (lambda: bend(angle=7.0), "bends by 0° to 360°"),
    "kerfs of a saw blade": (lambda: bend(blade=1e-5, radius=4.0), "kerfs, more than are"),
    "kerfs in each other": (lambda: bend(radius=0.019), "and are 3.2 mm wide"),
    "bend beyond its panel": (bent_beyond, "the flat panel is 200 mm wide"),
    "roll too narrow": (
        lambda: lay_on_roll([Cut(name="board", across=0.8, along=1, turns=False)], width=0.7),
        "800 mm wide and the roll 700 mm",
    ),
}
