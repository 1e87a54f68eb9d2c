"""Boxes, drivers and coils: limit cases, impossible input, and what must hold for every box."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.air.air import Air, standard_at
from acoustics.circuit.solver import sweep
from acoustics.driver.combination import combine, wire_coils
from acoustics.driver.driver import Driver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import (
    Door,
    InfiniteBaffle,
    PassiveRadiatorBox,
    Sealed,
    Vented,
)
from acoustics.enclosure.doors import door_fates
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.enclosure.port import Port, RoundOpening
from acoustics.errors import AcousticsError, ContradictionError, NoSolutionError, OutOfRangeError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused

F = np.geomspace(10, 500, 60)
VENT = Vent(area=0.008, effective_length=0.3)
CONE = Radiator(sd=0.03, mms=0.15, cms=4e-4, rms=2.0)
T_S = {"fs": 30.0, "qms": 5.0, "qes": 0.45, "re": 3.5, "vas": 0.06, "sd": 0.049}

IMPOSSIBLE: dict[str, tuple[Callable[[], object], tuple[str, str, float]]] = {
    "no volume": (lambda: Sealed(volume=0.0), ("above", "volume", 0.0)),
    "negative volume": (lambda: Vented(volume=-0.02, vent=VENT), ("above", "volume", -0.02)),
    "no number": (lambda: Sealed(volume=math.nan), ("above", "volume", math.nan)),
    "too much filling": (lambda: Sealed(volume=0.04, fill=1.5), ("between", "fill", 1.5)),
    "less than no filling": (lambda: Sealed(volume=0.04, fill=0.9), ("between", "fill", 0.9)),
    "negative leak": (lambda: Sealed(volume=0.04, ql=-7.0), ("above", "ql", -7.0)),
    "no port area": (lambda: Vent(area=0.0, effective_length=0.3), ("above", "port-area", 0.0)),
    "negative compliance": (
        lambda: Radiator(sd=0.03, mms=0.1, cms=-1e-4, rms=1.0),
        ("above", "radiator-compliance", -1e-4),
    ),
    "no radiator": (
        lambda: Radiator(sd=0.03, mms=0.1, cms=1e-4, rms=1, count=0),
        ("at-least", "radiator-count", 0),
    ),
    "negative added mass": (
        lambda: Radiator(sd=0.03, mms=0.1, cms=1e-4, rms=1, added_mass=-0.01),
        ("at-least", "added-mass", -0.01),
    ),
    "frequency zero": (
        lambda: sweep(driver=REFERENCE, box=Sealed(volume=0.04), frequencies=[0.0, 20.0]),
        ("above", "frequency", 0.0),
    ),
    "negative cable": (
        lambda: sweep(
            driver=REFERENCE, box=Sealed(volume=0.04), frequencies=[20.0], series_resistance=-0.1
        ),
        ("at-least", "series-resistance", -0.1),
    ),
    "no air": (lambda: Air(density=0.0), ("above", "air-density", 0.0)),
    "no resonance": (lambda: Driver(**(T_S | {"fs": 0.0})), ("above", "fs", 0.0)),
    "half a driver": (
        lambda: combine(REFERENCE, parallel=0),
        ("whole-number", "drivers-in-parallel", 0),
    ),
    "odd pairs": (
        lambda: combine(REFERENCE, parallel=3, isobaric=True),
        ("even", "drivers-in-pairs", 3),
    ),
    "one bad candidate": (
        lambda: Sealed(volume=np.array([0.02, -0.01])),
        ("above", "volume", -0.01),
    ),
}


@pytest.mark.parametrize("case", IMPOSSIBLE)
def test_impossible_input_is_refused(case: str) -> None:
    """What cannot be is refused with its name, value and unit."""
    make, (code, name, value) = IMPOSSIBLE[case]
    with refused(OutOfRangeError, code, name, value=value):
        make()


def test_striking_before_the_linear_limit_is_a_contradiction() -> None:
    """Xmech below Xmax cannot be."""
    with refused(ContradictionError, "contradicts-at-least", "xmech", value=0.008, limit=0.01):
        Driver(**T_S, xmax=0.010, xmech=0.008)


def test_a_sweep_too_short_for_f3_says_so() -> None:
    """A half-power frequency outside the sweep is refused, not guessed."""
    solved = sweep(driver=REFERENCE, box=Sealed(volume=0.04), frequencies=np.geomspace(60, 500, 50))
    with refused(NoSolutionError, "never-falls", limit=60):
        _ = solved.f3


def test_coils() -> None:
    """Two equal coils: series twice, parallel half, one alone twice the Qes; turns set Bl."""
    stated = Driver(**T_S, le=2e-3, power_rating=400)
    parallel = wire_coils(stated, stated="series", wired="parallel")
    single = wire_coils(stated, stated="series", wired="single")
    # Definition of Bl: half the wire in the gap has half the force factor.
    assert (parallel.re, parallel.qes, parallel.le) == pytest.approx((0.875, 0.45, 0.5e-3))
    assert parallel.bl == pytest.approx(stated.bl / 2)
    assert (single.re, single.qes, single.le) == pytest.approx((1.75, 0.90, 0.5e-3))
    assert single.bl == pytest.approx(stated.bl / 2)
    assert single.power_rating == 200
    assert wire_coils(parallel, stated="parallel", wired="series") == stated
    # Equal power into either wiring of both coils gives equal level.
    assert parallel.efficiency == pytest.approx(stated.efficiency)
    with refused(OutOfRangeError, "one-of", "coils-wired", value="crossed"):
        wire_coils(stated, stated="series", wired="crossed")  # type: ignore[arg-type]


def test_semi_inductance() -> None:
    """K sqrt(jw) turns the impedance to 45° and rises as the root of frequency (definition)."""
    driver = Driver(**T_S, semi_inductance=0.05)
    z = sweep(driver=driver, box=InfiniteBaffle(), frequencies=[1e6]).impedance[0] - 3.5
    assert abs(z) == pytest.approx(0.05 * math.sqrt(2 * math.pi * 1e6), rel=1e-4)
    assert np.angle(z) == pytest.approx(math.pi / 4, abs=1e-4)


def test_air_moves_the_box_but_not_the_driver() -> None:
    """In warm air a driver keeps its mass and compliance; the tuning follows the speed of sound."""
    warm = standard_at(313.15)
    box = Vented.tuned(volume=0.06, frequency=30.0, area=0.008)
    # ISO 9613-1 A.5: sqrt(313.15/293.15).
    assert box.resonance(air=warm) == pytest.approx(30 * 1.03355, abs=1e-3)
    free = sweep(driver=REFERENCE, box=InfiniteBaffle(), frequencies=F, air=warm)
    assert F[abs(free.impedance).argmax()] == pytest.approx(30, rel=0.04)


def test_vent_of_a_port() -> None:
    """A port's geometry becomes area, effective length and hydraulic diameter."""
    port = Port(opening=RoundOpening(diameter=0.1), length=0.3, count=2)
    vent = Vent.of(port)
    assert vent.area == pytest.approx(2 * math.pi * 0.05**2)
    assert vent.hydraulic_diameter == pytest.approx(0.1)


