"""A box held against the litres wanted, the driver's travel and the air in its port."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import Sealed, Vented
from jobs.design.box.channel_feed import NOTHING, Feed
from jobs.design.box.checks import check_box
from jobs.design.box.coil import check_coil
from jobs.design.box.enclosures import leak_q
from jobs.design.carcass.carcass import wood
from jobs.models import Driver
from tests.acoustics.drivers import REFERENCE
from tests.jobs.design.wood.test_wood import a_box

pytestmark = pytest.mark.django_db
SEALED = Sealed(volume=0.040)


def found(part: Driver, solved, *, wanted: float = 0.040, net: float = 0.040) -> dict[str, object]:
    """Findings by code of a box of wood with nothing in it."""
    box = a_box(wanted_volume=wanted)
    made = wood(box, port_length=None)
    return {f.code: f for f in check_box(box, part, solved, net, made)}


def driver(**more) -> Driver:
    """The maker's figures that are looked at; invented."""
    return Driver(**{"name": "driver", "xmax": 0.010, **more})


@pytest.mark.parametrize(
    ("net", "off"),
    [(0.0400, False), (0.0419, False), (0.0381, False), (0.0421, True), (0.0379, True)],
)
def test_five_percent_of_the_litres_wanted_are_looked_at(net: float, off: bool) -> None:
    """Within 5 % either way nothing is said; beyond it both figures are."""
    solved = sweep(driver=REFERENCE, box=SEALED, frequencies=[50.0, 100.0], voltage=1.0)
    findings = found(driver(), solved, net=net)
    assert ("volume-off-target" in findings) is off
    if off:
        finding = findings["volume-off-target"]
        assert (finding.value, finding.limit, finding.severity) == (net, 0.040, "look")


def test_travel_is_held_against_xmax_and_its_absence_is_said() -> None:
    """Twice the voltage is twice the travel: just below and just above the maker's figure."""
    f = np.array([10.0, 20.0, 40.0])
    one = sweep(driver=REFERENCE, box=SEALED, frequencies=f, voltage=1.0).excursion.max()
    for volts, over in ((0.0099 / one, False), (0.0101 / one, True)):
        solved = sweep(driver=REFERENCE, box=SEALED, frequencies=f, voltage=float(volts))
        findings = found(driver(), solved)
        assert ("excursion-above-xmax" in findings) is over
        assert "xmax-unknown" not in findings
        if over:
            assert findings["excursion-above-xmax"].value == pytest.approx(0.0101)
    assert "xmax-unknown" in found(driver(xmax=None), solved)


@pytest.mark.parametrize(("speed", "severity"), [(16.9, None), (17.1, "look")])
def test_air_in_the_port_is_held_to_one_speed(speed: float, severity: str | None) -> None:
    """Below 17 m/s nothing, above it a look with its source; speed goes with voltage."""
    vented = Vented.tuned(volume=0.040, frequency=40.0, area=0.005)
    f = np.array([30.0, 40.0, 60.0])
    one = sweep(driver=REFERENCE, box=vented, frequencies=f, voltage=1.0).port_speed.max()
    solved = sweep(driver=REFERENCE, box=vented, frequencies=f, voltage=float(speed / one))
    told = [f for f in found(driver(), solved).values() if f.code.startswith("port-")]
    if severity is None:
        assert not told
    else:
        (finding,) = told
        assert finding.severity == severity
        assert finding.value == pytest.approx(speed)


@pytest.mark.parametrize(
    ("allowed", "codes"),
    [(252.0, []), (250.0, ["amplifier-above-coil"]), (64.0, ["amplifier-above-coil"]),
     (63.0, ["programme-above-coil"])],
)  # fmt: skip
def test_the_amplifier_is_held_against_the_coil(allowed: float, codes: list[str]) -> None:
    """Limited music is a look, ordinary music a stop; each with the gain that spares the coil.

    A resistor as coil: 500 W as a sine is 1 000 W at the peaks, 251.2 W at a crest of 6 dB and
    63.1 W at 12 dB.
    """
    stiff = replace(REFERENCE, qes=1e6, le=0.0)  # hardly a motor: its impedance is Re throughout
    volts = (500.0 * float(stiff.re)) ** 0.5
    solved = sweep(driver=stiff, box=SEALED, frequencies=[40.0, 80.0], voltage=volts)
    findings = {f.code: f for f in check_coil(a_box(), driver(power=allowed), solved, NOTHING)}
    cures = ["gain-spares-coil"] if codes else []
    assert set(findings) - {"high-pass-spares-coil"} == {*codes, *cures}
    if codes:
        power = findings[codes[0]].value
        assert power == pytest.approx(63.1 if codes[0].startswith("programme") else 251.2, rel=1e-3)
        less = findings["gain-spares-coil"].value
        assert 251.2 * 10 ** (-less / 10) == pytest.approx(allowed, rel=1e-3)
    unknown = check_coil(a_box(), driver(power=None), solved, NOTHING)
    assert [finding.code for finding in unknown] == ["coil-power-unknown"]


def test_a_high_pass_that_spares_the_coil_does() -> None:
    """With the volume left as it is, the proposed high-pass brings the coil to what it bears."""
    volts = (500.0 * float(REFERENCE.re)) ** 0.5
    solved = sweep(driver=REFERENCE, box=SEALED, frequencies=[40.0, 80.0], voltage=volts)
    low = Way(filters=(Filter(family=Family.BUTTERWORTH, order=4, corner=80, passes=Passes.LOW),))
    feed = Feed(voltage=volts, filters=low)
    limited = check_coil(a_box(), driver(power=1.0), solved, feed)[0].value * 10**0.6
    findings = {f.code: f for f in check_coil(a_box(), driver(power=0.9 * limited), solved, feed)}
    corner = float(findings["high-pass-spares-coil"].value)
    f = np.geomspace(20, 20_000, 4000)
    z = sweep(driver=REFERENCE, box=SEALED, frequencies=f).impedance
    heat = np.abs(low.response(f)) ** 2 / np.abs(z) ** 2
    kept = 1 / (1 + (corner / f) ** 8)
    assert np.mean(heat * kept) / np.mean(heat) == pytest.approx(0.9, abs=0.06)
    assert np.mean(heat * kept) / np.mean(heat) <= 0.905


@pytest.mark.parametrize(
    ("kind", "usual"), [("sealed", 20.0), ("vented", 7.0), ("passive_radiator", 7.0)]
)
def test_a_leakage_nobody_entered_is_named_at_its_usual_value(kind: str, usual: float) -> None:
    """Blank is no perfect box: the usual QL counts and is a finding; an entered one is none."""
    solved = sweep(driver=REFERENCE, box=SEALED, frequencies=[50.0, 100.0], voltage=1.0)
    for entered in (None, 9.0):
        box = a_box(kind=kind, ql=entered)
        findings = {f.code: f for f in check_box(box, driver(), solved, 0.04, None)}
        assert ("leakage-assumed" in findings) is (entered is None)
        assert leak_q(box) == (usual if entered is None else entered)
