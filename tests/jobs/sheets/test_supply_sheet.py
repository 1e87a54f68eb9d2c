"""The supply on the build sheet: the page's numbers, in a few lines, in the reader's language."""

from __future__ import annotations

import pytest
from django.template.loader import render_to_string

from jobs import units
from jobs.design.job.whole import load, work_out
from jobs.models import PowerNode

pytestmark = pytest.mark.django_db


def _printed(job) -> tuple[object, str]:
    design = work_out(load(job))
    html = render_to_string("sheets/supply_table.html", {"design": design, "job": job})
    return design.supply, html.replace("\n", " ")


def test_the_sheet_prints_the_numbers_of_the_page(hatchback):
    """Spare current, reserve, drain, lowest voltages and heat are those worked out."""
    supply, text = _printed(hatchback.job)
    shown = [units.show(supply.budget.spare_idling, "current")]
    shown.append(units.show(supply.reserves[0].time, "duration"))
    shown.append(supply.key_off.total_lasts)
    shown += [units.show(one.sag.lowest, "voltage") for one in supply.bass]
    shown += [units.show(one.heat.worst, "power") for one in supply.heat]
    for figure in shown:
        assert figure in text
    assert "<td" not in text  # a sheet's time is counted in cells


def test_a_closed_place_and_an_unknown_figure_are_printed(saloon):
    """What a fabricator has to see stands on the sheet, and unknown is said as unknown."""
    _, text = _printed(saloon.job)
    assert "<b>closed in</b>" in text
    assert "not measured" in text
    assert "at idle: \N{EM DASH}." in text


def test_a_job_without_amplifiers_has_no_supply_on_its_sheet(hatchback):
    """The build sheet leaves the section out."""
    PowerNode.objects.filter(job=hatchback.job, kind="amplifier").delete()
    supply, _ = _printed(hatchback.job)
    assert not supply.amplifiers
