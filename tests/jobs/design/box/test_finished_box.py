"""A sweep of a finished box: as drawn it agrees, mistuned or leaking it says so, and is judged."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from jobs.design.box.finished_box import work_out_finished
from jobs.design.job.whole import load, work_out
from jobs.models import Box, BoxSweep
from tests.jobs.sweeps import THIS_SUB, sweep_text

pytestmark = pytest.mark.django_db


def _text(driver, load, *, seed=1) -> str:
    """What a sound card would write of this box, with half a per cent of noise."""
    f = np.geomspace(10, 500, 140)
    z = sweep(driver=driver, box=load, frequencies=f).impedance
    errors = 0.005 * np.random.default_rng(seed).standard_normal((2, f.size))
    size, angle = np.abs(z) * (1 + errors[0]), np.rad2deg(np.angle(z) + errors[1])
    return "\n".join(f"{a:.3f}\t{b:.4f}\t{c:.2f}" for a, b, c in zip(f, size, angle, strict=True))


def _finished(result, built, **kind):
    record = BoxSweep(job=result.box.job, box=result.box, content=_text(*built), **kind)
    return work_out_finished(record, result)


@pytest.fixture
def vented(saloon):
    """A vented box that is worked out, with its driver and its load."""
    return next(box for box in work_out(load(saloon.job)).boxes if box.box.kind == Box.Kind.VENTED)


def test_a_box_built_as_drawn_agrees(hatchback):
    """The boot box of the scene is within 3 % of its drawing and leaks no more than it should."""
    (finished,) = work_out(load(hatchback.job)).finished
    assert finished.agrees
    assert finished.figures[0].as_found == pytest.approx(45.0, rel=0.003)


def test_a_mistuned_port_is_found_and_its_response_shown(vented):
    """A port a fifth too long: the tuning is found within 0.5 %, and what that does to f3."""
    built = vented.load.lengthened(1.2)
    finished = _finished(vented, (vented.driver, built))
    assert [finding.code for finding in finished.findings] == ["box-tuned-off"]
    true = float(built.resonance())
    assert finished.findings[0].value == pytest.approx(true, rel=0.005)
    solved = sweep(driver=vented.driver, box=built, frequencies=np.geomspace(10, 500, 240))
    f3 = next(row for row in finished.figures if row.label.startswith("3 dB"))
    assert f3.as_found == pytest.approx(float(solved.f3), rel=0.02)


def test_a_leak_is_found_and_judged(vented):
    """A QL of 2.5 is below every sound box; 6 is not, and neither is taken for a mistuning."""
    for ql, codes in ((2.5, ["box-leaks"]), (6.0, [])):
        finished = _finished(vented, (vented.driver, replace(vented.load, ql=ql)))
        assert [finding.code for finding in finished.findings] == codes
        assert finished.fit.ql == pytest.approx(ql, rel=0.1)


def test_a_single_leak_that_does_not_explain_it_is_said(vented):
    """Loss in port and lining is named as such, with the Q of each."""
    lossy = replace(vented.load, ql=15.0, qa=30.0, qp=8.0)
    finished = _finished(vented, (vented.driver, lossy))
    assert "losses-not-one-leak" in [finding.code for finding in finished.findings]
    assert set(finished.losses) == {"ql", "qa", "qp"}


def test_a_sweep_of_the_bare_driver_proves_nothing(hatchback):
    """It stays as a look with its reason, and the box stays as drawn."""
    hatchback.job.boxsweeps.update(content=sweep_text(THIS_SUB, 2))
    design = work_out(load(hatchback.job))
    (finished,) = design.finished
    assert finished.fit is None or not finished.agrees
    keys = {finding.key for finding in design.findings_of("boxes")}
    assert finished.findings
    assert {finding.key for finding in finished.findings} <= keys


def test_a_sweep_of_a_removed_box_waits_for_it(hatchback):
    """Nothing is said of a box that is not there."""
    hatchback.box.remove()
    assert work_out(load(hatchback.job)).finished == []
