"""How full the pages of a sheet are, measured on the boxes the engine has laid out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any

import pytest

from jobs.sheets import engine

LEAST = 1 / 3
# What leaves a mark on paper; a block around it may be stretched.
DRAWN = ("LineBox", "BlockReplacedBox", "InlineReplacedBox", "TableCellBox")
AVOID = ("avoid", "avoid-page")
FIRST_LINES = 3  # orphans of the style sheet


@dataclass(frozen=True, kw_only=True)
class Page:
    """A page: how far down it is written on, and what would have had to fit for more of it."""

    number: int
    share: float
    # Of the height of a page: what the next page begins with and may not be split.
    next_block: float
    # It is the last one of a sheet, be it by itself or within a pack.
    is_last: bool

    @property
    def is_wasted(self) -> bool:
        """Whether it is less than a third full though the next block had fitted."""
        return not self.is_last and self.share < LEAST and self.share + self.next_block <= 1


def pages_of(html: str) -> list[Page]:
    """Lay a sheet out as it is printed, and say how full each of its pages is."""
    seen: list[Any] = []
    finish = engine._say_what_heads

    def look(document: Any, pdf: Any) -> None:
        seen.extend(page._page_box for page in document.pages)
        finish(document, pdf)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(engine, "_say_what_heads", look)
        engine.render(html)
    return [
        Page(
            number=number,
            share=_lowest(page) / page.height,
            next_block=_next_block(page, following),
            is_last=following is None or _begins_a_sheet(following),
        )
        for number, (page, following) in enumerate(zip(seen, [*seen[1:], None], strict=True), 1)
    ]


def _flow(page: Any) -> Any:
    """What flows from page to page, without what stands in the margins."""
    html = next(child for child in page.children if child.element_tag == "html")
    return next(child for child in html.children if child.element_tag == "body")


def _lowest(page: Any) -> float:
    """How far down the page something is drawn."""
    top = page.content_box_y()
    drawn = (
        box.position_y + box.height - top
        for box in _flow(page).descendants()
        if type(box).__name__ in DRAWN and box.height != "auto"
    )
    return float(max(drawn, default=0.0))


def _next_block(page: Any, following: Any) -> float:
    """Of the height of a page: what the following begins with and may not be split from."""
    height = 0.0
    if following is None:
        return height
    if following.width > page.width:
        return 1.0  # a list that wants the page turned
    for box, high in _pieces(_flow(following)):
        height += high
        if box.style["break_after"] not in AVOID:
            break
    return height / float(page.height)


def _pieces(box: Any) -> Iterator[tuple[Any, float]]:
    """What is kept together, from the top: blocks that say so, pictures, rows, first lines."""
    for child in getattr(box, "children", ()):
        kind = type(child).__name__
        lines = [
            line for line in getattr(child, "children", ()) if "LineBox" in type(line).__name__
        ]
        if child.style["break_inside"] in AVOID or kind in (*DRAWN, "TableRowBox"):
            yield child, child.margin_height()
        elif lines:
            yield child, sum(line.height for line in islice(lines, FIRST_LINES))
        else:
            yield from _pieces(child)


def _begins_a_sheet(page: Any) -> bool:
    """Whether a chapter of a pack begins on this page."""
    top = page.content_box_y()
    return any(
        box.element_tag == "h1" and box.position_y - top < box.height
        for box in _flow(page).descendants()
    )
