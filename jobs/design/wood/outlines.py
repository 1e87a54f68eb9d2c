"""Outlines and openings of panels: from what was typed to what is cut and set out."""

from __future__ import annotations

from acoustics.carcass.shape.edges import Corner, edged, inset, measured
from acoustics.carcass.shape.outline import Circle, Figure, Loop, rectangle
from acoustics.errors import MissingError, OutOfRangeError
from acoustics.names import Name
from jobs.design.wood.pieces import Point, SetOut
from jobs.design.wording.names import Needed
from jobs.models import TrimCorner, TrimOpening, TrimPanel, TrimStation

# What is narrower is no board: a slip of the unit [m].
LEAST = 0.001


def need(value: float | None, what: Needed) -> float:
    """Return a figure that must be known, or say that it is missing."""
    if value is None:
        raise MissingError(what)
    return value


def outline_of(panel: TrimPanel) -> tuple[Loop, tuple[SetOut, ...], Point]:
    """The bare wood with its lower left at nothing, what is set out of it, how far it was moved."""
    drawn = edged(_corners(panel))
    if panel.measured == TrimPanel.Measured.SPACE:
        drawn = inset(drawn, panel.edge_gap + panel.edge + (panel.beside or 0.0))
    left, low = (min(point[n] for point in drawn.points) for n in (0, 1))
    points = tuple((u - left, v - low) for u, v in drawn.points)
    for n, name in enumerate((Name.WIDTH, Name.HEIGHT)):
        size = max(point[n] for point in points)
        if size < LEAST:
            raise OutOfRangeError(name, size, "m", at_least=LEAST)
    spots = tuple(
        SetOut(kind=spot.kind, number=spot.number, at=points[spot.index], radius=spot.radius)
        for spot in drawn.spots
    )
    # Where every point is a corner, the outline says all of it.
    curved = any(spot.kind != "corner" for spot in spots)
    return Loop(points=points), spots if curved else (), (-left, -low)


def _corners(panel: TrimPanel) -> list[Corner]:
    """The corners of a panel with what is said of each and of the edge after it."""
    if panel.outline:
        rows = [TrimCorner.read(plain) for plain in panel.outline]
    else:
        width = need(panel.width, Needed.WIDTH)
        height = need(panel.height, Needed.HEIGHT)
        places = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
        rows = [TrimCorner.read(place) for place in places]
    corners = [Corner(at=(row.x, row.y), bow=row.bow, radius=row.radius) for row in rows]
    stations = [
        (row.corner, row.along, row.out) for row in map(TrimStation.read, panel.stations or ())
    ]
    return measured(corners, stations)


def openings_of(panel: TrimPanel) -> list[Figure]:
    """The typed openings of a panel: round, square-cornered, or with corners rounded."""
    figures: list[Figure] = []
    for row in map(TrimOpening.read, panel.openings or ()):
        if row.height is None:
            figures.append(Circle(centre=(row.u, row.v), radius=row.width / 2))
            continue
        half, tall = row.width / 2, row.height / 2
        square = rectangle(row.u - half, row.v - tall, row.u + half, row.v + tall)
        if row.radius:
            corners = [Corner(at=at, radius=row.radius) for at in square.points]
            square = Loop(points=edged(corners).points)
        figures.append(square)
    return figures
