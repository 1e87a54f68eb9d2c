"""R. H. Small, "Closed-Box Loudspeaker Systems", JAES 20 (1972) 798-808, JAES 21 (1973) 11-18.

The papers' closed forms are evaluated here on their own; the numbers beside them are the papers'
second-order ratios to four places. Air is fixed at 1.204 kg/m³ and 343.2 m/s unless stated.
"""

import math

import numpy as np
import pytest

from acoustics.air.air import Air
from acoustics.circuit.solver import Sweep, sweep
from acoustics.circuit.targets import cost_of, sealed_for_q
from acoustics.driver.driver import Driver
from acoustics.enclosure.alignments import Shape
from acoustics.enclosure.boxes import Sealed
from acoustics.enclosure.closed_box import q_of_shape, resonance_and_q
from tests.acoustics.drivers import REFERENCE, driver_with_qts

F = np.geomspace(3, 3000, 2000)
BOX = Sealed(volume=0.040)  # alpha = 1.5 with the reference driver
FC = 30 * math.sqrt(2.5)

# Q: f3/fc, f6/fc, f10/fc, peak [dB], largest excursion over that at rest, greatest delay * fc.
# Small 1972, closed forms of the second-order high-pass.
RATIOS = {
    0.5: (1.5538, 1.0000, 0.6801, 0.0, 1.0, 0.3183),
    1 / math.sqrt(3): (1.2720, 0.8761, 0.6273, 0.0, 1.0, 0.2757),
    1 / math.sqrt(2): (1.0000, 0.7598, 0.5774, 0.0, 1.0, 0.2717),
    0.8: (0.8972, 0.7135, 0.5567, 0.2130, 1.0248, 0.2904),
    1.0: (0.7862, 0.6590, 0.5314, 1.2494, 1.1547, 0.3429),
    1.2: (0.7358, 0.6320, 0.5183, 2.4118, 1.3200, 0.4011),
    2.0: (0.6736, 0.5960, 0.5000, 6.3009, 2.0656, 0.6471),
}


def closed(q: float) -> Sweep:
    driver = driver_with_qts(q / math.sqrt(2.5))
    return sweep(driver=driver, box=BOX, frequencies=F, voltage=1.0)


@pytest.mark.parametrize("q", RATIOS)
def test_cutoff_ratios_of_a_closed_box(q: float) -> None:
    """Half power, half pressure and a tenth of power lie where Small's closed form says."""
    f3, f6, f10, *_ = RATIOS[q]
    solved = closed(q)
    assert solved.f3 / FC == pytest.approx(f3, abs=5e-5)
    assert solved.f6 / FC == pytest.approx(f6, abs=5e-5)
    assert solved.f10 / FC == pytest.approx(f10, abs=5e-5)
    b = 1 / q**2 - 2
    assert solved.f3 / FC == pytest.approx(math.sqrt((b + math.sqrt(b * b + 4)) / 2), rel=1e-6)


@pytest.mark.parametrize("q", RATIOS)
def test_peak_and_excursion_of_a_closed_box(q: float) -> None:
    """The response peak and the excursion rise as Q²/sqrt(Q² - 1/4)."""
    _, _, _, peak, excursion, _ = RATIOS[q]
    solved = closed(q)
    assert max(0.0, solved.spl.max() - solved.passband_level) == pytest.approx(peak, abs=1e-4)
    low = solved.at(frequencies=[0.01]).excursion
    assert max(1.0, solved.excursion.max() / low[0]) == pytest.approx(excursion, abs=1e-4)


@pytest.mark.parametrize("q", RATIOS)
def test_group_delay_of_a_closed_box(q: float) -> None:
    """Group delay follows Small's closed form at every frequency and peaks as tabulated."""
    solved = closed(q)
    w, wc = 2 * np.pi * F, 2 * np.pi * FC
    expected = (wc / q) * (wc**2 + w**2) / ((wc**2 - w**2) ** 2 + (w * wc / q) ** 2)
    assert solved.group_delay == pytest.approx(expected, rel=1e-5)
    assert solved.group_delay.max() * FC == pytest.approx(RATIOS[q][5], rel=4e-3)


def test_named_shapes_have_their_q() -> None:
    """Double pole 0.5, Bessel 0.5774, Butterworth 0.7071 and 1.2494 dB of ripple 1.0."""
    assert q_of_shape(Shape.DOUBLE_POLE) == 0.5
    assert q_of_shape(Shape.BESSEL) == pytest.approx(0.57735, abs=1e-5)
    assert q_of_shape(Shape.BUTTERWORTH) == pytest.approx(0.70711, abs=1e-5)
    assert q_of_shape(Shape.CHEBYSHEV, ripple=1.24939) == pytest.approx(1.0, abs=1e-5)


def test_butterworth_box_of_the_reference_driver() -> None:
    """alpha = (Qtc/Qts)² - 1 gives 31.0305 L and 51.3831 Hz."""
    box = sealed_for_q(REFERENCE, 1 / math.sqrt(2))
    alpha = (1 / math.sqrt(2) / float(REFERENCE.qts)) ** 2 - 1
    assert box.volume == pytest.approx(0.060 / alpha, rel=1e-9)
    assert box.volume == pytest.approx(31.0305e-3, abs=5e-8)
    cost = cost_of(REFERENCE, box)
    assert cost.resonance == pytest.approx(51.3831, abs=1e-4)
    assert cost.f3 == pytest.approx(51.3831, abs=1e-4)


def test_filling_lowers_the_resonance() -> None:
    """fc = fs sqrt(1 + alpha/g): 45.540, 44.497 and 43.177 Hz for g = 1.15, 1.25, 1.4."""
    fill = np.array([1.15, 1.25, 1.40])
    fc, q = resonance_and_q(REFERENCE, Sealed(volume=0.040, fill=fill))
    assert fc == pytest.approx([45.540, 44.497, 43.177], abs=0.001)
    # Qtc = Qts sqrt(1 + alpha/g).
    assert q == pytest.approx(float(REFERENCE.qts) * np.sqrt(1 + 1.5 / fill), rel=1e-9)


def test_efficiency_constant() -> None:
    """eta0 = k f3³ Vb with the three factors of Small's part I, in his air."""
    air = Air(density=1.18, speed_of_sound=345.0)
    for q, k_g in {0.5: 5.126e-7, 1 / math.sqrt(2): 1.360e-6, 1.1: 2.017e-6}.items():
        qts = q / math.sqrt(2.5)
        driver = Driver(
            fs=30.0, qms=5.0, qes=qts * 5 / (5 - qts), re=3.5, vas=0.06, sd=0.049, air=air
        )
        f3 = float(sweep(driver=driver, box=BOX, frequencies=F, air=air).f3)
        k = float(driver.efficiency) / (f3**3 * 0.040)
        # k(Q) = Qts/Qes, k(C) = alpha/(1 + alpha); k(G) is Small's, largest near Qtc = 1.1.
        assert k / float(driver.qts / driver.qes) / 0.6 == pytest.approx(k_g, rel=3e-4)
