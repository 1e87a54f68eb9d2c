"""The panels of a box drawn apart, each where it goes in, numbered as in the cut list."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import HAIR, ball
from jobs.drawings.pencil.svg import Point, el, group, outline
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.projection import (
    TO_EYE,
    Facet,
    Point3,
    dot,
    facing,
    flat,
    hidden,
    on_page,
    pieces,
    seen,
)

# How near to its middle a number is looked for, as shares of the panel.
_SPOTS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)


@dataclass(frozen=True, kw_only=True)
class Board:
    """A panel in its place: corners of its outer and inner face, holes through it, where it goes.

    Corner i of one face belongs to corner i of the other; `moved` is how far it is pulled out.
    """

    label: str
    outside: Sequence[Point3]
    inside: Sequence[Point3]
    holes: Sequence[tuple[Sequence[Point3], Sequence[Point3]]] = ()
    moved: Point3 = (0.0, 0.0, 0.0)

    def pulled(self, points: Sequence[Point3]) -> list[Point3]:
        """Points of the board after it was pulled out."""
        dx, dy, dz = self.moved
        return [(x + dx, y + dy, z + dz) for x, y, z in points]


def exploded(boards: Sequence[Board], view: View) -> SafeString:
    """Draw panels apart, hidden lines left out, a numbered ball on each."""
    facets = [facet for board in boards for facet in _facets(board)]
    width, most = view.room
    page, foot = on_page(
        [
            p
            for board in boards
            for face in (board.outside, board.inside)
            for p in board.pulled(face)
        ],
        width=width,
        most=(width - 40, 1.15 * most),
        top=14.0,
    )
    edges = "".join(_drawn(board, facets, page) for board in boards)
    ways = "".join(_way(board, facets, page) for board in boards)
    balls = []
    taken: list[Point] = []
    for board in boards:
        spot = _free_spot(board, facets, page, taken, 2.2 * view.font)
        taken.append(spot)
        balls.append(ball(spot, board.label, view.font))
    return svg.document(
        group(
            el("path", d=ways or None, stroke_width=HAIR, stroke_dasharray="7 2 1 2"),
            el("path", d=edges, stroke_width=1.3, stroke_linecap="round"),
            stroke="currentColor",
            stroke_linejoin="round",
        ),
        *balls,
        key=view.key,
        title=view.title,
        description=view.description,
        width=width,
        height=foot + 16,
    )


def _sides(board: Board) -> list[list[Point3]]:
    """Every side of the board, corners counter-clockwise from outside it, the faces first."""
    out, inn = board.pulled(board.outside), board.pulled(board.inside)
    count = len(out)
    edges = [[inn[i], inn[(i + 1) % count], out[(i + 1) % count], out[i]] for i in range(count)]
    return [out, inn[::-1], *edges]


def _facets(board: Board) -> list[Facet]:
    facets = []
    for number, side in enumerate(_sides(board)):
        normal = facing(side)
        if dot(normal, TO_EYE) > 1e-6:
            holes = [board.pulled(hole[number]) for hole in board.holes] if number < 2 else []
            facets.append(Facet(side, normal, holes))
    return facets


def _drawn(board: Board, facets: Sequence[Facet], page: Callable[[Point3], Point]) -> str:
    """Edges of the sides that look at the eye, and the rims of holes, where nothing covers them."""
    edges = set()
    for side in _sides(board):
        if dot(facing(side), TO_EYE) > 1e-6:
            for a, b in zip(side, [*side[1:], side[0]], strict=True):
                edges.add((min(a, b), max(a, b)))
    d = ""
    for start, end in sorted(edges):
        for a, b, shown in pieces(start, end, facets):
            if shown:
                d += outline([page(a), page(b)], closed=False)
    for hole in board.holes:
        d += seen([board.pulled([*ring, ring[0]]) for ring in hole], facets, page)
    return d


def _middle(points: Sequence[Point3]) -> Point3:
    n = len(points)
    return (
        sum(p[0] for p in points) / n,
        sum(p[1] for p in points) / n,
        sum(p[2] for p in points) / n,
    )


def _way(board: Board, facets: Sequence[Facet], page: Callable[[Point3], Point]) -> str:
    """The way from where the panel is drawn to where it goes, as far as it is seen."""
    if board.moved == (0.0, 0.0, 0.0):
        return ""
    goes, drawn = board.inside[0], board.pulled(board.inside[:1])[0]
    return "".join(
        outline([page(a), page(b)], closed=False)
        for a, b, shown in pieces(goes, drawn, facets)
        if shown
    )


def _free_spot(
    board: Board,
    facets: Sequence[Facet],
    page: Callable[[Point3], Point],
    taken: Sequence[Point],
    apart: float,
) -> Point:
    """A seen place on the face that looks at the eye, off its holes and off other numbers."""
    number = 0 if dot(facing(board.pulled(board.outside)), TO_EYE) > 0 else 1
    face = board.pulled((board.outside, board.inside)[number])
    mine = Facet(face, facing(face), [board.pulled(hole[number]) for hole in board.holes])
    second: Point | None = None
    a, b, c = face[0], face[1], face[-1]
    for up in _SPOTS:
        for across in _SPOTS:
            at: Point3 = (
                a[0] + across * (b[0] - a[0]) + up * (c[0] - a[0]),
                a[1] + across * (b[1] - a[1]) + up * (c[1] - a[1]),
                a[2] + across * (b[2] - a[2]) + up * (c[2] - a[2]),
            )
            before = (at[0] - TO_EYE[0], at[1] - TO_EYE[1], at[2] - TO_EYE[2])
            if hidden(at, facets) or not mine.covers(before, flat(at)):
                continue
            spot = page(at)
            second = second or spot
            if all(abs(spot[0] - x) + abs(spot[1] - y) > apart for x, y in taken):
                return spot
    return second or page(_middle(face))
