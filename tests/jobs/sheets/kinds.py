"""Sheets that need nothing but a job: an offer wants prices, an intake a signature; and packs."""

from __future__ import annotations

from hashlib import sha256

from django.utils import timezone

from jobs import units
from jobs.models import IssuedSheet, Job, SheetKind, User

APART = {SheetKind.SPEC, SheetKind.OPTIONS, SheetKind.INTAKE}
OF_THE_WORK = tuple(kind for kind in SheetKind if kind not in APART and not kind.chapters)
# Whatever is printed of them is printed of their chapters.
BY_THEMSELVES = tuple(kind for kind in SheetKind if not kind.chapters)


def on_paper(value: float, kind: str = "length") -> str:
    """A figure as it stands on a sheet, with plain blanks."""
    with units.on_paper():
        return units.show(value, kind).replace("\N{NO-BREAK SPACE}", " ")


def issued_sheet(job: Job, by: User, fingerprint: str) -> IssuedSheet:
    """A sheet that was issued; one without a fingerprint has the whole job attached."""
    return IssuedSheet.objects.create(
        job=job, kind="build", revision=90, paper="a4", language="en", data={}, pdf=b"%PDF",
        sha256=sha256(b"%PDF").hexdigest(), fingerprint=fingerprint, issued_by=by,
        issued_at=timezone.now(),
    )  # fmt: skip
