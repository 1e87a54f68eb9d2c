"""A stored sweep tells what the driver was made with, and the boxes of the job can use it."""

from __future__ import annotations

import math
from datetime import date

import pytest
from django.utils import translation

from acoustics.driver.combination import wire_coils
from jobs.design.box import drivers
from jobs.design.box.measured_driver import read_trouble, work_out_sweep
from jobs.design.job.whole import load, work_out
from jobs.models import DriverSweep
from tests.jobs.sweeps import Specimen, sweep_text

pytestmark = pytest.mark.django_db
# The driver every sweep here is written of; invented.
MADE = Specimen(fs=31.0, re=3.4, qms=4.4, qes=0.43, mms=0.08)
RHO_C2 = 1.204 * 343.2**2  # air at 20 °C, from memory


def _sweep(job, **changes) -> DriverSweep:
    given = {
        "item": job.boxes.first().driver,
        "measured_on": date(2026, 11, 20),
        "measured_by": "invented",
        "content": sweep_text(MADE, 5),
        **changes,
    }
    return DriverSweep.objects.create(job=job, **given)


def _vas(sd: float) -> float:
    """Vas from mass and resonance: rho c² Sd² / (ws² Mms)."""
    return RHO_C2 * sd**2 / ((2 * math.pi * MADE.fs) ** 2 * MADE.mms)


def test_the_figures_are_those_the_sweep_was_made_with(hatchback):
    """fs within 0.3 %, Q within 2 %, at half a per cent of noise: the accuracy that is promised."""
    result = work_out_sweep(_sweep(hatchback.job))
    assert result.fit.fs == pytest.approx(MADE.fs, rel=0.003)
    assert result.fit.qms == pytest.approx(MADE.qms, rel=0.02)
    assert result.fit.qes == pytest.approx(MADE.qes, rel=0.02)
    for row in result.rows[:5]:
        assert 0 < row.error < 0.02 * row.measured


@pytest.mark.parametrize("method", ["mass", "volume"])
def test_a_second_sweep_adds_mass_compliance_and_force(hatchback, method):
    """Both methods find the mass and Vas of the driver the sweeps were made with."""
    job = hatchback.job
    sd = job.boxes.first().driver.part.driver.sd
    if method == "mass":
        second, given = MADE.loaded(0.03), {"added_mass": 0.03}
    else:
        # In a closed box the stiffness grows: fs, Qms and Qes all by sqrt(1 + Vas/V), Small 1972.
        rise = math.sqrt(1 + _vas(sd) / 0.05)
        second = Specimen(
            fs=MADE.fs * rise, re=MADE.re, qms=MADE.qms * rise, qes=MADE.qes * rise,
            mms=MADE.mms,
        )  # fmt: skip
        given = {"box_volume": 0.05}
    result = work_out_sweep(_sweep(job, method=method, second=sweep_text(second, 6), **given))
    assert result.second_trouble == ""
    assert result.moving.mms == pytest.approx(MADE.mms, rel=0.03)
    assert result.moving.vas == pytest.approx(_vas(sd), rel=0.03)
    bl = math.sqrt(2 * math.pi * MADE.fs * MADE.mms * MADE.re / MADE.qes)
    assert result.moving.bl == pytest.approx(bl, rel=0.03)


def test_coils_are_counted_as_the_catalogue_counts_them(hatchback):
    """Measured in parallel or in series, a two-coil driver comes out as the same driver."""
    job = hatchback.job
    sets = {}
    for coils, re in (("series", 3.6), ("parallel", 0.9)):
        bench = Specimen(fs=27.0, re=re, qms=5.2, qes=0.46, mms=0.2)
        result = work_out_sweep(_sweep(job, coils=coils, content=sweep_text(bench, 7)))
        row = next(one for one in result.rows if one.name == "re")
        assert row.measured == pytest.approx(1.8, rel=0.02)  # one coil
        sets[coils] = result.figures
    part = job.boxes.first().driver.part.driver
    series = drivers.completed(part, sets["series"]).driver
    parallel = drivers.completed(part, sets["parallel"]).driver
    assert series.bl == pytest.approx(parallel.bl, rel=0.02)
    assert wire_coils(series, stated="series", wired="parallel").re == pytest.approx(0.9, rel=0.02)


def test_what_lies_outside_the_tolerance_is_a_finding_of_the_job(hatchback):
    """It can be decided like any other, and is said in the reader's language under one key."""
    job = hatchback.job
    found = [
        one for one in work_out(load(job)).findings if one.code == "measured-differs-from-catalogue"
    ]
    assert {one.about.detail for one in found} == {"qms", "rms"}
    assert all((one.severity, one.section) == ("look", "equipment") for one in found)
    keys = {one.key for one in found}
    with translation.override("de"):
        again = {one.key for one in work_out(load(job)).findings if one.key in keys}
    assert again == keys


