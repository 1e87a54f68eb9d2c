"""Boxes for a cavity: what was typed goes to `fit`, what it found becomes records worked out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from acoustics.carcass.cavity.cavity import Cavity
from acoustics.carcass.cavity.fit import Answer, Fit, Limit, Wanted, fit
from acoustics.carcass.cavity.fit_bases import OUTLINE, SLOPE
from acoustics.carcass.cavity.fit_build import Facing, Stock
from acoustics.carcass.cavity.fit_terms import Turned
from acoustics.carcass.room.arrange import RIGHT, Load
from acoustics.carcass.room.clearance import USUAL
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.taper import Taper
from acoustics.enclosure.port import End, RoundOpening, port_for_tuning
from acoustics.errors import AcousticsError
from jobs.design.box.box_in_car import cavity_of
from jobs.design.box.boxes import BoxResult, work_out_box
from jobs.design.box.channel_feed import NOTHING, Feed
from jobs.design.box.checks import SECTION
from jobs.design.box.enclosures import beside, flare
from jobs.design.carcass.contents import second_port_body
from jobs.design.carcass.contents import solid as driver_solid
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term, Word, adopt, reason
from jobs.models import Box, Driver
from jobs.models.box.box_kinds import kind_of

# What a picked answer writes into a box; its undo takes these back.
FIELDS = (
    "shape",
    "width",
    "height",
    "depth",
    "top_depth",
    "profile",
    "plan",
    "driver_face",
    "driver_u",
    "driver_v",
    "port_face",
    "port_u",
    "port_v",
    "second_port_face",
    "second_port_u",
    "second_port_v",
    "brace_count",
    "inner_braces",
    "thicknesses",
    "corner_joint",
    "driver",
    "driver_count",
    "kind",
    "wanted_volume",
    "wanted_tuning",
    "port_shape",
    "port_count",
    "port_diameter",
    "port_length",
    "port_bend",
    "material",
    "baffle_layers",
    "cavity_profile",
    "cavity_width",
    "cavity_gap",
    "cavity_obstacles",
    "opening_width",
    "opening_height",
)
STRAIGHT = 1e-6


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One box that goes in, as the record it would become, worked out."""

    answer: Answer
    box: Box
    result: BoxResult

    @property
    def key(self) -> str:
        """What the button that picks it sends: it names this box and no other."""
        return "-".join(f"{1e4 * size:.0f}" for size in (*self.answer.size, self.answer.z))

    @property
    def figures(self) -> Mapping[str, tuple[float, str]]:
        """Name of each figure, its value and the kind of quantity it is."""
        depth, height, width = self.answer.size
        return {
            "depth": (depth, "length"),
            "height": (height, "length"),
            "width": (width, "length"),
            "net": (self.answer.net_volume, "volume"),
            "wood": (self.answer.wood, "volume"),
            "space": (self.answer.space, "volume"),
        }

    @property
    def bevels(self) -> int:
        """How many edges are not cut square."""
        return self.answer.bevels

    @property
    def mass(self) -> float | None:
        """The mass, as far as known."""
        return next((figure.value for figure in self.result.figures if figure.name == "mass"), None)


@dataclass(frozen=True, kw_only=True)
class Fitting:
    """What goes into the cavity, or why nothing does."""

    candidates: Sequence[Candidate] = ()
    largest: Candidate | None = None
    smallest: Candidate | None = None
    limits: Sequence[tuple[Limit, Finding | None]] = ()
    # Where nothing fits: which way the driver would have to look, and the box that goes then.
    turned: Sequence[Turned] = ()
    refused: AcousticsError | None = None
    # The driver's screws have less wood than usual whatever box it sits in.
    thin_ring: bool = False

    @property
    def trouble(self) -> str:
        """Why it could not be looked for, in the reader's language."""
        return "" if self.refused is None else reason(self.refused)


def fit_boxes(typed: Box, facing: Facing, *, feed: Feed = NOTHING) -> Fitting:
    """Find boxes for the cavity, the driver and the litres of an unsaved record."""
    try:
        wanted, thin = _wanted(typed, facing)
        cavity = cavity_of(typed)
        if cavity is None:
            raise PlacementError(code="cavity-without-outline")
        fit = _fitted(cavity, wanted)
    except AcousticsError as error:
        return Fitting(refused=error)

    def candidate(answer: Answer | None) -> Candidate | None:
        if answer is None:
            return None
        box = _record(typed, answer, facing)
        return Candidate(answer=answer, box=box, result=work_out_box(box, feed))

    every = [candidate(answer) for answer in fit.answers]
    return Fitting(
        candidates=[shape for shape in every if shape is not None],
        largest=candidate(fit.largest),
        smallest=candidate(fit.smallest),
        limits=_limits(fit, typed),
        turned=fit.turned,
        thin_ring=thin,
    )


# Who picks an answer asks for the same boxes once more.
@lru_cache(maxsize=16)
def _fitted(cavity: Cavity, wanted: Wanted) -> Fit:
    return fit(cavity, wanted)


