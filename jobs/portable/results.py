"""What came out of every calculator, as plain data: for whoever works the job out by other means.

Names are those of the calculators and of this app's own results, figures in SI. A record is named
by its kind and its key in the file.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np
from django.db.models import Model
from django.utils.functional import Promise
from django.utils.translation import override

from jobs.design.box.boxes import BoxResult
from jobs.design.job.whole import JobDesign

WORKED_OUT = (
    *("sweeps", "boxes", "finished", "built", "trims", "channels", "setup", "as_set"),
    *("power", "supply", "panels", "masses", "damping", "measured"),
)
# Of a box, and what only these are worked out from.
_LATER, _ONLY_FOR_LATER = ("figures", "curves", "beside"), {"placed", "hot"}
_LEAVE = object()
_ALREADY_PLAIN = (str, int, bool, type(None))
DEEPEST = 12
# Two machines may round the last digits of a sum differently.
SAME, NOTHING = 1e-6, 1e-12


def results_of(design: JobDesign) -> dict[str, Any]:
    """Return every result of a job and every finding."""
    with override("en"):
        results = {name: _plain(getattr(design, name), 0) for name in WORKED_OUT}
        findings = [
            {
                "code": finding.code,
                "severity": finding.severity,
                "about": [finding.about.kind, finding.about.key, finding.about.detail],
                "value": finding.value if _is_plain(finding.value) else None,
                "limit": finding.limit if _is_plain(finding.limit) else None,
                "unit": finding.unit,
                "source": list(finding.source),
                "decided": finding.decision is not None,
            }
            for finding in design.findings
        ]
    return {**results, "findings": findings}


def _is_plain(value: Any) -> bool:
    return not isinstance(value, float) or math.isfinite(value)


def _plain(value: Any, depth: int) -> Any:
    if depth > DEEPEST:
        return _LEAVE
    kind = type(value)
    if kind is float:  # of the thousands of values most are
        return value if math.isfinite(value) else None
    if kind in _ALREADY_PLAIN:
        return value
    if callable(value) and not is_dataclass(value):
        return _LEAVE
    if isinstance(value, np.ndarray):
        return _plain(value.tolist(), depth)
    if is_dataclass(value) and not isinstance(value, type):
        return _table({name: getattr(value, name) for name in _told(value)}, depth)
    if isinstance(value, Mapping):
        return _table({_name(key): kept for key, kept in value.items()}, depth)
    if isinstance(value, Sequence | set | frozenset) and not isinstance(value, str):
        plain = [_plain(kept, depth + 1) for kept in value]
        return [kept for kept in plain if kept is not _LEAVE]
    return _single(value)


def _told(value: Any) -> list[str]:
    """Name what a result says; a box works some of it out when it is first asked for it."""
    names = [field.name for field in fields(value)]
    if isinstance(value, BoxResult):
        return [*(name for name in names if name not in _ONLY_FOR_LATER), *_LATER]
    return names


def _single(value: Any) -> Any:
    """Return what holds nothing else as plain data; _LEAVE what is none."""
    if isinstance(value, Model):
        return f"{value._meta.model_name} {value.pk}"
    if isinstance(value, enum.Enum):
        return value.value
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, float | np.floating):
        return float(value) if math.isfinite(value) else None
    if isinstance(value, np.integer):
        return int(value)
    if isinstance(value, complex):
        return [value.real, value.imag]
    return str(value) if isinstance(value, Promise) else _LEAVE


def _name(key: Any) -> str:
    return f"{key._meta.model_name} {key.pk}" if isinstance(key, Model) else str(key)


def _table(named: Mapping[str, Any], depth: int) -> dict[str, Any]:
    plain = {name: _plain(value, depth + 1) for name, value in named.items()}
    return {name: value for name, value in plain.items() if value is not _LEAVE}


def differing(before: Any, after: Any, path: str = "") -> Iterator[str]:
    """Yield the name of each result that is not the same."""
    if before == after:
        return
    if isinstance(before, dict) and isinstance(after, dict):
        for name in before.keys() | after.keys():
            yield from differing(before.get(name), after.get(name), f"{path}/{name}")
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for number, (was, now) in enumerate(zip(before, after, strict=True)):
            yield from differing(was, now, f"{path}/{number}")
    elif isinstance(before, float | int) and isinstance(after, float | int):
        if not math.isclose(before, after, rel_tol=SAME, abs_tol=NOTHING):
            yield path
    elif before != after:
        yield path
