"""Boards that carry amplifiers: their holes, and whether each has the air it needs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.board import Mounted, check_board
from jobs.design.box.checks import SECTION
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.wood.pieces import Piece, Point
from jobs.models import EquipmentItem, Part, TrimMount, TrimPanel
from jobs.models.parts.catalogue import OnBoard


@dataclass(frozen=True, kw_only=True)
class OnIt:
    """A part on a board: in which row it stands, what it is, where its holes are."""

    number: int
    name: str
    mounted: Mounted


@dataclass(frozen=True, kw_only=True)
class Board:
    """What is screwed to a board, and what of it could not be placed."""

    on_it: tuple[OnIt, ...] = ()
    findings: tuple[Finding, ...] = ()


def mounts_of(panel: TrimPanel, equipment: Iterable[EquipmentItem], by: Point) -> Board:
    """Place the parts of a board moved by so much; only of what is in the job the size is known."""
    if panel.kind != TrimPanel.Kind.BOARD or not panel.mounts:
        return Board()
    parts = {item.part_id: item.part for item in equipment}
    on_it: list[OnIt] = []
    findings: list[Finding] = []
    for number, row in enumerate(map(TrimMount.read, panel.mounts), start=1):
        part = parts.get(row.part_id)
        own = None if part is None else _own(part)
        if part is None or own is None or not own.body_length or not own.body_width:
            code = "mount-not-listed" if part is None else "mount-size-unknown"
            name = f"{panel.name}, {number}" if part is None else f"{panel.name}, {part}"
            findings.append(
                Finding(
                    code=code,
                    severity="look",
                    section=SECTION,
                    about=about(panel).at(f"mount {number}"),
                    name=name,
                )
            )
            continue
        mounted = _mounted(own, number, (row.u + by[0], row.v + by[1]), turned=row.turned)
        on_it.append(OnIt(number=number, name=str(part), mounted=mounted))
    return Board(on_it=tuple(on_it), findings=tuple(findings))


def _own(part: Part) -> OnBoard | None:
    """The half of a part that says how it is screwed down."""
    if part.kind not in {Part.Kind.AMPLIFIER, Part.Kind.PROCESSOR}:
        return None
    own = getattr(part, part.kind, None)
    return own if isinstance(own, OnBoard) else None


def _mounted(own: OnBoard, number: int, middle: Point, *, turned: bool) -> Mounted:
    def lies(along: float, across: float) -> tuple[float, float]:
        return (across, along) if turned else (along, across)

    holes = None
    if own.holes_along and own.holes_across:
        holes = lies(own.holes_along, own.holes_across)
    return Mounted(
        name=f"mount {number}",
        middle=middle,
        size=lies(own.body_length or 0.0, own.body_width or 0.0),
        height=own.body_height,
        holes=holes,
        hole=own.fixing_hole,
        air=own.air_round,
    )


def board_findings(panel: TrimPanel, piece: Piece, on_it: Sequence[OnIt]) -> list[Finding]:
    """Hold what is on a board against its rim, its openings, its like and the room over it."""
    checked = check_board(
        piece.outline,
        piece.holes,
        [thing.mounted for thing in on_it],
        room=panel.room_above,
    )
    names = {thing.mounted.name: thing.name for thing in on_it}
    return adopt(checked, section=SECTION, about=about(panel), name=panel.name, places=names)
