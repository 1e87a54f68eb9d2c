"""Paper templates at full size: every part a pencil and a square are not enough for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from jobs import units
from jobs.design.job.whole import JobDesign
from jobs.design.wood.cutting import all_pieces
from jobs.design.wood.pieces import Opening, Piece, Point
from jobs.drawings.wood import wood_pictures
from jobs.drawings.wood.tiles import Template, Tile, tiles

# What fits between the margins and above the block at the foot of each paper [m].
ROOM = {"a4": (0.178, 0.246), "letter": (0.184, 0.229), "a3": (0.265, 0.368)}
# Round an opening as much paper is left as a knife and a strip of tape need [m].
RIM = 0.012


@dataclass(frozen=True, kw_only=True)
class Printed:
    """One template: the whole piece, or what is cut round one middle of it."""

    piece: Piece
    pages: list[Tile]
    # Where the cross of a template of an opening is laid; none for a whole piece.
    places: tuple[Point, ...] = ()
    size: tuple[float, float] = (0.0, 0.0)


def context(design: JobDesign, paper: str, parts: tuple[str, ...]) -> dict[str, Any]:
    """Cut each part that needs one, or each that was picked, into pages of the paper asked for."""
    wanted = [piece for piece in parts_to_pick(design) if not parts or piece.label in parts]
    return {"templates": [t for piece in wanted for t in _templates(piece, ROOM[paper])]}


def parts_to_pick(design: JobDesign) -> list[Piece]:
    """Return the pieces of a job that a template can be printed of."""
    return [piece for piece in all_pieces(design.boxes, design.trims) if piece.needs_template]


def _templates(piece: Piece, paper: tuple[float, float]) -> Iterator[Printed]:
    """A rectangle is marked out with rule and square: only its openings are printed."""
    whole = _template(piece, paper)
    pages = tiles(whole)
    if not piece.rectangular or len(pages) == 1:
        yield Printed(piece=piece, pages=pages, size=piece.size)
        return
    for number, opening in enumerate(piece.openings, start=1):
        yield Printed(
            piece=piece,
            pages=tiles(_template(piece, paper, opening, number)),
            places=opening.middles,
            size=opening.size,
        )


def _template(
    piece: Piece, paper: tuple[float, float], opening: Opening | None = None, number: int = 0
) -> Template:
    # xgettext:no-python-format
    caption = _("Print at 100 %, not fitted to the page. The bar must measure 100 mm.")
    window = None
    if opening:
        (x, y), (wide, high) = opening.middles[0], opening.size
        window = (x - wide / 2 - RIM, y - high / 2 - RIM, x + wide / 2 + RIM, y + high / 2 + RIM)
        places = "; ".join(
            _("%(across)s across, %(up)s up")
            % {"across": units.show(at[0], "length"), "up": units.show(at[1], "length")}
            for at in opening.middles
        )
        caption = _("Cross at %(places)s. Print at 100 %%: the bar must measure 100 mm.") % {
            "places": places
        }
    return Template(
        key=f"template-{piece.label.lower()}-{number}"
        if number
        else f"template-{piece.label.lower()}",
        title=f"{piece.label} {piece.name}",
        part=wood_pictures.part(piece),
        caption=caption,
        paper=paper,
        window=window,
    )
