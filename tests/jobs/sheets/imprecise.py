"""Figures on paper that claim more than anybody knows."""

from __future__ import annotations

import re
from html import unescape

from jobs.quantities.kinds import FIGURES, KINDS, READ_FINER
from jobs.units import units_of

# A tape, a saw and a meter show more figures than a sheet otherwise prints.
_FINER = {unit for kind in READ_FINER for unit in units_of(kind)}
_UNITS = {unit for kind in KINDS for unit in units_of(kind) if unit}
_FIGURE = re.compile(
    r"(?<![\w.,])(\d+[.,]\d+)[ \u00a0]?("
    + "|".join(re.escape(unit) for unit in sorted(_UNITS, key=len, reverse=True))
    + r")(?!\w)"
)


def imprecise_in(html: str) -> list[str]:
    """Return the figures of a sheet with zeros at their end or with too many places."""
    text = unescape(re.sub(r"<[^>]*>", " ", html)).replace("\u00a0", " ")
    return [
        match[0]
        for match in _FIGURE.finditer(text)
        if match[1].endswith("0") or (_figures(match[1]) > FIGURES and match[2] not in _FINER)
    ]


def _figures(number: str) -> int:
    return len(re.sub(r"[.,]", "", number).lstrip("0"))