def _limits(fit: Fit, box: Box) -> list[tuple[Limit, Finding | None]]:
    names = {
        "driver": str(box.driver.part) if box.driver else Term(("driver",)),
        "port": Term(("port",)),
    }
    places: dict[str, Word] = dict(names)
    for kind, count in (("driver", box.driver_count), ("port", box.port_count)):
        places |= {f"{kind} {number + 1}": names[kind] for number in range(count)}
    places[f"port {box.port_count + 1}"] = Term(("second port",))
    pairs: list[tuple[Limit, Finding | None]] = []
    for limit in fit.limits:
        adopted = (
            adopt([limit.finding], section=SECTION, about=about(box), name="", places=places)
            if limit.finding
            else []
        )
        pairs.append((limit, adopted[0] if adopted else None))
    return pairs


def _wanted(box: Box, facing: Facing) -> tuple[Wanted, bool]:
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    solid = driver_solid(part, str(part)) if part else None
    if solid is None or box.material is None or box.wanted_volume is None:
        raise PlacementError(code="driver-outline-unknown")
    clearances, thin = USUAL, False
    ring = solid.wood_at_screws
    if ring is not None and 0.0 <= ring < USUAL.wood_at_screw:
        # No box mends that; the box's own page says so too.
        clearances, thin = replace(USUAL, wood_at_screw=ring), True
    load = Load(
        driver=solid,
        drivers=box.driver_count,
        port=_port(box),
        ports=box.port_count,
        port_face=RIGHT if box.port_face else None,
        second=second_port_body(box),
        second_face=_second_face(box) or None,
    )
    stock = Stock(
        thickness=box.material.thickness,
        layers=box.baffle_layers,
        density=box.material.density,
        grain="across" if box.material.grained else "none",
    )
    wanted = Wanted(
        net_volume=box.wanted_volume,
        stock=stock,
        load=load,
        facing=facing,
        clearances=clearances,
    )
    return wanted, thin


def _second_face(box: Box) -> str:
    """The side the unlike port comes in from, as the first does: none is the driver's face."""
    return RIGHT if box.second_port_face or box.port_face else ""


def _port(box: Box) -> PortBody | None:
    """The tube that tunes the litres wanted; it takes its own litres beside them."""
    if not kind_of(box).port:
        return None
    if box.port_diameter is None or box.wanted_tuning is None or box.wanted_volume is None:
        raise PlacementError(code="port-or-tuning-unknown")
    port = port_for_tuning(
        box.wanted_tuning,
        volume=box.wanted_volume,
        opening=RoundOpening(diameter=box.port_diameter),
        inner=End.FREE,
        count=box.port_count,
        flare=flare(box),
        beside=beside(box),
    )
    return PortBody.straight(
        "port", width=box.port_diameter, length=port.length, wall=box.port_wall
    )


def _record(typed: Box, answer: Answer, facing: Facing) -> Box:
    """Return the typed record with an answer's shape in it, unsaved."""
    values: dict[str, Any] = {
        field.attname: getattr(typed, field.attname) for field in typed._meta.concrete_fields
    }
    box = Box(**values)
    for name in ("job", "driver", "channel", "material", "radiator", *box.lists()):
        setattr(box, name, getattr(typed, name))
    for name, value in _shape(answer.carcass, answer.kind).items():
        setattr(box, name, value)
    box.driver_face = answer.face if facing == "side" or box.plan else ""
    box.driver_u = box.driver_v = box.port_u = box.port_v = None
    box.port_length, box.port_bend = None, ""
    box.second_port_face, box.second_port_u, box.second_port_v = _second_face(typed), None, None
    box.brace_count, box.inner_braces, box.thicknesses = 0, None, None
    box.port_shape = Box.PortShape.ROUND
    return box


def _over_plan(body: Taper) -> dict[str, Any]:
    """Say a plan with its leaning walls in the fields of a record."""
    walls = zip(body.plan.points, body.angles, strict=True)
    return {
        "shape": Box.Shape.PLAN,
        "plan": [[*at, 0.0, lean] if lean else [*at] for at, lean in walls],
        "profile": None,
        "width": None,
        "depth": None,
        "height": body.height,
        "top_depth": None,
        "corner_joint": Box.Corner.USUAL,
    }


def _shape(carcass: Carcass | Taper, kind: str) -> dict[str, Any]:
    """Say a shape in the fields of a record: two or three measures where those are enough."""
    if isinstance(carcass, Taper):
        return _over_plan(carcass)
    profile = carcass.profile
    plain: dict[str, Any] = {
        "shape": Box.Shape.PROFILE,
        "plan": None,
        "width": carcass.width,
        "depth": None,
        "height": None,
        "top_depth": None,
        "profile": [list(point) for point in profile.points],
    }
    if len(profile) != 4 or profile.names != ("bottom", "rear", "top", "front"):
        return plain
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = profile.points
    square = max(abs(y1 - y0), abs(y3 - y2), abs(x3 - x0)) < STRAIGHT
    if not square:
        return plain
    measures = plain | {"depth": x1 - x0, "height": y2 - y1, "profile": None}
    if abs(x1 - x2) < STRAIGHT and kind not in (SLOPE, OUTLINE):
        return {**measures, "shape": Box.Shape.RECTANGLE, "top_depth": None}
    return {**measures, "shape": Box.Shape.SLOPED, "top_depth": x2 - x3}
