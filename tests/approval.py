"""Hold what is worked out, printed and shown against what somebody looked at and let stand.

A scene's figures and words are lines of a text file in `tests/approved/`, so that a change of the
house shows in a commit as the lines it changes, and none goes unnoticed. That a line is right is
for the other tests to say. `make approve` writes the lines anew: read what differs before you
commit it.
"""

from __future__ import annotations

import enum
import math
import os
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from django.db.models import Model

KEPT = Path(__file__).parent / "approved"
# Two machines may round differently, and a search ends anywhere within its own tolerance.
SAME, NOTHING = 2e-5, 1e-9
ROUNDED = 1e-6
DIGITS = 6
# A longer list of figures is told by its length, ends, sum and some members.
LONGEST = 8
NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e[-+]\d+)?")


def hold(name: str, lines: Iterable[str]) -> None:
    """Compare lines with the approved ones of a scene, or write them where that is asked for."""
    now, place = [*lines], KEPT / f"{name}.txt"
    assert now, "nothing is held by no lines"
    if os.environ.get("APPROVE"):
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text("\n".join(now) + "\n", encoding="utf-8")
        return
    before = place.read_text(encoding="utf-8").splitlines()
    if len(before) == len(now) and all(_alike(*pair) for pair in zip(before, now, strict=True)):
        return
    was, is_now = set(before), set(now)
    other = [f"- {line}" for line in before if line not in is_now]
    other += [f"+ {line}" for line in now if line not in was]
    shown = "\n".join([*other[:12], *other[12:][-12:]])
    pytest.fail(f"{place.name}: {len(other)} lines of {len(before)} differ\n{shown}", pytrace=False)


def _alike(before: str, now: str) -> bool:
    """Say whether two lines have the same words, and figures no further apart than rounding."""
    if before == now:
        return True
    if NUMBER.sub("#", before) != NUMBER.sub("#", now):
        return False
    pairs = zip(NUMBER.findall(before), NUMBER.findall(now), strict=True)
    return all(math.isclose(float(a), float(b), rel_tol=SAME, abs_tol=NOTHING) for a, b in pairs)


def figures(value: object) -> Iterator[str]:
    """Yield every figure and word of a result as `path = value`, public properties too.

    What stands in it twice is told where it stands first.
    """
    yield from _figures(value, "", {})


def _figures(value: object, path: str, told: dict[int, object]) -> Iterator[str]:
    if (single := plain(value)) is not None:
        yield f"{path} = {single}"
        return
    if (callable(value) and not is_dataclass(value)) or id(value) in told:
        return
    told[id(value)] = value  # kept, so that nothing else gets its place in memory
    if isinstance(value, np.ndarray) or _is_long(value):
        yield from _summary(np.asarray(value), path)
    elif isinstance(value, Set):
        yield f"{path} = {sorted(str(kept) for kept in value)}"
    else:
        for name, kept in _parts(value):
            yield from _figures(kept, f"{path}{name}", told)


def plain(value: object, nothing: float = NOTHING) -> str | None:
    """Return what is a single figure or word; None for what has parts.

    A figure smaller than `nothing` is what rounding left of it.
    """
    if isinstance(value, bool | np.bool_):
        return str(bool(value))
    if isinstance(value, enum.Enum):
        return str(value.value)
    if value is None or isinstance(value, int | np.integer | str | Decimal):
        return str(value)
    if isinstance(value, float | np.floating):
        return f"{0.0 if abs(value) < nothing else value:.{DIGITS}g}"
    if isinstance(value, complex):
        return f"{plain(value.real, nothing)} {plain(value.imag, nothing)}i"
    return type(value).__name__ if isinstance(value, Model | date) else None


def _is_long(value: object) -> bool:
    """Say whether these are many figures, or many pairs of them."""
    if not isinstance(value, Sequence) or len(value) <= LONGEST:
        return False
    rows = [kept if isinstance(kept, list | tuple) else [kept] for kept in value]
    alike = len({len(row) for row in rows}) == 1
    return alike and all(isinstance(kept, int | float | complex) for row in rows for kept in row)


def _summary(values: np.ndarray, path: str) -> Iterator[str]:
    """Tell an array by its shape, sum and members at even steps."""
    if values.dtype.kind not in "iufcb":
        yield f"{path} = {values.shape} of {values.dtype}"
        return
    flat = values.ravel()
    if len(flat) and flat.dtype.kind != "b":  # what rounding left of the others is nothing
        flat = np.where(abs(flat) < ROUNDED * abs(flat).max(), 0, flat)
    steps = np.unique(np.linspace(0, len(flat) - 1, LONGEST).astype(int)) if len(flat) else []
    some = " ".join(str(plain(flat[step].item())) for step in steps)
    yield f"{path} = {values.shape} sum {plain(flat.sum().item())}: {some}"


def _parts(value: Any) -> Iterator[tuple[str, object]]:
    """Yield what something holds: members, or fields and public properties."""
    if isinstance(value, Mapping):
        yield from ((f".{_key(key)}", kept) for key, kept in value.items())
    elif isinstance(value, Iterable) and not hasattr(value, "geom_type"):
        yield from ((f"[{number}]", kept) for number, kept in enumerate(value))
    else:
        if is_dataclass(value):
            yield from ((f".{field.name}", getattr(value, field.name)) for field in fields(value))
        for name in _properties(type(value)):
            try:
                yield f".{name}", getattr(value, name)
            except ValueError as error:
                yield f".{name}", f"refused: {error!r}"


def _properties(kind: type) -> list[str]:
    """Return the names of the public properties of a kind; of a shape those that tell it."""
    if hasattr(kind, "geom_type"):
        return ["area", "length", "bounds"]
    kinds = {name: getattr(kind, name) for name in dir(kind) if not name.startswith("_")}
    return [name for name, of in kinds.items() if isinstance(of, property | cached_property)]


def _key(key: object) -> str:
    """Return the name of a member; of a record its kind, as its number is another every time."""
    return plain(key) or type(key).__name__
