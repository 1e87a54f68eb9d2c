"""What a sheet costs: pages that are used, figures that somebody knows, nothing twice."""

from __future__ import annotations

import re
from collections import Counter
from html import unescape

import pytest
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import SheetKind
from jobs.sheets.issue import printed
from tests.jobs.sheets.fill import pages_of
from tests.jobs.sheets.imprecise import imprecise_in
from tests.jobs.sheets.kinds import BY_THEMSELVES

pytestmark = pytest.mark.django_db
needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())


def _design(scene) -> JobDesign:
    """A job worked out as it is for paper."""
    records = load(scene.job)
    with sheets.spoken("en", "metric"):
        return work_out(records)


def _html(design: JobDesign, kind: SheetKind) -> str:
    """A sheet as it goes to be laid out."""
    sheet = sheets.SHEETS[kind]
    return printed(design, sheet, sheets.Options(), revision=1, at=timezone.now())[0]


def test_no_figure_claims_what_nobody_knows(hatchback):
    """No zeros behind a decimal mark, and three figures where no tape or meter shows more."""
    design = _design(hatchback)
    wrong = {kind: imprecise_in(_html(design, kind)) for kind in BY_THEMSELVES}
    assert {kind: figures for kind, figures in wrong.items() if figures} == {}


def test_what_is_called_imprecise():
    """A guard on the guard: what it must find, and what it must leave alone."""
    for wrong in ("150.0 A", "0.0 mm", "4,098 kg", "12.50 dB", "1.234 Hz"):
        assert imprecise_in(f"<p>{wrong}</p>") == [wrong]
    for right in ("150 A", "1245.3 mm", "12.64 V", "0.86 m", "33 CFR 183.425", "0.048 Ω", "10 %"):
        assert imprecise_in(f"<p>{right}</p>") == []


def test_nothing_stands_twice_in_the_pack_for_the_bay(hatchback):
    """Each heading comes once: cut list, cables, ends and settings have one sheet each."""
    design = _design(hatchback)
    html = _html(design, SheetKind.BAY)
    heads = Counter(unescape(head).strip() for head in re.findall(r"<h2[^>]*>(.*?)</h2>", html))
    assert {head for head, times in heads.items() if times > 1} == set()
    assert html.count("<h3>Cut list</h3>") == len(design.chosen_boxes)


@needs_pdf
@pytest.mark.parametrize("kind", [SheetKind.BAY, SheetKind.WORKINGS])
def test_no_page_is_wasted(hatchback, kind):
    """Each page but the last is a third full, unless what comes next does not fit on it."""
    pages = pages_of(_html(_design(hatchback), kind))
    assert len(pages) > 1
    assert [page for page in pages if page.is_wasted] == []
