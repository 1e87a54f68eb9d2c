"""R. H. Small, "Vented-Box Loudspeaker Systems", JAES 21 (1973), parts I to IV; leakage QL = 7."""

import math

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.enclosure.alignments import Shape, align, align_shape, chebyshev
from acoustics.enclosure.boxes import Vented
from tests.acoustics.drivers import REFERENCE, REFERENCE_VOLTAGE

# Part I gives a1, a2, a3 with leakage and their inversion; the family for QL = 7 is its figure 11.
# The values are that inversion evaluated by an independent script, checked against a circuit.
QL7 = [
    (Shape.QUASI_BUTTERWORTH, 0.15, 2.5712, 14.678, 3.4381),
    (Shape.QUASI_BUTTERWORTH, 0.20, 1.9393, 7.7775, 2.5289),
    (Shape.QUASI_BUTTERWORTH, 0.25, 1.5629, 4.5822, 1.9667),
    (Shape.QUASI_BUTTERWORTH, 0.30, 1.3145, 2.8452, 1.5732),
    (Shape.QUASI_BUTTERWORTH, 0.35, 1.1395, 1.7964, 1.2702),
    (Shape.QUASI_BUTTERWORTH, 0.40, 1.0106, 1.1141, 1.0214),
    (Shape.CHEBYSHEV, 0.42, 0.9662, 0.9113, 0.9373),
    (Shape.CHEBYSHEV, 0.45, 0.8992, 0.6868, 0.8348),
    (Shape.CHEBYSHEV, 0.50, 0.8031, 0.4642, 0.7155),
    (Shape.CHEBYSHEV, 0.55, 0.7321, 0.3453, 0.6393),
    (Shape.CHEBYSHEV, 0.60, 0.6805, 0.2749, 0.5884),
    (Shape.SUB_CHEBYSHEV, 0.25, 1.0338, 3.8961, 2.3949),
    (Shape.SUB_CHEBYSHEV, 0.30, 1.1028, 2.8062, 1.7137),
    (Shape.SUB_CHEBYSHEV, 0.35, 1.0926, 1.8347, 1.2986),
]


@pytest.mark.parametrize(("shape", "qts", "h", "alpha", "f3"), QL7)
def test_alignments_with_leakage(
    shape: Shape, qts: float, h: float, alpha: float, f3: float
) -> None:
    """Every family with QL = 7 gives its tuning, compliance ratio and half-power frequency."""
    found = align_shape(shape, qts=qts, ql=7.0)
    assert (found.h, found.alpha, found.f3) == pytest.approx((h, alpha, f3), rel=1e-4, abs=5.1e-5)


# QL: QT and alpha of the Butterworth shape, h = 1, from the inversion.
BUTTERWORTH = {
    3.0: (0.43864, 0.65428),
    5.0: (0.41440, 0.93159),
    7.0: (0.40481, 1.06132),
    10.0: (0.39791, 1.16290),
    15.0: (0.39270, 1.24445),
}


@pytest.mark.parametrize("ql", BUTTERWORTH)
def test_butterworth_with_leakage(ql: float) -> None:
    """Leakage asks a Butterworth box for a higher QT and more volume."""
    found = align(chebyshev(1.0), ql=ql)
    assert (found.qts, found.alpha) == pytest.approx(BUTTERWORTH[ql], abs=6e-6)
    assert found.h == pytest.approx(1.0, abs=1e-9)


# Small's circuit by an independent script; ngspice 39 agrees to 0.001 dB:
# 60 L, fb 30 Hz, 18.7083 V rms: SPL [dB], peak excursion [mm], volume velocity of port [m³/s rms].
D0_60_LITRES = {
    "leak": {
        15: (83.641, 15.5418, 0.067364),
        20: (93.592, 11.5681, 0.089359),
        25: (100.737, 6.2755, 0.104153),
        30: (105.038, 2.1633, 0.098902),
        40: (107.498, 5.0925, 0.055380),
        60: (107.724, 3.8854, 0.016841),
        100: (107.662, 1.6795, 0.003612),
    },
    "all losses": {
        15: (83.483, 15.3320, 0.066100),
        20: (93.309, 11.3097, 0.086459),
        25: (100.315, 6.1874, 0.099193),
        30: (104.581, 2.4835, 0.093819),
        40: (107.241, 5.0066, 0.053769),
        60: (107.633, 3.8566, 0.016669),
        100: (107.625, 1.6754, 0.003599),
    },
}


