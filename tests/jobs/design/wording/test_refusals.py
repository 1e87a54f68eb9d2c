"""What a calculator of the wiring refuses is said in the reader's language."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from django.utils import translation

import wiring
from jobs.design.job.whole import load, work_out
from jobs.design.wording.refusals import NAMES, refusal
from jobs.models import PowerNode, Run
from wiring.errors import OutOfRangeError, TreeError, WiringError

pytestmark = pytest.mark.django_db
# Rooms of the calculators that the records of a job reach through the tree and the supply.
ROOMS = ("tree", "drop", "fuse", "supply", "reserve", "transient", "amplifier")
ROOMS += ("thevenin", "short_time_heat")
# Refused only when the program itself slips: no typed figure can bring them about.
SLIPS = {
    "amplifier output", "bank voltage", "cold-cranking current", "crest factor", "drop",
    "duration", "end voltage", "fuse ambient", "fuse kind", "load", "load resistance",
    "note power", "percentage base", "return conductor", "second current",
    "share of the rated output", "source resistance", "start voltage", "studs", "supply voltage",
    "tail resistance", "time", "usable capacity",
}  # fmt: skip


def _names(room: str) -> set[str]:
    """Every literal name an error of this room may carry."""
    source = next(Path(wiring.__file__).parent.rglob(f"{room}.py")).read_text()
    return {
        keyword.value.value
        for call in ast.walk(ast.parse(source))
        if isinstance(call, ast.Call)
        for keyword in call.keywords
        if keyword.arg == "name" and isinstance(keyword.value, ast.Constant)
    }


@pytest.mark.parametrize("room", ROOMS)
def test_every_figure_that_can_be_refused_has_a_name_for_the_reader(room):
    """A name without words would stand in English in a German sentence."""
    assert _names(room) - NAMES.keys() - SLIPS == set()


def test_name_value_and_limit_are_said_apart():
    """The label stays, the figure has its unit, the limit is words."""
    with translation.override("en"):
        error = OutOfRangeError(name="length", value=0.0, limit="0.001 to 1000.0", unit="m")
        assert refusal(error, "0.0 mm") == "length: 0.0 mm; asked for: 0.001 to 1000.0 m"
        loop = TreeError(name="end of run P07", value="Block", limit="another node")
        assert refusal(loop, "Block").startswith("end of run, P07: Block; asked for: another end")
        unknown = WiringError(name="battery of Amplifier", value=None, limit="entered")
        assert refusal(unknown, "") == "battery, Amplifier: unknown; asked for: an entry"


def test_a_tree_that_cannot_be_says_so_without_the_calculators_english(hatchback):
    """A negative current is named with its value; what a decision hangs on does not change."""
    PowerNode.objects.filter(pk=hatchback.processor_node.pk).update(current=-2.0)
    design = work_out(load(hatchback.job))
    finding = next(one for one in design.findings if one.code == "tree-cannot-be")
    with translation.override("en"):
        assert "current it takes: -2.0\N{NO-BREAK SPACE}A; asked for: 0 or more" in finding.says
        english = finding.fingerprint
    with translation.override("de"):
        assert finding.fingerprint == english
        assert "must be" not in finding.says
        assert "\N{MINUS SIGN}2,0" in finding.says or "-2,0" in finding.says


def test_a_run_back_to_its_start_is_named(hatchback):
    """The run that ends where it starts stands in the sentence by its label."""
    run = hatchback.six_run
    Run.objects.filter(pk=run.pk).update(end=run.start)
    design = work_out(load(hatchback.job))
    finding = next(one for one in design.findings if one.code == "tree-cannot-be")
    with translation.override("en"):
        assert run.label in finding.says