def test_the_boxes_use_the_measured_set_only_when_told(hatchback):
    """The choice changes the box; taking it back gives the catalogue's figures again."""
    job = hatchback.job
    before = work_out(load(job)).boxes[0]
    record = hatchback.sweep
    record.in_use = True
    record.save()
    design = work_out(load(job))
    used = design.boxes[0]
    assert design.sweeps[0].is_used
    assert used.measured_set is not None
    assert used.driver.fs == pytest.approx(design.sweeps[0].fit.fs)
    assert used.driver.vas == pytest.approx(design.sweeps[0].moving.vas)
    assert used.curves["spl"].values != pytest.approx(before.curves["spl"].values, abs=0.01)
    record.in_use = False
    record.save()
    after = work_out(load(job)).boxes[0]
    assert after.measured_set is None
    assert after.curves["spl"].values == pytest.approx(before.curves["spl"].values)


def test_a_measured_driver_narrows_the_band_of_its_box(hatchback):
    """What is known of the specimen need not be drawn from what such drivers usually are."""
    job = hatchback.job
    before = work_out(load(job)).boxes[0].bands.qtc
    job.driversweeps.update(in_use=True)
    after = work_out(load(job)).boxes[0].bands.qtc
    assert float(after.high - after.low) < 0.5 * float(before.high - before.low)


def test_without_a_second_sweep_the_moving_mass_stays_the_catalogues(hatchback):
    """Specimens differ in their suspension: the mass is held, and Vas follows from fs."""
    result = work_out_sweep(_sweep(hatchback.job, in_use=True))
    part = result.record.item.part.driver
    assert result.figures.vas is None
    held, listed = drivers.completed(part, result.figures).driver, drivers.completed(part).driver
    assert held.mms == pytest.approx(listed.mms)
    assert held.vas == pytest.approx(listed.vas * (listed.fs / result.fit.fs) ** 2)


def test_a_sweep_that_tells_nothing_is_a_finding_and_never_an_error(hatchback):
    """A stored text that holds no resonance, or a second one that went the wrong way, is said."""
    job = hatchback.job
    flat = "\n".join(f"{20 * 1.2**k:.2f}\t4.0" for k in range(20))
    result = work_out_sweep(_sweep(job, content=flat))
    assert [one.code for one in result.findings] == ["sweep-cannot-be-used"]
    assert "no resonance peak" in result.trouble
    wrong = work_out_sweep(_sweep(job, method="mass", added_mass=0.03, second=sweep_text(MADE, 9)))
    assert wrong.moving is None
    assert "must lower the resonance" in wrong.second_trouble
    assert wrong.fit is not None
    unknown = work_out_sweep(_sweep(job, method="mass", second=sweep_text(MADE.loaded(0.03), 9)))
    assert unknown.second_trouble == "not known: added mass"


def _swapped() -> str:
    rows = [line.split("\t") for line in sweep_text(MADE, 5).splitlines()[1:]]
    return "\n".join(f"{ohm}\t{hertz}" for hertz, ohm, _degrees in rows)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (_swapped(), "look swapped"),
        ("\n".join(f"{k / 100:.2f}\t{4 + k % 3}" for k in range(1, 20)), "in kHz"),
        ("", "fewer than 8 lines"),
        ("20 4\n21 4", "fewer than 8 lines"),
        ("20\t4\n" * 500_000, "at most"),
        ("20\t4\x00\n" * 9, "control characters"),
        ("\n".join(f"{20 + k},5,4,1" for k in range(12)), "semicolons"),
        ("\n".join(f"{20 + k}\t{-4 - k % 2}" for k in range(12)), "no loudspeaker"),
        ("\n".join(f"{20 + k}\t4\t{140 - k % 3}" for k in range(12)), "no loudspeaker"),
    ],
    ids=["swapped", "kHz", "empty", "short", "long", "binary", "commas", "negative", "phase"],
)
def test_a_text_that_is_no_sweep_is_refused_with_its_reason(text, says):
    """Each mistake has its own words, and a line where there is one."""
    trouble = read_trouble(text, None)
    assert says in trouble
    with translation.override("de"):
        assert "{" not in read_trouble(text, None)


def test_decimal_commas_are_read():
    """Commas as decimal marks are no mistake when the columns stand apart otherwise."""
    german = sweep_text(MADE, 5).replace(".", ",")
    assert read_trouble(german, None) == ""


def test_what_drives_nothing_has_no_driver(hatchback):
    """An amplifier in the place of a driver, or nothing there, completes to none."""
    assert drivers.of_item(hatchback.mono, {}) is None
    assert drivers.of_item(None, {}) is None
    assert drivers.of_item(hatchback.sub, {}) is not None