@pytest.mark.parametrize("losses", D0_60_LITRES)
def test_reference_driver_in_60_litres(losses: str) -> None:
    """Level, excursion and port flow of the reference driver in a vented box."""
    q = {"ql": 7.0} if losses == "leak" else {"ql": 7.0, "qa": 100.0, "qp": 50.0}
    area = math.pi / 4 * 0.1**2
    box = Vented.tuned(volume=0.060, frequency=30.0, area=area, **q)
    table = D0_60_LITRES[losses]
    solved = sweep(driver=REFERENCE, box=box, frequencies=list(table), voltage=REFERENCE_VOLTAGE)
    spl, excursion, flow = np.array(list(table.values())).T
    assert solved.spl == pytest.approx(spl, abs=0.0011)
    assert solved.excursion * 1e3 == pytest.approx(excursion, rel=1e-4)
    assert solved.port_speed == pytest.approx(flow * math.sqrt(2) / area, rel=2e-4)


def test_port_speed_and_reynolds_number() -> None:
    """A 100 mm port carries 18.75, 17.81 and 9.97 m/s at 25, 30 and 40 Hz; 1.13e5 at 17 m/s."""
    box = Vented.tuned(volume=0.060, frequency=30.0, area=math.pi / 4 * 0.1**2, ql=7.0)
    solved = sweep(driver=REFERENCE, box=box, frequencies=[25, 30, 40], voltage=REFERENCE_VOLTAGE)
    assert solved.port_speed == pytest.approx([18.75, 17.81, 9.97], abs=0.005)
    assert solved.port_speed is not None
    assert solved.reynolds_number is not None
    # Definition: rho v d / viscosity, with 1.81e-5 Pa·s (from memory).
    assert solved.reynolds_number / solved.port_speed * 17 == pytest.approx(1.13e5, rel=2e-3)


def test_impedance_peaks_of_a_lossless_box() -> None:
    """Peaks at fL and fH lie so that fs = fL fH / fb and alpha follows from the three."""
    box = Vented.tuned(volume=0.060, frequency=30.0, area=0.01)
    f = np.linspace(15, 55, 40001)
    z = abs(sweep(driver=REFERENCE, box=box, frequencies=f).impedance)
    peaks = f[1:-1][(z[1:-1] > z[:-2]) & (z[1:-1] > z[2:])]
    low, high = peaks
    # The formulas are Thiele's; 18.54102 and 48.54102 Hz are the roots of (f² - fb²)² = f² fs²/1.
    assert (low, high) == pytest.approx((18.54102, 48.54102), abs=2e-3)
    assert low * high / 30 == pytest.approx(30.0, rel=1e-4)
    alpha = (high**2 - 900) * (900 - low**2) / (high * low) ** 2
    assert alpha == pytest.approx(1.0, rel=1e-3)


@pytest.mark.parametrize(("qts", "off"), [(0.30, 0.08), (0.40, 0.08), (0.50, 0.07)])
def test_regression_formulas_are_near_the_exact_solution(qts: float, off: float) -> None:
    """Vb = 20 QT^3.3 Vas and fb = 0.42 QT^-0.96 fs stay near the exact families, QL = 7.

    D. B. Margolis & R. H. Small, JAES 29 (1981) 421 (from memory); a sanity check only.
    """
    shape = Shape.CHEBYSHEV if qts > 0.40481 else Shape.QUASI_BUTTERWORTH
    found = align_shape(shape, qts=qts, ql=7.0)
    assert 1 / (20 * qts**3.3) == pytest.approx(found.alpha, rel=off)
    assert 0.42 * qts**-0.96 == pytest.approx(found.h, rel=0.02)