def test_a_tiny_port_seals_and_a_huge_box_vanishes() -> None:
    """Limits: no port is a sealed box, an endless box an infinite baffle."""
    pinhole = Vented(volume=0.04, vent=Vent(area=1e-9, effective_length=0.3))
    for limit, box in ((Sealed(volume=0.04), pinhole), (InfiniteBaffle(), Sealed(volume=1e6))):
        expected = sweep(driver=REFERENCE, box=limit, frequencies=F)
        found = sweep(driver=REFERENCE, box=box, frequencies=F)
        assert found.spl == pytest.approx(expected.spl, abs=1e-3)
        assert found.impedance == pytest.approx(expected.impedance, rel=1e-4)


def test_candidates_equal_single_solutions() -> None:
    """Candidates solved at once are the same as each alone, over any mix of parameters."""
    volumes, cables = np.array([0.03, 0.05, 0.08]), np.array([[0.0], [0.3]])
    many = sweep(
        driver=REFERENCE,
        box=Vented.tuned(
            volume=volumes, frequency=np.array([28.0, 30.0, 33.0]), area=0.008, ql=7.0
        ),
        frequencies=F,
        series_resistance=cables,
    )
    assert many.spl.shape == (2, 3, F.size)
    one = sweep(
        driver=REFERENCE,
        box=Vented.tuned(volume=0.08, frequency=33.0, area=0.008, ql=7.0),
        frequencies=F,
        series_resistance=0.3,
    )
    assert many.spl[1, 2] == pytest.approx(one.spl, abs=1e-9)
    assert many.impedance[1, 2] == pytest.approx(one.impedance, rel=1e-12)
    wide = many.at(frequencies=np.geomspace(5, 3000, 300))
    assert wide.f3[1, 2] == pytest.approx(
        float(one.at(frequencies=np.geomspace(5, 3000, 300)).f3), rel=1e-6
    )


