"""Records a calculator refuses become a finding that says so to each reader in their language."""

from __future__ import annotations

import pytest
from django.utils import translation

from jobs.design.job.whole import load, work_out
from jobs.design.records.findings import Finding
from jobs.models import Box, PowerNode, Run

pytestmark = pytest.mark.django_db


def test_a_box_that_cannot_be_says_so_under_one_key_in_every_language(hatchback):
    """The words follow the reader, the fingerprint a decision hangs on does not."""
    job = hatchback.job
    box = Box.objects.create(
        job=job, name="invented", kind="door", driver=hatchback.box.driver, wanted_volume=0.04
    )

    def found() -> Finding:
        findings = work_out(load(job)).saved_box(box.pk).findings
        (refused,) = [finding for finding in findings if finding.code == "box-cannot-be"]
        return refused

    with translation.override("en"):
        english = found()
        assert english.says.endswith("cannot be worked out: not known: leakage QL of the door.")
        assert work_out(load(job)).saved_box(box.pk).trouble == "not known: leakage QL of the door"
    with translation.override("de"):
        assert found().fingerprint == english.fingerprint


def test_a_tree_that_cannot_be_says_so_without_the_calculators_english(hatchback):
    """A negative current is named with its value; what a decision hangs on does not change."""
    PowerNode.objects.filter(pk=hatchback.processor_node.pk).update(current=-2.0)
    design = work_out(load(hatchback.job))
    finding = next(one for one in design.findings if one.code == "tree-cannot-be")
    with translation.override("en"):
        assert "current it takes: -2\N{NO-BREAK SPACE}A; asked for: zero or more" in finding.says
        english = finding.fingerprint
    with translation.override("de"):
        assert finding.fingerprint == english
        assert "at-least" not in finding.says
        assert "\N{MINUS SIGN}2,0" in finding.says or "-2\N{NO-BREAK SPACE}A" in finding.says


def test_a_run_back_to_its_start_is_named(hatchback):
    """The run that ends where it starts stands in the sentence by its label."""
    run = hatchback.six_run
    Run.objects.filter(pk=run.pk).update(end=run.start)
    design = work_out(load(hatchback.job))
    finding = next(one for one in design.findings if one.code == "tree-cannot-be")
    with translation.override("en"):
        assert f"end of run, {run.label}" in finding.says
