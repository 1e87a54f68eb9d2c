"""Tables as comma-separated text that no table program takes for formulas."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence

# A table program takes a text that begins so for a formula.
# Source: OWASP, CSV Injection (ASVS 5, 1.2.10)
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\0")


def safe(text: str) -> str:
    """Return a text of a cell as a text."""
    return f"'{text}" if text.startswith(FORMULA) else text


def written(names: Sequence[str], rows: Iterable[Mapping[str, object]]) -> str:
    """Return rows under their names; texts are made safe, figures stay figures."""
    text = io.StringIO()
    table = csv.writer(text)
    table.writerow(names)
    for row in rows:
        cells = (row[name] for name in names)
        table.writerow([safe(cell) if isinstance(cell, str) else cell for cell in cells])
    return text.getvalue()
