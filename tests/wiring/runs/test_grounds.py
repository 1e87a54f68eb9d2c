"""Ground points: bare metal, resistance, lugs on a stud, and what hums."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wiring.runs.returns import Ground, Return, check_grounds

AMPLIFIER = Return(run="run 1", current=100.0, audio=True)
STUD = Ground(id="stud", kind="body", bare=True, resistance=0.4e-3, returns=(AMPLIFIER,))


def _codes(*grounds: Ground, commanded: bool | None = False) -> dict[str, tuple[str, ...]]:
    return {f.code: (f.about, *f.detail) for f in check_grounds(grounds, commanded=commanded)}


def test_a_bare_measured_stud_says_nothing():
    """0.4 mΩ at 100 A is 40 mV: below the 0.5 mΩ kept above 50 A (common practice, no source)."""
    assert _codes(STUD) == {}


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        # AC 43.13-1B, 11-188: bare metal where the lug sits.
        ({"bare": False}, "ground-not-bare"),
        ({"bare": None}, "ground-surface-unknown"),
        ({"resistance": 0.6e-3}, "ground-resistance-high"),
        ({"resistance": None}, "ground-resistance-unknown"),
        # AC 43.13-1B, 11-174b: four terminals on a stud at the most.
        ({"returns": (AMPLIFIER,) * 5, "resistance": 0.0}, "ground-lugs-many"),
    ],
)
def test_each_lack_of_a_stud_is_named(changed, code):
    """One thing wrong at a time."""
    assert code in _codes(replace(STUD, **changed))


def test_a_light_current_stands_what_a_bond_may_have():
    """AC 43.13-1B, 11-188f: 2.5 mΩ; more is high at any current."""
    light = replace(STUD, returns=(replace(AMPLIFIER, current=10.0),), resistance=2.4e-3)
    assert _codes(light) == {}
    assert "ground-resistance-high" in _codes(replace(light, resistance=2.6e-3))


def test_a_sensed_post_takes_no_return():
    """Where the car commands its charging; where nobody knows, another finding asks."""
    post = replace(STUD, kind="post")
    assert _codes(post, commanded=True) == {"ground-on-sensed-post": ("stud",)}
    assert _codes(post, commanded=None) == {}


def test_stages_grounded_apart_differ_by_what_each_loses():
    """By hand: 0.4 mΩ × 100 A less 0.4 mΩ × 50 A is 20 mV, 40 dB below 2 V; unknown stays so."""
    other = replace(STUD, id="other", returns=(replace(AMPLIFIER, current=50.0),))
    [hum] = check_grounds([STUD, other], commanded=False)
    assert (hum.code, hum.about, hum.detail) == ("hum-grounds-apart", "stud", ("other",))
    assert hum.value == pytest.approx(-40.0)
    unread = replace(other, kind="block", resistance=None)
    [hum] = check_grounds([STUD, unread], commanded=False)
    assert hum.value is None


def test_a_shared_way_back_lifts_all_that_hang_on_it():
    """0.3 mΩ × 100 A = 30 mV: 36.5 dB below 2 V, by hand."""
    shared = replace(STUD, resistance=0.3e-3, returns=(AMPLIFIER, AMPLIFIER), together=100.0)
    [hum] = check_grounds([shared], commanded=False)
    assert hum.code == "hum-shared-drop"
    assert hum.value == pytest.approx(-36.478, abs=1e-3)


def test_what_is_no_sound_hums_not():
    """A lamp at another stud is nobody's hum."""
    lamp = replace(STUD, id="lamp", returns=(replace(AMPLIFIER, audio=False),))
    assert _codes(STUD, lamp) == {}