@settings(deadline=None, max_examples=60)
@given(
    kind=st.sampled_from(["sealed", "vented", "radiator", "door", "band-pass"]),
    volume=st.floats(0.003, 0.3),
    ql=st.floats(0.5, 50),
    qa=st.floats(3, 200),
    le=st.floats(0, 4e-3),
)
def test_every_curve_is_finite_and_passive(
    kind: str, volume: float, ql: float, qa: float, le: float
) -> None:
    """No curve has a hole, and no system gives back more power than it takes."""
    sealed = Sealed(volume=volume, ql=ql, qa=qa)
    vented = Vented(volume=volume, vent=VENT, ql=ql, qa=qa, qp=40.0)
    box = {
        "sealed": sealed,
        "vented": vented,
        "radiator": PassiveRadiatorBox(volume=volume, radiator=CONE, ql=ql, qa=qa),
        "door": Door(volume=volume, ql=ql, opening=CONE),
        "band-pass": BandPass(rear=sealed, front=vented),
    }[kind]
    solved = sweep(driver=Driver(**T_S, le=le), box=box, frequencies=F)
    for curve in (solved.spl, solved.excursion, solved.group_delay, abs(solved.impedance)):
        assert np.isfinite(curve).all()
    # The real part of what the amplifier sees is never below the coil's resistance.
    assert (solved.impedance.real >= 3.5 - 1e-9).all()


@pytest.mark.filterwarnings("error")
def test_exact_resonances_divide_by_nothing() -> None:
    """Lossless boxes are solved at their very resonance without a warning."""
    box = Vented(volume=0.06, vent=VENT)
    f0 = float(box.resonance())
    for kind in (box, BandPass(rear=Sealed(volume=0.03), front=box), BandPass(rear=box, front=box)):
        solved = sweep(driver=REFERENCE, box=kind, frequencies=[f0 / 2, f0, 2 * f0])
        assert np.isfinite(solved.excursion).all()
        assert np.isfinite(abs(solved.impedance)).all()


# Invented: a 165 mm driver for a door, and the factory driver whose hole is beside it.
NEW = Driver(fs=58.0, qms=4.2, qes=0.72, re=3.1, vas=0.0105, sd=0.0134, xmax=0.005)
OLD = Driver(fs=71.0, qms=3.3, qes=0.95, re=3.6, vas=0.0088, sd=0.0128)


def test_door_fates_differ_only_in_the_hole() -> None:
    """An open hole cancels the bass, the unplugged driver less so, and above all three agree."""
    fates = door_fates(volume=0.045, ql=2.5, factory=OLD, thickness=0.002)
    blanked, left_open, unplugged = (
        sweep(driver=NEW, box=door, frequencies=[30.0, 1500.0])
        for door in (fates.blanked, fates.left_open, fates.unplugged)
    )
    # Far below all resonances an opening leaves only the compressed air of what cannot escape.
    assert left_open.spl[0] < unplugged.spl[0] - 3
    assert left_open.spl[0] < blanked.spl[0] - 10
    assert left_open.spl[1] == pytest.approx(blanked.spl[1], abs=0.5)
    assert unplugged.spl[1] == pytest.approx(blanked.spl[1], abs=0.5)
    # Flanged piston on both sides (Rayleigh § 302): 2 * 8/(3 pi) a.
    hole = fates.left_open.opening
    assert isinstance(hole, Vent)
    radius = math.sqrt(0.0128 / math.pi)
    assert hole.effective_length == pytest.approx(0.002 + 16 / (3 * math.pi) * radius)
    with refused(AcousticsError, "between", "metal-thickness"):
        door_fates(volume=0.045, ql=2.5, factory=OLD, thickness=-0.001)
