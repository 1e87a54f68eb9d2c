"""A sticker for each part of wood, on the label stock of the workshop."""

from __future__ import annotations

import pytest
from django.template.loader import render_to_string

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.sheets import labels
from jobs.sheets.stickers import sticker_sheets

pytestmark = pytest.mark.django_db


def test_every_piece_that_is_cut_has_one(hatchback):
    """As many as the cut list has pieces; equal ones are told apart; each place is taken once."""
    design = work_out(load(hatchback.job))
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    sheets = sticker_sheets(design, columns=2, per_sheet=6)
    every = [sticker for sheet in sheets for sticker in sheet]
    assert len(every) == sum(piece.quantity for piece in cutting.pieces) > 6
    assert len({(sticker.piece.label, sticker.number) for sticker in every}) == len(every)
    for sheet in sheets:
        places = [(sticker.column, sticker.row) for sticker in sheet]
        assert len(set(places)) == len(places) <= 6
        assert max(column for column, _row in places) <= 1


def test_a_job_without_cables_prints_those_of_its_wood(hatchback):
    """Nothing to label is said only where there is neither."""
    hatchback.job.runs.all().delete()
    design = work_out(load(hatchback.job))
    context = labels.context(design)
    assert (context["label_count"], len(context["sticker_sheets"])) == (0, 1)
    page = render_to_string("sheets/labels.html", context | {"job": hatchback.job, "paper": "a4"})
    assert "A1" in page
    assert "there is nothing to label" not in page
