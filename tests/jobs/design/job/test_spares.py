"""Clips that are laid out before a panel comes off: counted by kind, unknown where nobody said."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from jobs import sheets
from jobs.design.job.earlier.panel_sets import take_over
from jobs.design.job.panels import work_out_spares
from jobs.design.job.whole import load, work_out
from jobs.models import BayNote, Fixing, SheetKind
from tests.jobs.factories import make_car, make_fixing, make_job

pytestmark = pytest.mark.django_db


def _counted(job) -> dict[str, int | None]:
    return {row.name: row.pieces for row in work_out_spares(list(Fixing.objects.filter(job=job)))}


def test_spares_are_added_up_by_kind_and_an_unknown_count_is_no_zero(hatchback):
    """Two panels, one kind: one figure; what breaks and has no figure is named without one."""
    hatchback.job.fixings.all().delete()
    for panel, spares in ((hatchback.side_trim, 2), (hatchback.sill, 3)):
        make_fixing(panel, "push clip", quantity=8, part_number="51-47", spares=spares)
    make_fixing(hatchback.sill, "nut", quantity=4)
    assert _counted(hatchback.job) == {"push clip": 5}
    make_fixing(hatchback.sill, "spring clip", quantity=6, breaks=True)
    assert _counted(hatchback.job) == {"push clip": 5, "spring clip": None}
    paper = PdfReader(
        io.BytesIO(sheets.draft(work_out(load(hatchback.job)), SheetKind.BUILD, sheets.Options()))
    )
    words = " ".join(" ".join(page.extract_text() for page in paper.pages).split())
    assert "5 × push clip 51-47" in words
    assert "nobody has said how many: spring clip" in words


def test_as_many_as_broke_in_an_earlier_car_are_laid_out(hatchback, cast):
    """Of what broke there the next car of the model has at least so many spares."""
    clip = hatchback.side_trim.fastenings.get()
    BayNote.objects.create(
        job=hatchback.job, panel=hatchback.side_trim, kind="clip", fixing=clip, pieces=3,
        written_by=cast.installer,
    )  # fmt: skip
    car = hatchback.job.vehicle
    new = make_job(make_car(maker=car.maker, model=car.model))
    take_over(new, hatchback.job)
    assert _counted(new) == {clip.name: 3}
