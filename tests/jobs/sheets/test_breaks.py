"""Where the pages of a sheet break, read from the structure the PDF carries for screen readers."""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest
from pypdf import PdfReader

from jobs import sheets
from jobs.models import SheetKind
from tests.jobs.sheets.kinds import BY_THEMSELVES

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
HEADS = {"/H1", "/H2", "/H3", "/H4"}

# Their pages hold drawings and labels.
SIGNED_NOWHERE = {SheetKind.TEMPLATES, SheetKind.LABELS}
MOST_SIGNATURES = 3

# What stands around a piece of text, outermost first, each with a number of its own; its page.
Piece = tuple[tuple[tuple[str, int], ...], int]


def pieces(pdf: bytes) -> list[Piece]:
    """Every piece of text of a tagged PDF (ISO 32000-1, 14.7) in its reading order."""
    reader = PdfReader(io.BytesIO(pdf))
    numbers = {page.indirect_reference.idnum: n for n, page in enumerate(reader.pages, start=1)}
    count = iter(range(10**9))

    def walk(node: Any, around: tuple[tuple[str, int], ...], page: int) -> Iterator[Piece]:
        if isinstance(node, int):
            yield around, page
            return
        node = node.get_object()
        if isinstance(node, int):
            yield around, page
        elif isinstance(node, list):
            for one in node:
                yield from walk(one, around, page)
        else:
            if "/Pg" in node:
                page = numbers[node.raw_get("/Pg").idnum]
            if "/S" in node:
                around = (*around, (str(node["/S"]), next(count)))
            if node.get("/Type") == "/MCR":
                yield around, page
            elif "/K" in node:
                yield from walk(node.raw_get("/K"), around, page)

    return list(walk(reader.trailer["/Root"]["/StructTreeRoot"], (), 0))


def in_a_head(piece: Piece) -> bool:
    """Whether this piece is part of a heading."""
    return any(tag in HEADS for tag, _ in piece[0])


def _on(found: list[Piece], page: int) -> int:
    return sum(there == page for _around, there in found)


@pytest.mark.parametrize(
    ("name", "paper", "language"),
    [
        ("hatchback", "a4", "en"),
        ("van", "letter", "de"),
        pytest.param("saloon", "a4", "de", marks=pytest.mark.long),
    ],
)
def test_no_heading_is_orphaned_and_no_row_split(
    hatchback, van, saloon, as_loaded, name, paper, language
):
    """What a heading announces begins on its page, a row stands on one page, no signature alone."""
    scene = {"hatchback": hatchback, "van": van, "saloon": saloon}[name]
    wrong = []
    for kind in BY_THEMSELVES:
        found = pieces(as_loaded.sheet(scene, kind, paper=paper, language=language))
        assert any(in_a_head(one) for one in found)
        for here, following in pairwise(found):
            if in_a_head(here) and not in_a_head(following) and here[1] != following[1]:
                wrong.append(f"{kind}: a heading alone at the foot of page {here[1]}")
        rows: dict[int, set[int]] = {}
        for around, page in found:
            for tag, number in around:
                if tag in ("/TR", "/LI"):
                    rows.setdefault(number, set()).add(page)
        last = max(page for _around, page in found)
        if kind not in SIGNED_NOWHERE and last > 1 and _on(found, last) <= MOST_SIGNATURES:
            wrong.append(f"{kind}: signatures alone on page {last}")
        wrong += [f"{kind}: a row on pages {sorted(on)}" for on in rows.values() if len(on) > 1]
    assert wrong == []
