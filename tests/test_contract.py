"""Every public docstring of the calculators says units, limits and where the formula is from."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

HOUSE = Path(__file__).parent.parent
NUMBERS = re.compile(r"\b(float|int|Array|ndarray|NDArray|Floats?|complex|Numbers?|Real)\b")
SECTION = re.compile(r"^\s*(Args|Attributes|Returns|Raises|Valid|Source|Yields):", re.M)

Public = ast.FunctionDef | ast.ClassDef


def _public(package: str) -> list[tuple[str, Public]]:
    """Return (where, node) of every public function, class and public method."""
    found: list[tuple[str, Public]] = []
    for path in sorted((HOUSE / package).rglob("*.py")):
        if path.name.startswith("_") and path.name != "__init__.py":
            continue
        for node in ast.parse(path.read_text()).body:
            if isinstance(node, Public) and not node.name.startswith("_"):
                found.append((f"{path.relative_to(HOUSE)}:{node.name}", node))
    return found


def _numeric(node: Public) -> list[str]:
    """Return the names of what is given as a number: parameters, or fields of a dataclass."""
    if isinstance(node, ast.ClassDef):
        pairs = [
            (item.target.id, item.annotation)
            for item in node.body
            if isinstance(item, ast.AnnAssign) and isinstance(item.target, ast.Name)
        ]
    else:
        given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
        pairs = [(arg.arg, arg.annotation) for arg in given if arg.annotation]
    return [
        name
        for name, kind in pairs
        if kind is not None and NUMBERS.search(ast.unparse(kind)) and not name.startswith("_")
    ]


def _entry(doc: str, name: str) -> str | None:
    """Return what Args or Attributes says of one name, up to the next name or section."""
    section = re.search(r"^\s*(Args|Attributes):", doc, re.M)
    doc = doc[section.end() :] if section else ""
    start = re.search(rf"^\s*(?:[\w, ]*\b)?{name}\b[\w, ]*(?:\([^)]*\))?:", doc, re.M)
    if start is None:
        return None
    rest = doc[start.end() :]
    end = re.search(r"\n\s*[\w, ]+:\s", rest)
    return rest[: end.start()] if end else rest


def _complaints(node: Public) -> list[str]:
    doc = ast.get_docstring(node) or ""
    said = []
    first = doc.split("\n\n")[0].split("\n")[0]
    paragraph = doc.split("\n\n")[0].strip()
    if not (first.endswith(".") or paragraph.endswith((".", ":"))):
        said.append("first sentence")
    # A class names what is given or refused, it does not claim anything.
    if "Source:" not in doc and not isinstance(node, ast.ClassDef):
        said.append("Source")
    for name in _numeric(node):
        entry = _entry(doc, name)
        if entry is None:
            said.append(f"{name}: not described")
        elif not re.search(r"\[[^\]]+\]", entry):
            said.append(f"{name}: no [unit]")
    return said


@pytest.mark.parametrize("package", ["acoustics", "wiring"])
def test_every_public_docstring_keeps_the_contract(package):
    """One sentence, each number with its unit in brackets, and a source."""
    public = _public(package)
    assert len(public) > 30
    wrong = {where: said for where, node in public if (said := _complaints(node))}
    assert not wrong, "\n".join(f"{where}: {', '.join(said)}" for where, said in wrong.items())


def test_the_reader_of_docstrings_can_complain():
    """The check itself finds a missing unit, a missing source and a missing entry."""
    source = '''
def bad(volume: float, depth: float, *, area: float) -> float:
    """Return something

    Args:
        volume: how much
        area: how wide [m²]
    """
'''
    node = ast.parse(source).body[0]
    assert isinstance(node, ast.FunctionDef)
    assert _complaints(node) == [
        "first sentence",
        "Source",
        "volume: no [unit]",
        "depth: not described",
    ]
