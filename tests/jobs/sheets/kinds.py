"""The sheets that need nothing but a job: an offer wants every price, options want some kept."""

from __future__ import annotations

from jobs.models import SheetKind

OF_THE_WORK = tuple(kind for kind in SheetKind if kind not in (SheetKind.SPEC, SheetKind.OPTIONS))
