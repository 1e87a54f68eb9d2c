"""What a machine can tell of PDF/UA-1 (ISO 14289-1): conditions of the Matterhorn Protocol.

Source: PDF Association, Matterhorn Protocol 1.1 (2021), whose numbers are given; numbers and words
are from memory. What a person has to judge (whether words, order and heads fit) is not tried.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from typing import Any

import pytest

pikepdf = pytest.importorskip("pikepdf")

# ISO 32000-1, 14.8.4: the structure types every reader knows.
STANDARD = {
    *("Document", "Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index"),
    *("NonStruct", "Private", "P", "H", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl"),
    *("LBody", "Table", "TR", "TH", "TD", "THead", "TBody", "TFoot", "Span", "Quote", "Note"),
    *("Reference", "BibEntry", "Code", "Link", "Annot", "Ruby", "RB", "RT", "RP", "Warichu"),
    *("WT", "WP", "Figure", "Formula", "Form"),
}
# What each may stand in.
WITHIN = {
    "TR": {"Table", "THead", "TBody", "TFoot"},
    "TH": {"TR"},
    "TD": {"TR"},
    "THead": {"Table"},
    "TBody": {"Table"},
    "TFoot": {"Table"},
    "LI": {"L"},
    "Lbl": {"LI", "Note", "TOCI"},
    "LBody": {"LI"},
}
# Operators that put something on the page (ISO 32000-1, annex A).
PAINTING = {
    *("Tj", "TJ", "'", '"', "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do"),
    *("BI", "EI", "INLINE IMAGE"),
}


def broken(pdf: bytes) -> list[str]:
    """Return every condition a file fails, with where; none where all hold."""
    with pikepdf.open(io.BytesIO(pdf)) as file:
        return [f"{number}: {what}" for rule in RULES for number, what in rule(file)]


Failures = Iterator[tuple[str, str]]


def elements(file: Any) -> Iterator[tuple[Any, str]]:
    """Every element of the structure tree in its order, with the type of what it stands in.

    What has no structure of its own is passed over (ISO 32000-1, table 333, NonStruct).
    """
    waiting = [(file.Root.StructTreeRoot.K, "")]
    while waiting:
        node, within = waiting.pop()
        if isinstance(node, pikepdf.Array):
            waiting += [(kid, within) for kid in reversed(list(node))]
        elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
            yield node, within
            if "/K" in node:
                name = str(node.S)[1:]
                waiting.append((node.K, within if name == "NonStruct" else name))


def _content(file: Any) -> Failures:
    """Everything painted is read or is an artifact, and never both (01-003, 01-004, 01-005)."""
    for number, page in enumerate(file.pages, start=1):
        marks: list[str] = []
        for operands, operator in pikepdf.parse_content_stream(page):
            name = str(operator)
            if name in ("BDC", "BMC"):
                tag = str(operands[0])
                kind = "artifact" if tag == "/Artifact" else "read" if _mcid(operands) else ""
                if kind and {"artifact": "read", "read": "artifact"}[kind] in marks:
                    yield "01-003", f"page {number}: {tag} within the other kind"
                marks.append(kind)
            elif name == "EMC":
                marks.pop()
            elif name in PAINTING and not any(marks):
                yield "01-005", f"page {number}: {name} belongs to nothing"


def _mcid(operands: Any) -> bool:
    named = operands[1] if len(operands) > 1 else None
    return isinstance(named, pikepdf.Dictionary) and "/MCID" in named


def _parents(file: Any) -> Failures:
    """Whatever is marked to be read is found from its page in the structure tree (01-006)."""
    tree = {int(key): kept for key, kept in _numbers(file.Root.StructTreeRoot.ParentTree)}
    for number, page in enumerate(file.pages, start=1):
        marked = {
            int(operands[1].MCID)
            for operands, operator in pikepdf.parse_content_stream(page)
            if str(operator) == "BDC" and _mcid(operands)
        }
        if not marked:
            continue
        kept = tree.get(int(page.obj.get("/StructParents", -1)), [])
        lost = {mcid for mcid in marked if mcid >= len(kept) or kept[mcid] is None}
        if lost:
            yield "01-006", f"page {number}: {len(lost)} of {len(marked)} are in no tree"


def _numbers(tree: Any) -> Iterator[tuple[Any, Any]]:
    for kid in tree.get("/Kids", []):
        yield from _numbers(kid)
    nums = list(tree.get("/Nums", []))
    yield from zip(nums[::2], nums[1::2], strict=True)


def _types(file: Any) -> Failures:
    """Every type is a standard one or mapped to one, and stands where it may (02-001, 09-004)."""
    roles = file.Root.StructTreeRoot.get("/RoleMap", {})
    for element, within in elements(file):
        name = str(element.S)[1:]
        if name not in STANDARD and f"/{name}" not in roles:
            yield "02-001", name
        if name in WITHIN and within not in WITHIN[name]:
            yield "09-004", f"{name} within {within}"


def _described(file: Any) -> Failures:
    """Title, language and marks of the whole (06-003, 07-002, 11-006, 26-001)."""
    with file.open_metadata() as xmp:
        if not xmp.get("dc:title"):
            yield "06-003", "no title"
    if not file.Root.get("/ViewerPreferences", {}).get("/DisplayDocTitle"):
        yield "07-002", "the title is not shown"
    if not str(file.Root.get("/Lang", "")):
        yield "11-006", "no language"
    if file.is_encrypted:
        yield "26-001", "encrypted"
    if not file.Root.get("/MarkInfo", {}).get("/Marked"):
        yield "00-001", "not marked as tagged"


def _headings(file: Any) -> Failures:
    """The first heading is of the first level, and none below is left out (14-002, 14-003)."""
    last = 0
    for element, _within in elements(file):
        name = str(element.S)[1:]
        if len(name) == 2 and name[0] == "H" and name[1].isdecimal():
            level = int(name[1])
            if level > last + 1:
                yield ("14-003" if last else "14-002"), f"H{level} after H{last}"
            last = level


def _figures(file: Any) -> Failures:
    """A figure has words and a box, a head of a table says what it heads (13-004, 15-003)."""
    for element, _within in elements(file):
        if element.S == "/Figure" and not str(element.get("/Alt", element.get("/ActualText", ""))):
            yield "13-004", "a figure without words"
        if element.S == "/TH":
            given = element.get("/A", {})
            given = given if isinstance(given, pikepdf.Array) else [given]
            if not any("/Scope" in each for each in given) and "/Headers" not in element:
                yield "15-003", "a head that heads nothing"
        if element.S == "/Note" and "/ID" not in element:
            yield "19-003", "a note without a name"


def _attached(file: Any) -> Failures:
    """What is attached has a name for every reader (21-001)."""
    for _name, spec in file.attachments.items():
        if "/F" not in spec.obj or "/UF" not in spec.obj:
            yield "21-001", "a file without a name"


def _annotations(file: Any) -> Failures:
    """Links are in the structure and say where they lead; tabs follow it (28-002 to 28-012)."""
    listed = {
        kid.Obj.objgen
        for element, _within in elements(file)
        for kid in _kids(element)
        if isinstance(kid, pikepdf.Dictionary) and kid.get("/Type") == "/OBJR"
    }
    for number, page in enumerate(file.pages, start=1):
        notes = list(page.obj.get("/Annots", []))
        if notes and page.obj.get("/Tabs") != "/S":
            yield "28-008", f"page {number}"
        for note in notes:
            if note.objgen not in listed:
                yield "28-002", f"page {number}: {note.Subtype} in no structure"
            if not str(note.get("/Contents", note.get("/Alt", ""))):
                yield "28-012", f"page {number}: {note.Subtype} without words"


def _kids(element: Any) -> list[Any]:
    kids = element.get("/K", [])
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def _fonts(file: Any) -> Failures:
    """Fonts lie in the file, with what each sign means (31-009, 31-027, 31-004)."""
    for page in file.pages:
        for name, font in page.obj.get("/Resources", {}).get("/Font", {}).items():
            (below,) = font.get("/DescendantFonts", [font])
            described = below.get("/FontDescriptor", {})
            if not {"/FontFile", "/FontFile2", "/FontFile3"} & set(described.keys()):
                yield "31-009", f"{name} is not embedded"
            if "/ToUnicode" not in font:
                yield "31-027", f"{name} says no letters"
            if below.get("/Subtype") == "/CIDFontType2" and "/CIDToGIDMap" not in below:
                yield "31-004", f"{name} names no glyphs"


RULES: tuple[Callable[[Any], Failures], ...] = (
    *(_content, _parents, _types, _described, _headings, _figures),
    *(_attached, _annotations, _fonts),
)
