"""Sheets that need nothing but a job: offers want prices, options want some kept; and packs."""

from __future__ import annotations

from jobs.models import SheetKind

OF_THE_WORK = tuple(
    kind
    for kind in SheetKind
    if kind not in (SheetKind.SPEC, SheetKind.OPTIONS) and not kind.chapters
)
# Whatever is printed of them is printed of their chapters.
BY_THEMSELVES = tuple(kind for kind in SheetKind if not kind.chapters)
