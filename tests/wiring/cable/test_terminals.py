"""Crimps, terminal metals, bends, supports, grommets."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from wiring.cable.conductor import METALS, awg_area
from wiring.cable.terminals import (
    CrimpTerminal,
    Passage,
    bend_radius,
    check_bend,
    check_passages,
    check_terminal,
    pull_force,
    support_count,
)
from wiring.errors import OutOfRangeError, OutsideTableError

COPPER = frozenset({"copper"})


def test_size_between_two_rounds_the_force_up() -> None:
    """2.5 mm² lies between 14 and 12 AWG and takes the force of 12 AWG (safe side)."""
    assert pull_force(2.5e-6).size == "12"
    assert pull_force(awg_area("12")).size == "12"


def test_beyond_the_table_is_an_error() -> None:
    """3/0 AWG is in no published column; nothing is extrapolated."""
    with refused(OutsideTableError, "at-most", "area"):
        pull_force(awg_area("3/0"))


@settings(deadline=None, max_examples=200)
@given(one=st.floats(0.1e-6, 67e-6), two=st.floats(0.1e-6, 67e-6))
def test_thicker_wire_never_needs_less_force(one: float, two: float) -> None:
    """The force to test with never falls as the conductor grows."""
    thin, thick = sorted((one, two))
    assert pull_force(thin).required <= pull_force(thick).required


@settings(deadline=None, max_examples=100)
@given(length=st.floats(0.01, 20.0), battery=st.booleans())
def test_supports_keep_the_spacing(length: float, battery: bool) -> None:
    """The count keeps every span within the limit and one fewer does not."""
    spacing = 0.3 if battery else 0.45
    count = support_count(length, battery_cable=battery)
    assert length / count <= spacing * (1 + 1e-6)
    assert count == 1 or length / (count - 1) > spacing * (1 - 1e-6)


def test_bend_radius_takes_the_larger() -> None:
    """Maker's figure wins when larger; a screened cable takes twelve diameters."""
    assert bend_radius(outer_diameter=0.010) == pytest.approx(0.040)
    assert bend_radius(outer_diameter=0.010, maker_radius=0.060) == pytest.approx(0.060)
    assert bend_radius(outer_diameter=0.010, maker_radius=0.020) == pytest.approx(0.040)
    assert bend_radius(outer_diameter=0.006, screened=True) == pytest.approx(0.072)


@pytest.mark.parametrize(
    ("radius", "diameter", "codes"),
    [
        (0.040, 0.010, []),
        (0.039, 0.010, ["bend-too-tight"]),
        (None, 0.010, ["bend-radius-unknown"]),
        (0.040, None, ["outer-diameter-unknown"]),
    ],
)
def test_bend_findings(radius: float | None, diameter: float | None, codes: list[str]) -> None:
    """A bend below the limit, or one nobody measured, is a finding."""
    found = check_bend(radius=radius, outer_diameter=diameter, about="P01")
    assert [f.code for f in found] == codes


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("metals", [None, COPPER, frozenset(METALS)])
def test_terminal_metal(metal: str, metals: frozenset[str] | None) -> None:
    """Copper-only terminals on another metal stop; an unknown rating is asked for."""
    terminal = CrimpTerminal(name="ring M8", metals=metals, torque=9.6)
    found = [f.code for f in check_terminal(terminal, metal=metal, about="P01 start")]
    if metal == "copper" or metals == frozenset(METALS):
        assert found == []
    elif metals is None:
        assert found == ["terminal-metal-unknown"]
    else:
        assert found == ["terminal-unsuited-to-metal"]


def test_torque_is_asked_for_and_never_guessed() -> None:
    """A stud without a figure from the part's sheet is a finding; a plug has no torque."""
    stud = CrimpTerminal(name="ring M8", metals=COPPER)
    plug = CrimpTerminal(name="plug", metals=COPPER, on_stud=False)
    assert [f.code for f in check_terminal(stud, metal="copper", about="P01")] == [
        "stud-torque-unknown"
    ]
    assert check_terminal(plug, metal="copper", about="P01") == ()


@pytest.mark.parametrize(
    ("metal", "grommet", "codes"),
    [
        (True, True, []),
        (True, False, ["grommet-missing"]),
        (True, None, ["passage-unknown"]),
        (False, None, []),
        (False, False, []),
        (None, True, []),
        (None, False, ["passage-unknown"]),
        (None, None, ["passage-unknown"]),
    ],
)
def test_passages(metal: bool | None, grommet: bool | None, codes: list[str]) -> None:
    """A bare cable through metal stops; what nobody recorded is asked for."""
    passage = Passage(id="firewall", place="firewall", metal=metal, grommet=grommet)
    found = check_passages([passage], about="P01")
    assert [f.code for f in found] == codes
    assert all(f.detail == ("firewall",) for f in found)


@pytest.mark.parametrize(
    "broken",
    [
        lambda: pull_force(0.0),
        lambda: bend_radius(outer_diameter=0.0),
        lambda: bend_radius(outer_diameter=0.01, maker_radius=-0.1),
        lambda: support_count(0.0, battery_cable=True),
        lambda: support_count(float("nan"), battery_cable=True),
        lambda: CrimpTerminal(name="ring", metals=None, torque=0.0),
        lambda: check_bend(radius=0.0, outer_diameter=0.01, about="P01"),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()
