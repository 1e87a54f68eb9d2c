"""What screws hold by in wood: a barrel no longer than its wood, nothing unknown in silence."""

from __future__ import annotations

import pytest

from acoustics.carcass.shape.inside.fastener import Fastener, check_fastener

T_NUT = Fastener(name="T", kind="t_nut", thread="M5", barrel=0.012, hole=0.0065)


@pytest.mark.parametrize(("wood", "codes"), [
    (0.018, []), (0.012, []), (0.0119, ["barrel-longer-than-wood"]),
])  # fmt: skip
def test_a_barrel_is_no_longer_than_its_wood(wood, codes):
    """By hand: 12 mm of barrel go into 12 mm of wood and not into 11.9."""
    assert [finding.code for finding in check_fastener(T_NUT, wood)] == codes


@pytest.mark.parametrize(("fastener", "codes"), [
    (Fastener(name="T", kind="t_nut"),
     ["barrel-unknown", "fastener-hole-unknown", "fastener-thread-unknown"]),
    # A wood screw has no barrel.
    (Fastener(name="S", kind="screw", thread="4 × 40", hole=0.0025), []),
])  # fmt: skip
def test_what_nobody_has_read_is_found(fastener, codes):
    """A barrel, a hole or a thread that is not known is said."""
    assert [finding.code for finding in check_fastener(fastener, 0.018)] == codes
