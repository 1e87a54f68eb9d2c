"""A sheet is read in fifteen years: what its file carries for that, by ISO 19005-3 and 32000-1."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from pypdf import PdfReader

from jobs import sheets
from jobs.models import SheetKind

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]


def _elements(node: Any) -> Iterator[Any]:
    """Every element of the structure tree (ISO 32000-1, 14.7.2)."""
    node = node.get_object()
    if isinstance(node, list):
        for kid in node:
            yield from _elements(kid)
    elif isinstance(node, dict):
        if "/S" in node:
            yield node
        if "/K" in node:
            yield from _elements(node.raw_get("/K"))


@pytest.mark.parametrize("kind", [SheetKind.HANDOVER, SheetKind.TEMPLATES])
def test_a_sheet_carries_what_an_archive_asks_for(hatchback, as_loaded, kind):
    """Claim, title, language, fonts, bookmarks; each head says what it heads, each picture what
    it shows. PDF/UA is not claimed.
    """
    file = PdfReader(io.BytesIO(as_loaded.sheet(hatchback, kind)))
    root = file.trailer["/Root"]
    xmp = root["/Metadata"].get_data().decode()
    assert 'pdfaid:part="3"' in xmp or "<pdfaid:part>3" in xmp
    assert 'pdfaid:conformance="A"' in xmp or "<pdfaid:conformance>A" in xmp
    assert "pdfuaid" not in xmp
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/OutputIntents"]
    assert file.metadata.title.startswith(hatchback.code)
    assert file.outline
    elements = list(_elements(root["/StructTreeRoot"].raw_get("/K")))
    heads = [element for element in elements if element["/S"] == "/TH"]
    assert heads
    assert {head["/A"]["/Scope"] for head in heads} <= {"/Column", "/Row"}
    pictures = [element for element in elements if element["/S"] == "/Figure"]
    assert pictures
    assert all(picture.get("/Alt") for picture in pictures)
    for page in file.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            (below,) = font.get_object()["/DescendantFonts"]
            described = below.get_object()["/FontDescriptor"]
            assert {"/FontFile2", "/FontFile3"} & set(described)


@pytest.mark.parametrize("kind", [SheetKind.PANELS, SheetKind.GLOVEBOX, SheetKind.CABLES])
def test_what_a_machine_can_tell_of_universal_access_holds(hatchback, as_loaded, kind):
    """All that is painted is read or an artifact; types, heads, links, fonts are in their order."""
    broken = pytest.importorskip("tests.jobs.sheets.matterhorn").broken
    assert broken(as_loaded.sheet(hatchback, kind)) == []


def test_what_breaks_a_rule_of_universal_access_is_told(hatchback, as_loaded):
    """Each rule that is tried finds what is taken out of a file that keeps to it."""
    rules = pytest.importorskip("tests.jobs.sheets.matterhorn")
    pikepdf = pytest.importorskip("pikepdf")
    sheet = as_loaded.sheet(hatchback, SheetKind.HANDOVER)

    def told_of(harm: Callable[[Any], None]) -> set[str]:
        with pikepdf.open(io.BytesIO(sheet)) as file:
            harm(file)
            file.save(harmed := io.BytesIO())
        return {failure[:6] for failure in rules.broken(harmed.getvalue())}

    def element(file: Any, kind: str) -> Any:
        return next(each for each, _within in rules.elements(file) if str(each.S) == kind)

    def unmarked(file: Any) -> None:
        drawn = file.pages[0].obj.Contents.read_bytes()
        file.pages[0].obj.Contents = file.make_stream(drawn + b"\n0 0 9 9 re f")

    harms: dict[str, Callable[[Any], None]] = {
        "01-005": unmarked,
        "01-006": lambda file: file.pages[0].obj.__delitem__("/StructParents"),
        "02-001": lambda file: setattr(element(file, "/P"), "S", pikepdf.Name("/Paragraph")),
        "07-002": lambda file: file.Root.__delitem__("/ViewerPreferences"),
        "11-006": lambda file: file.Root.__delitem__("/Lang"),
        "13-004": lambda file: element(file, "/Figure").__delitem__("/Alt"),
        "14-002": lambda file: setattr(element(file, "/H1"), "S", pikepdf.Name("/P")),
        "15-003": lambda file: element(file, "/TH").__delitem__("/A"),
    }
    for number, harm in harms.items():
        assert number in told_of(harm), number
