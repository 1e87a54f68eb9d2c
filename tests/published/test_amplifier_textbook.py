"""Class B amplifiers against worked examples of a textbook.

R. Boylestad & L. Nashelsky, Electronic Devices and Circuit Theory, chapter 12 (class B
amplifier circuits), examples 12.8 and 12.9, page 699.
"""

import numpy as np
import pytest

from wiring.supply.amplifier import Amplifier, AmplifierClass


def test_example_12_8_efficiency_and_heat() -> None:
    """30 V into 16 Ω: 28.125 W out, 35.81 W in, 78.54 %, 5.7 W at most in each transistor."""
    ideal = Amplifier(
        id="A",
        stage=AmplifierClass.AB,
        rated_output=28.125,
        efficiency=np.pi / 4,
        idle_power=0.0,
    )
    assert ideal.efficiency == pytest.approx(0.7854, abs=5e-5)
    assert ideal.input_power(1.0) == pytest.approx(35.81, abs=0.005)
    assert ideal.worst_heat()[0] / 2 == pytest.approx(5.7, abs=0.05)


@pytest.mark.parametrize(("peak", "percent", "digits"), [(22.0, 72.0, 0.5), (6.0, 19.6, 0.05)])
def test_example_12_9_efficiency_at_part_output(peak: float, percent: float, digits: float) -> None:
    """24 V supply: 72 % at 22 V peak and 19.6 % at 6 V peak."""
    ideal = Amplifier(
        id="A",
        stage=AmplifierClass.AB,
        rated_output=100.0,
        efficiency=np.pi / 4,
        idle_power=0.0,
    )
    share = (peak / 24.0) ** 2
    efficiency = 100.0 * share / ideal.input_power(share)
    assert 100 * efficiency == pytest.approx(percent, abs=digits)


def test_worst_heat_is_where_theory_puts_it() -> None:
    """Worst heat of an ideal stage lies at 2/π of the supply voltage (same book, section 12.5)."""
    ideal = Amplifier(
        id="A",
        stage=AmplifierClass.AB,
        rated_output=100.0,
        efficiency=np.pi / 4,
        idle_power=0.0,
    )
    assert ideal.worst_heat()[1] == pytest.approx((2 / np.pi) ** 2)
