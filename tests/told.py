"""Several figures and words on one line, for scenes that have too many to give each its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np

from tests.approval import plain

# Below this a figure of these rooms is what rounding left.
NOISE = 1e-12
SOME, MOST = 7, 12
Single = bool | int | float | complex | np.generic


def row(*values: object) -> str:
    """Tell figures, points, results and words on one line."""
    return "; ".join(_word(value) for value in values)


def rows(several: Iterable[Iterable[object]]) -> dict[str, str]:
    """Tell each on a line of its own."""
    return {str(number): row(*values) for number, values in enumerate(several)}


def joined(several: Iterable[Iterable[object]]) -> str:
    """Tell all on one line."""
    return " | ".join(row(*values) for values in several)


def findings(several: Iterable[Any]) -> dict[str, str]:
    """Tell each finding on a line of its own."""
    return rows(
        (f.code, getattr(f, "about", ""), f.detail, f.value, f.limit, f.unit, f.source,
         getattr(f, "state", ""))
        for f in several
    )  # fmt: skip


def refusal(call: Callable[[], object]) -> str:
    """Tell what a call refuses, by its code and the figures given; or what it comes to."""
    try:
        return row(call())
    except ValueError as error:
        given = getattr(error, "given", {})
        code = getattr(error, "code", "no code of ours")
        about = getattr(error, "about", "")
        return row(
            type(error).__name__, code, about, *(f"{k} {_word(v)}" for k, v in given.items())
        )


def refusals(calls: Mapping[str, Callable[[], object]]) -> dict[str, str]:
    """Tell what each call refuses."""
    return {name: refusal(call) for name, call in calls.items()}


def limits(calls: Mapping[str, Callable[[], object]]) -> dict[str, str]:
    """Tell of each call whether what it is given is still taken."""
    return {name: refusal(lambda call=call: (call(), "taken")[1]) for name, call in calls.items()}


def _word(value: object) -> str:
    if isinstance(value, np.ndarray) and not value.ndim:
        value = value[()]
    if (single := plain(value, NOISE)) is not None:
        return single
    if isinstance(value, np.ndarray) and value.size > MOST:
        return _curve(value)
    members = _members(value)
    between = "," if all(isinstance(member, Single) for member in members) else " "
    return between.join(_word(member) for member in members) or "nothing"


def _members(value: Any) -> list[object]:
    if is_dataclass(value):
        return [getattr(value, field.name) for field in fields(value) if field.repr]
    if isinstance(value, Mapping):
        return [part for pair in value.items() for part in pair]
    if isinstance(value, Iterable):
        return list(value)
    return [type(value).__name__]


def _curve(values: np.ndarray) -> str:
    """Tell many by their number, mean, root mean square and some of them."""
    flat = values.ravel()
    some = flat[np.linspace(0, flat.size - 1, SOME).astype(int)].tolist()
    if flat.dtype.kind in "USO":
        return f"{flat.size}: {' '.join(map(str, some))}"
    size = np.sqrt(np.mean(np.abs(flat) ** 2))
    told = " ".join(_word(member) for member in (np.mean(flat), size, *some))
    return f"{flat.size}: {told}"
