"""End corrections and port lengths against published values and worked examples."""

import numpy as np
import pytest
from scipy import integrate, special

from acoustics.enclosure.port import (
    FLANGED_ROUND,
    FREE_ROUND,
    PISTON_ROUND,
    End,
    Port,
    RoundOpening,
    port_for_tuning,
    recommended_area,
)


def test_free_pipe_levine_schwinger() -> None:
    """0.6133: H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383, abstract.

    Their integral (1/π) ∫ ln[1/(2 I1 K1)] dx/x² evaluates to 0.6127 today, so 0.1 % is allowed.
    """

    def integrand(x: float) -> float:
        return float(-np.log(2.0 * special.i1e(x) * special.k1e(x)) / x**2)

    near, _ = integrate.quad(integrand, 1e-6, 1.0, limit=200)
    far, _ = integrate.quad(integrand, 1.0, np.inf, limit=200)
    assert pytest.approx(0.6133, abs=5e-5) == FREE_ROUND
    assert (near + far) / np.pi == pytest.approx(FREE_ROUND, rel=1.5e-3)


def test_flanged_pipe() -> None:
    """0.8217: A. Norris & I. Sheng, J. Sound Vib. 135 (1989) 85, from memory; piston is 8/(3π)."""
    assert pytest.approx(0.8217, abs=5e-5) == FLANGED_ROUND
    assert pytest.approx(0.84883, abs=5e-6) == PISTON_ROUND
    assert FLANGED_ROUND < PISTON_ROUND


# Worked by hand from Leff = c² S/((2π fb)² V) with c = 343.2 m/s, then the ends taken off.
WORKED = [
    # volume, fb, diameter, Leff, flanged + free, two free, two flanged
    (0.060, 30.0, 0.1000, 0.43394, 0.36219, 0.37261, 0.35177),
    (0.040, 35.0, 0.0750, 0.26900, 0.21519, 0.22300, 0.20737),
    (0.0283, 38.0, 0.0762, 0.33295, 0.27828, 0.28622, 0.27034),
    (0.100, 25.0, 0.1500, 0.84358, 0.73596, 0.75159, 0.72033),
]


@pytest.mark.parametrize(("volume", "fb", "diameter", "leff", "one", "free", "flanged"), WORKED)
def test_port_lengths(
    volume: float,
    fb: float,
    diameter: float,
    leff: float,
    one: float,
    free: float,
    flanged: float,
) -> None:
    """Four worked port lengths, each with three choices of ends, to 0.02 mm."""

    def port(outer: End, inner: End) -> Port:
        opening = RoundOpening(diameter=diameter)
        return port_for_tuning(fb, volume=volume, opening=opening, outer=outer, inner=inner)

    assert port(End.FLANGED, End.FREE).effective_length == pytest.approx(leff, abs=2e-5)
    assert port(End.FLANGED, End.FREE).length == pytest.approx(one, abs=2e-5)
    assert port(End.FREE, End.FREE).length == pytest.approx(free, abs=2e-5)
    assert port(End.FLANGED, End.FLANGED).length == pytest.approx(flanged, abs=2e-5)


def test_common_end_correction_of_a_round_port() -> None:
    """0.732 D for one flanged and one free end is common practice; ours stays within 2.5 % of it.

    It adds the rigid-piston 0.849 to 0.613; the true flanged pipe gives 0.717 D.
    """
    port = Port(opening=RoundOpening(diameter=0.1), length=0.1)
    assert port.end_correction / 0.1 == pytest.approx(0.732, rel=0.025)
    assert port.end_correction / 0.1 == pytest.approx(0.7175, abs=5e-4)


def test_pipe_resonance() -> None:
    """c/(2 Leff) of a 0.43394 m pipe is 395 Hz (by hand)."""
    port = port_for_tuning(30.0, volume=0.06, opening=RoundOpening(diameter=0.1))
    assert port.pipe_resonance() == pytest.approx(343.2 / (2 * 0.43394), rel=1e-4)


def test_recommended_area_of_a_vented_box() -> None:
    """0.8 fb Vd: R. H. Small, Vented-Box Loudspeaker Systems Part II (1973), from memory.

    A driver of 0.0490 m² and 10 mm at 30 Hz: 0.8 · 30 · 4.9e-4 = 0.01176 m², 122.4 mm across.
    """
    area = recommended_area(tuning=30.0, displacement=0.0490 * 0.010)
    assert area == pytest.approx(0.01176, rel=1e-9)
    assert np.sqrt(4 * area / np.pi) == pytest.approx(0.1224, abs=5e-5)
