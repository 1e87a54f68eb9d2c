"""Heat of amplifiers and the look it deserves."""

import pytest

from wiring.supply.amplifier import Amplifier, AmplifierClass
from wiring.supply.heat import amplifier_heat, check_heat

# Invented.
LINEAR = Amplifier(
    id="A1", stage=AmplifierClass.AB, rated_output=300.0, efficiency=0.6, idle_power=15.0
)
SWITCHING = Amplifier(
    id="A2", stage=AmplifierClass.D, rated_output=300.0, efficiency=0.85, idle_power=15.0
)


def test_linear_stage_worked_by_hand() -> None:
    """300 W at 60 % and 15 W idle: 15 + 485·√⅛ − 37.5 = 148.97 W at one eighth (by hand)."""
    assert amplifier_heat(LINEAR, 1 / 8).average == pytest.approx(148.97, abs=0.01)


def test_switching_stage_worked_by_hand() -> None:
    """300 W at 85 % and 15 W idle: 15 + 337.94/8 − 37.5 = 19.74 W at one eighth (by hand)."""
    assert amplifier_heat(SWITCHING, 1 / 8).average == pytest.approx(19.74, abs=0.01)
    assert amplifier_heat(SWITCHING, 1 / 8).worst == pytest.approx(300 / 0.85 - 300)


def test_switching_stage_stays_cooler() -> None:
    """On music a class D stage gives off less than a class AB stage of the same output."""
    linear, switching = (amplifier_heat(a, 1 / 8) for a in (LINEAR, SWITCHING))
    assert switching.average < linear.average
    assert linear.average <= linear.worst


@pytest.mark.parametrize(
    ("closed", "codes"),
    [
        (True, ["amplifier-in-closed-space"]),
        (None, ["amplifier-air-unknown"]),
        (False, []),
    ],
)
def test_closed_space_is_a_look(closed: bool | None, codes: list[str]) -> None:
    """A closed space, or one nobody looked at, asks for a person; an open one does not."""
    found = check_heat(LINEAR, share=1 / 8, closed_space=closed)
    assert [f.code for f in found] == codes
    assert all(f.severity == "look" and f.value == pytest.approx(148.97, abs=0.01) for f in found)
