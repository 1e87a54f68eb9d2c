"""The sheets that need nothing but a job: an offer wants prices, an intake a signature."""

from __future__ import annotations

from jobs.models import SheetKind

APART = {SheetKind.SPEC, SheetKind.OPTIONS, SheetKind.INTAKE}
OF_THE_WORK = tuple(kind for kind in SheetKind if kind not in APART)
