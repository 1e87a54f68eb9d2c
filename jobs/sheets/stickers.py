"""Stickers for the parts of wood, on the same label stock as those of the cables."""

from __future__ import annotations

from dataclasses import dataclass

from jobs.design.job.whole import JobDesign
from jobs.design.wood.cutting import box_pieces
from jobs.design.wood.pieces import Piece


@dataclass(frozen=True, kw_only=True)
class Sticker:
    """One sticker: which piece, of what, the number of it among equal ones, and its place."""

    piece: Piece
    subject: str
    number: int
    column: int
    row: int


def sticker_sheets(design: JobDesign, columns: int, per_sheet: int) -> list[list[Sticker]]:
    """Return one sticker for every piece that is cut, sheet by sheet."""
    cut = [
        (piece, f"{box.letter}: {box.result.box.name}")
        for box in box_pieces(design.boxes)
        for piece in box.pieces
    ]
    cut += [(piece, trim.record.place) for trim in design.trims for piece in trim.pieces]
    each = [
        (piece, subject, number)
        for piece, subject in cut
        for number in range(1, piece.quantity + 1)
    ]
    stickers = []
    for count, (piece, subject, number) in enumerate(each):
        row, column = divmod(count % per_sheet, max(columns, 1))
        stickers.append(
            Sticker(piece=piece, subject=subject, number=number, column=column, row=row)
        )
    return [stickers[n : n + per_sheet] for n in range(0, len(stickers), per_sheet)]
