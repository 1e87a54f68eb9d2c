"""The largest and the smallest each field takes, and what an answer costs."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from django import forms

from jobs.models.box.box_wood import BRACES
from jobs.models.box.row_lists import MOST_CORNERS, MOST_ENTRIES
from jobs.pages.forms.columns_field import ColumnsFileField
from jobs.pages.forms.fields import AmountField, ConductorField, QuantityField
from jobs.pages.forms.route_field import RouteField
from jobs.pages.forms.rows_field import RowsField
from jobs.pages.forms.shape_fields import (
    MOST_POINTS,
    MOST_RATINGS,
    BracesField,
    CurveField,
    ObstaclesField,
    OutlineField,
    RatingsField,
    SidesField,
)
from jobs.pages.wood.panel_fields import (
    MOST_HATCHES,
    HatchesField,
    OpeningsField,
    StationsField,
    SupportsField,
)
from jobs.units import KINDS
from tests.bench.clock import NOMINAL, turn
from tests.jobs.pages.kinds import listed

End = Literal["largest", "smallest"]
SECONDS, MEMORY = 2.0, 300 * 1024**2
TINY = 1e-6


Rows = list[tuple[str, ...]]


def _comb() -> Rows:
    """An outline with as many corners as one may have: a comb."""
    teeth = [(50 * n, (100, 400)[n // 2 % 2]) for n in range(1, MOST_CORNERS - 3)]
    return [(str(x), str(y)) for x, y in [(0, 0), *_under(teeth), *teeth[::-1], (0, 100)]]


def _under(teeth: list[tuple[int, int]]) -> list[tuple[int, int]]:
    return [(teeth[-1][0] + 50, 0), (teeth[-1][0] + 50, 100)]


def _braces() -> Rows:
    kinds = [(n, BRACES[n % len(BRACES)][0]) for n in range(MOST_ENTRIES)]
    places = {True: ("{0}", "{0}", "5"), False: ("{0}", "", "", "50%")}
    return [
        (kind, *(cell.format(25 + 9 * n) for cell in places[kind.startswith("strut")]))
        for n, kind in kinds
    ]


LISTS: dict[type[forms.Field], Callable[[], Rows]] = {
    OutlineField: _comb,
    ObstaclesField: lambda: [
        (f"{n}{'x' * 50}", str(20 * n), "0", "10", "10", "0", "50") for n in range(MOST_ENTRIES)
    ],
    BracesField: _braces,
    SidesField: lambda: [(f"side {n}", "30 mm") for n in range(1, 9)],
    OpeningsField: lambda: [(str(20 * n + 20), "20", "10") for n in range(MOST_ENTRIES)],
    StationsField: lambda: [("1", str(n + 1), str(n % 7)) for n in range(MOST_CORNERS)],
    SupportsField: lambda: [
        ("block", str(20 * n + 20), "20", "10", "10", "30") for n in range(MOST_ENTRIES)
    ],
    HatchesField: lambda: [
        (str(200 * n + 200), "200", "150", "150", "1", "15", "30", "magnets", "x" * 60)
        for n in range(MOST_HATCHES)
    ],
    RatingsField: lambda: [(f"{n + 1}00 W", "4 Ω") for n in range(MOST_RATINGS)],
    CurveField: lambda: [(str(n + 2), f"{60 - n} s") for n in range(MOST_POINTS)],
}


def ends(form: forms.BaseForm, end: End) -> dict[str, Any]:
    """Return what is sent with every field of a form at one end of what it takes."""
    sent: dict[str, Any] = {}
    for name in form.fields:
        if name != "version":
            sent |= at_end(form, name, end)
    return sent


def at_end(form: forms.BaseForm, name: str, end: End) -> dict[str, Any]:
    """Return what is sent with one field at its end; nothing where it has no such end."""
    field = form.fields[name]
    if type(field) in LISTS:
        return listed(field, name, *LISTS[type(field)]()) if end == "largest" else {}
    value = extreme(field, end)
    return {} if value is None else {name: value}


def _quantity(field: QuantityField, end: End) -> str:
    kind = KINDS[field.kind]
    if end == "largest":
        limit = kind.largest if field.max_value is None else min(field.max_value, kind.largest)
        return field.write(limit * (1 - 1e-6))
    least = kind.lowest if field.min_value is None else max(field.min_value, kind.lowest)
    if least > 0:
        return field.write(least * (1 + 1e-6))
    return field.write(TINY if field.positive else least * (1 - 1e-6))


def extreme(field: forms.Field, end: End) -> Any:
    """Return the largest or smallest this field takes, or None where it has no such end."""
    if isinstance(field, ConductorField):
        return "1000 mm²" if end == "largest" else None
    if isinstance(field, QuantityField):
        return _quantity(field, end)
    if isinstance(field, AmountField):
        return field.write(field.largest) if end == "largest" else "0"
    if isinstance(field, forms.IntegerField):
        limit = field.max_value if end == "largest" else field.min_value
        return None if limit is None else str(limit)
    if end == "smallest" or isinstance(
        field, ColumnsFileField | RouteField | RowsField | forms.UUIDField
    ):
        return None
    if isinstance(field, forms.EmailField):
        return "a@" + ".".join(["b" * 60] * 3) + ".cd"
    if type(field) is forms.CharField:
        assert field.max_length, field.label
        return ("Wörter " * field.max_length)[: field.max_length - 1] + "."
    return None


@dataclass
class Cost:
    """What one answer took: seconds at nominal speed, and bytes above what there were before."""

    seconds: float = 0.0
    memory: int = 0

    @property
    def bearable(self) -> bool:
        """Whether others get their pages meanwhile."""
        return self.seconds < SECONDS and self.memory < MEMORY


def memory(name: str) -> int:
    """Return what this process holds now (VmRSS), or held at most (VmHWM) [bytes]."""
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) * 1024 for line in lines if line.startswith(name))


def forget_peak() -> None:
    """Let the high-water mark of the memory begin anew."""
    Path("/proc/self/clear_refs").write_text("5")


@contextmanager
def cost() -> Iterator[Cost]:
    """Measure the processor time of a block, and how far the memory rose above its start."""
    forget_peak()
    one_turn = -time.process_time()
    turn()
    one_turn += time.process_time()
    spent, before, began = Cost(), memory("VmRSS"), time.process_time()
    yield spent
    spent.seconds = (time.process_time() - began) / one_turn * NOMINAL
    spent.memory = max(memory("VmHWM") - before, 0)
