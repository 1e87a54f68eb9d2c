"""Packs: several sheets under one cover, counted as a whole, their words those of the sheets."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from django.utils import timezone
from pypdf import PdfReader

from jobs import sheets
from jobs.design.job.handover_gate import HAND_OVER
from jobs.design.job.whole import load, work_out
from jobs.models import SheetKind
from jobs.sheets.issue import printed

pytestmark = pytest.mark.django_db
needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())


def _marks(outline: list[Any]) -> Iterator[Any]:
    """The outermost bookmarks."""
    yield from (mark for mark in outline if not isinstance(mark, list))


@needs_pdf
def test_a_pack_is_counted_and_marked_as_a_whole(hatchback, as_loaded):
    """A bookmark leads to each sheet, the contents name its page, each page counts in the whole."""
    file = PdfReader(io.BytesIO(as_loaded.sheet(hatchback, SheetKind.CUSTOMER)))
    marks = list(_marks(file.outline))
    titles = [mark.title for mark in marks]
    assert titles == ["Pack for the customer", "Hand-over", "Glove box page", "Panel record"]
    contents = file.pages[0].extract_text()
    for mark in marks[1:]:
        page = file.get_destination_page_number(mark)
        line = next(
            line for line in contents.splitlines() if line.lstrip("123. ").startswith(mark.title)
        )
        assert line.endswith(str(page + 1))
        assert mark.title in file.pages[page].extract_text()
    for number, page in enumerate(file.pages, start=1):
        assert f"{number} / {len(file.pages)}" in page.extract_text()
    # The glove box page lies in the car by itself.
    assert len(PdfReader(io.BytesIO(as_loaded.sheet(hatchback, SheetKind.GLOVEBOX))).pages) == 1


def _said(scene, kind: SheetKind) -> tuple[str, dict[str, Any]]:
    design = work_out(load(scene.job))
    return printed(design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now())


def test_what_is_open_is_said_once_and_never_to_the_customer(saloon):
    """The bay reads every look on the cover and on no chapter; the customer reads none."""
    looks = [look.says for look in work_out(load(saloon.job)).open_looks]
    assert looks
    bay, data = _said(saloon, SheetKind.BAY)
    assert bay.count("<h2>Still open</h2>") == 1
    assert set(data["chapters"]) == set(SheetKind.BAY.chapters)
    assert not any("findings" in chapter for chapter in data["chapters"].values())
    customer, data = _said(saloon, SheetKind.CUSTOMER)
    assert 'class="findings"' not in customer
    assert [look for look in looks if look in customer] == []
    assert "findings" not in data


def test_a_pack_counts_as_the_sheets_within(hatchback):
    """Whoever has the customer's pack has the hand-over and the panel record."""
    gate = next(gate for gate in HAND_OVER if gate.code == "sheets")
    records = load(hatchback.job)
    assert list(gate.missing(SimpleNamespace(records=records)))
    records = replace(records, issued=[SimpleNamespace(kind=SheetKind.CUSTOMER)])
    assert list(gate.missing(SimpleNamespace(records=records))) == []
