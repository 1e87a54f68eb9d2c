"""A box's wood in its car: where it stands, what it weighs, which panel of it rings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening, check_cavity
from acoustics.carcass.cavity.place_in_cavity import Place, stand
from acoustics.carcass.panels.mass import check_mass
from acoustics.carcass.panels.panel_modes import BraceAdvice, check_fields
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.bows import straightened
from acoustics.carcass.shape.errors import CarcassError
from acoustics.carcass.shape.plate import Board
from acoustics.carcass.shape.profile import Profile
from acoustics.errors import AcousticsError
from jobs.design.box.checks import SECTION, box_finding
from jobs.design.box.figures import Figure
from jobs.design.box.remembered import USED_UP_TO
from jobs.design.carcass.carcass import Wood
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term, adopt
from jobs.models import Box


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What is known of a box of wood beyond its litres."""

    findings: list[Finding]
    figures: list[Figure]
    # Where the box's own corners are counted from, in the coordinates of the cavity.
    place: Place | None = None


def cavity_of(box: Box) -> Cavity | None:
    """Return the space a box must go in, or None while it has no outline or no width."""
    if not box.cavity_profile or box.cavity_width is None:
        return None
    opening = None
    if box.opening_width is not None and box.opening_height is not None:
        opening = Opening(width=box.opening_width, height=box.opening_height)
    return Cavity(
        profile=Profile(points=_counter_clockwise(box.cavity_profile)),
        width=box.cavity_width,
        obstacles=tuple(
            Obstacle(
                name=obstacle["name"],
                points=tuple((x, y) for x, y in obstacle["points"]),
                start=obstacle["start"] or 0.0,
                end=obstacle["end"],
            )
            for obstacle in box.cavity_obstacles or ()
        ),
        gap=box.cavity_gap,
        opening=opening,
    )


def cavity_points(corners: list[list[float]] | None) -> tuple[tuple[float, float], ...]:
    """Return the outline of a cavity in straight lines: an arc as what is free for certain."""
    return straightened(corners or (), within=True)


def _counter_clockwise(corners: list[list[float]]) -> tuple[tuple[float, float], ...]:
    """A tape goes round a cavity either way; what crosses itself is left for the profile to say."""
    points = cavity_points(corners)
    shape = Polygon(points)
    if not shape.is_valid or shape.area == 0:
        return points
    return tuple((x, y) for x, y in orient(shape).exterior.coords[:-1])


def look(box: Box, wood: Wood | None) -> Standing:
    """Hold a box's wood against its cavity, weigh it, and find the panel that rings."""
    if wood is None:
        return Standing(findings=[], figures=[])
    carcass = wood.carcass
    findings, place = _in_cavity(box, carcass)
    mass = wood.mass
    findings += adopt(
        check_mass(mass), section=SECTION, about=about(box), name=box.name, places=wood.places
    )
    figures = [Figure(name="mass", value=mass.known, kind="mass")]
    findings += _ringing(box, carcass)
    return Standing(findings=findings, figures=figures, place=place)


def _in_cavity(box: Box, carcass: Body) -> tuple[list[Finding], Place | None]:
    if not box.cavity_profile:
        return [], None
    findings = []
    if box.cavity_width is None:
        findings.append(box_finding(box, "cavity-width-unknown", severity="look"))
    elif box.opening_width is None or box.opening_height is None:
        findings.append(box_finding(box, "opening-unknown", severity="note"))
    try:
        cavity = cavity_of(box)
    except AcousticsError as error:
        findings.append(box_finding(box, "cavity-cannot-be", value=str(error), refused=error))
        return findings, None
    if cavity is None:
        return findings, None
    x, y, z = place = stand(carcass, cavity)
    calculated = check_cavity(carcass, cavity, x=x, y=y, z=z)
    obstacles = {
        f"obstacle {number}": obstacle.name
        for number, obstacle in enumerate(cavity.obstacles, start=1)
    }
    findings += adopt(
        calculated, section=SECTION, about=about(box), name=box.name, places=obstacles
    )
    return findings, place


def _ringing(box: Box, carcass: Body) -> Iterator[Finding]:
    """Panels that ring in the band, and the braces that cure each."""
    material = box.material
    if material is None:
        return
    if material.stiffness is None or material.density is None:
        yield box_finding(box, "board-unknown", severity="note")
        return
    try:
        board = Board(modulus=material.stiffness, density=material.density)
    except CarcassError as error:
        yield box_finding(box, "box-cannot-be", "board", value=str(error), refused=error)
        return
    low_pass = box.channel.lowpass_frequency if box.channel else None
    ringing, advice = check_fields(carcass, board=board, band_top=low_pass or USED_UP_TO)
    yield from adopt(ringing, section=SECTION, about=about(box), name=box.name, places={})
    for cure in advice:
        yield _cure(box, cure)


def _cure(box: Box, advice: BraceAdvice) -> Finding:
    codes = {
        "across": "braces-across-cure",
        "level": "braces-level-cure",
        "along": "braces-along-cure",
        "between walls": "braces-between-walls-cure",
    }
    return box_finding(
        box,
        codes[advice.way],
        advice.panel,
        severity="note",
        place=(Term((advice.panel,)),),
        value=str(advice.braces),
        limit=advice.bay,
        unit="m",
    )
