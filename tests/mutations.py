"""The small ways to break a source file, and nothing that changes words, types or asserts only."""

from __future__ import annotations

import ast
import copy
import math
from collections.abc import Iterator
from dataclasses import dataclass

_FLIPPED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
_OTHER: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
}
# What a tool reads and no run depends on.
_UNREAD = ("annotation", "returns", "decorator_list", "type_params")
_NOT_ENTERED = (ast.JoinedStr, ast.Assert, ast.Import, ast.ImportFrom)
_FOR_TOOLS = {"strict", "frozen", "kw_only", "slots"}


@dataclass(frozen=True, kw_only=True)
class Mutation:
    """One part of a file, from byte to byte, and what stands there instead."""

    path: str
    lines: range
    start: int
    end: int
    before: str
    after: str

    def apply(self, source: bytes) -> bytes:
        """Return the file with the part exchanged."""
        return source[: self.start] + self.after.encode() + source[self.end :]

    def __str__(self) -> str:
        before = " ".join(self.before.split())
        return f"{self.path}:{self.lines.start}: {before}  →  {self.after}"


def mutations(path: str, source: bytes) -> Iterator[Mutation]:
    """Yield every mutation of a file, from its top to its foot."""
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    for node in _walk(ast.parse(source)):
        for other in _others(node):
            if isinstance(node, ast.expr | ast.stmt):
                assert node.end_lineno is not None
                assert node.end_col_offset is not None
                start = starts[node.lineno - 1] + node.col_offset
                end = starts[node.end_lineno - 1] + node.end_col_offset
                text = ast.unparse(other)
                yield Mutation(
                    path=path,
                    lines=range(node.lineno, node.end_lineno + 1),
                    start=start,
                    end=end,
                    before=source[start:end].decode(),
                    after=text if isinstance(node, ast.stmt | ast.Constant) else f"({text})",
                )


def _walk(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what runs: no annotation, decorator, assert, formatted text or class for types."""
    yield node
    for name, value in ast.iter_fields(node):
        if name in _UNREAD:
            continue
        for child in value if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST) or isinstance(child, _NOT_ENTERED):
                continue
            if isinstance(child, ast.keyword) and child.arg in _FOR_TOOLS:
                continue
            if isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING":
                continue
            yield from _walk(child)


def _others(node: ast.AST) -> Iterator[ast.AST]:
    """Yield a node's mutants."""
    match node:
        case ast.Compare():
            for place, operator in enumerate(node.ops):
                for other in _FLIPPED[type(operator)]:
                    changed = copy.deepcopy(node)
                    changed.ops[place] = other()
                    yield changed
        case ast.BoolOp():
            changed = copy.deepcopy(node)
            changed.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
            yield changed
            for place in range(len(node.values)):
                rest = node.values[:place] + node.values[place + 1 :]
                yield rest[0] if len(rest) == 1 else ast.BoolOp(node.op, rest)
        case ast.BinOp() if type(node.op) in _OTHER and not (_text(node.left) or _text(node.right)):
            yield ast.BinOp(node.left, _OTHER[type(node.op)](), node.right)
            yield node.left
            yield node.right
        case ast.AugAssign() if type(node.op) in _OTHER and not _text(node.value):
            yield ast.AugAssign(node.target, _OTHER[type(node.op)](), node.value)
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand
        case ast.IfExp(test=ast.Name() | ast.Attribute() | ast.Call()):
            negated = ast.UnaryOp(ast.Not(), node.test)
            yield ast.IfExp(negated, node.body, node.orelse)
        case ast.Constant():
            yield from _constants(node.value)


def _constants(value: object) -> Iterator[ast.AST]:
    match value:
        case bool():
            yield ast.Constant(not value)
        case int():
            yield ast.Constant(value + 1)
        # A small bare power of ten is a tolerance.
        case float() if value == 0 or value > 1e-5 or math.log10(value) % 1:
            yield ast.Constant(value * 1.1 if value else 1.0)


def _text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )
