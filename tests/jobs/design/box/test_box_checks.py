"""A box held against the litres wanted, the driver's travel and the air in its port."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import Sealed, Vented
from jobs.design.box.checks import check_box, check_coil
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


@pytest.mark.parametrize(("speed", "severity"), [(9.9, None), (10.1, "note"), (17.1, "look")])
def test_air_in_the_port_is_quiet_a_note_or_looked_at(speed: float, severity: str | None) -> None:
    """Below 10 m/s nothing, above it a note, above 17 m/s a look; speed goes with voltage."""
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


@pytest.mark.parametrize(("allowed", "over"), [(501.0, False), (499.0, True)])
def test_the_amplifier_is_held_against_the_coil(allowed: float, over: bool) -> None:
    """A tone at full swing heats a coil by V² / Re at most, where its impedance is least."""
    # High above resonance a coil without inductance is its resistance: P = V² / Re.
    volts = (500.0 * float(REFERENCE.re)) ** 0.5
    solved = sweep(driver=REFERENCE, box=SEALED, frequencies=[40.0, 2e5], voltage=volts)
    findings = check_coil(a_box(), driver(power=allowed), solved, solved)
    assert [finding.code for finding in findings] == ["amplifier-above-coil"] * over
    if over:
        assert findings[0].value == pytest.approx(500.0, rel=1e-3)
    unknown = check_coil(a_box(), driver(power=None), solved, solved)
    assert [finding.code for finding in unknown] == ["coil-power-unknown"]


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
