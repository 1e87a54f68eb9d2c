"""R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395."""

import math

import pytest

from acoustics.air.air import Air
from acoustics.circuit.solver import sweep
from acoustics.driver.combination import combine
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import InfiniteBaffle
from tests.acoustics.drivers import REFERENCE


def test_two_forms_of_efficiency_agree() -> None:
    """(4 pi²/c³) fs³ Vas/Qes equals (rho/2 pi c) Bl² Sd²/(Re Mms²)."""
    d = REFERENCE
    other = 1.204 / (2 * math.pi * 343.2) * (d.bl * d.sd / d.mms) ** 2 / d.re
    assert d.efficiency == pytest.approx(other, rel=1e-12)


def test_efficiency_constant_in_dry_air_at_25_degrees() -> None:
    """rho/(2 pi c) is 5.445e-4 m²·s/kg, as the Thiele/Small encyclopaedia article prints."""
    d = Driver(
        fs=30, qms=5, qes=0.45, re=3.5, vas=0.06, sd=0.049,
        air=Air(density=1.1843, speed_of_sound=346.13),
    )  # fmt: skip
    constant = d.efficiency * d.re * (d.mms / (d.bl * d.sd)) ** 2
    assert constant == pytest.approx(5.445e-4, rel=1e-3)


@pytest.mark.parametrize(
    ("resistance", "loss"),
    # Small: Qes' = Qes (Re + Rg)/Re; level at fixed voltage falls by 20 log10((Re + Rg)/Re).
    [(0.2, -0.483), (0.5, -1.160), (1.0, -2.183)],
)
def test_series_resistance(resistance: float, loss: float) -> None:
    """Cable resistance lowers the passband and raises the impedance by itself."""
    level = REFERENCE.reference_level(series_resistance=resistance)
    assert level - REFERENCE.reference_level() == pytest.approx(loss, abs=6e-4)
    solved = sweep(
        driver=REFERENCE, box=InfiniteBaffle(), frequencies=[30.0], series_resistance=resistance
    )
    # Re (1 + Qms/Qes) at resonance.
    assert abs(solved.impedance[0]) == pytest.approx(42.3889 + resistance, abs=1e-4)


PAIRS = {
    # wiring: Re, Vas, efficiency, level at 1 W, level at 2.83 V; Small's equations for two drivers.
    "parallel": ({"parallel": 2}, 1.75, 0.120, 7.03154e-3, 90.630, 97.235),
    "series": ({"series": 2}, 7.0, 0.120, 7.03154e-3, 90.630, 91.215),
    "isobaric parallel": (
        {"parallel": 2, "isobaric": True},
        1.75,
        0.030,
        1.75788e-3,
        84.609,
        91.215,
    ),
    "isobaric series": ({"series": 2, "isobaric": True}, 7.0, 0.030, 1.75788e-3, 84.609, 85.194),
}


@pytest.mark.parametrize("pair", PAIRS)
def test_two_drivers(pair: str) -> None:
    """Two equal drivers keep fs and Q; volume, efficiency and level follow the wiring."""
    how, re, vas, efficiency, one_watt, fixed_voltage = PAIRS[pair]
    d = combine(REFERENCE, **how)
    assert (d.fs, d.qes, d.qms) == (30, 0.45, 5.0)
    assert (d.re, d.vas) == pytest.approx((re, vas))
    assert d.efficiency == pytest.approx(efficiency, rel=4e-6)
    assert d.reference_level(voltage=d.re**0.5) == pytest.approx(one_watt, abs=6e-4)
    assert d.reference_level(voltage=2.83) == pytest.approx(fixed_voltage, abs=6e-4)
