"""Where a fuse sits and what it carries: each limit itself is within, a millimetre more is not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.wiring import trees
from wiring.protection.fuse_checks import _carries, check_position

RUN = trees.run("P01", "battery", "block", length=4.0)
# 33 CFR 183.455(b): 7 in, 40 in in a sheath; ABYC E-11: 72 in sheathed on a battery. Up to
# 18 in of bare cable is common practice, no source. [m]
SEVEN, EIGHTEEN, FORTY, SEVENTY_TWO = (inches * 0.0254 for inches in (7, 18, 40, 72))


@pytest.mark.parametrize(
    ("distance", "sheathed", "at_battery", "code", "limit"),
    [
        (SEVEN, False, True, None, None),
        (SEVEN + 0.001, False, True, "fuse-beyond-178-mm", SEVEN),
        (EIGHTEEN, False, True, "fuse-beyond-178-mm", SEVEN),
        (EIGHTEEN + 0.001, False, True, "fuse-too-far", EIGHTEEN),
        (FORTY, True, False, None, None),
        (FORTY + 0.001, True, False, "fuse-too-far", FORTY),
        (FORTY, True, True, None, None),
        (FORTY + 0.001, True, True, "fuse-beyond-1016-mm", FORTY),
        (SEVENTY_TWO, True, True, "fuse-beyond-1016-mm", FORTY),
        (SEVENTY_TWO + 0.001, True, True, "fuse-too-far", SEVENTY_TWO),
        (None, True, True, "fuse-distance-unknown", FORTY),
        (4.0, True, True, "fuse-too-far", SEVENTY_TWO),
        (4.001, True, True, "fuse-beyond-run-end", 4.0),
    ],
)
def test_a_fuse_sits_as_near_as_the_rules_ask(distance, sheathed, at_battery, code, limit):
    """What the sheath and the battery allow, by the rule that is broken."""
    fitted = replace(trees.fused(100, distance=distance), sheathed=sheathed)
    findings = list(check_position(RUN, "battery", fitted, at_battery=at_battery))
    assert [finding.code for finding in findings] == ([code] if code else [])
    for finding in findings:
        assert (finding.about, finding.detail, finding.value) == ("P01", ("start",), distance)
        assert finding.limit == pytest.approx(limit, abs=5e-4)


@pytest.mark.parametrize(
    ("current", "ambient", "code", "limit"),
    [
        # 80 A in a cabin of 40 °C: 80 · (1 - 0.005 · 15) = 74 A, three quarters 55.5 A.
        (55.5, None, None, None),
        (55.6, None, "fuse-load-above-75-percent", 55.5),
        (74.0, None, "fuse-load-above-75-percent", 55.5),
        (74.1, None, "fuse-below-load", 74.0),
        # Where its own air is said, that counts: 80 A at 25 °C.
        (60.0, 25.0, None, None),
        (60.1, 25.0, "fuse-load-above-75-percent", 60.0),
        (80.1, 25.0, "fuse-below-load", 80.0),
    ],
)
def test_a_fuse_carries_three_quarters_of_what_it_has_in_its_air(current, ambient, code, limit):
    """Above it looks, above the rating it does not hold; the air is that of the run or its own."""
    fitted = replace(trees.fused(80), ambient=ambient)
    findings = list(_carries(RUN, "battery", fitted, current, ("music",)))
    assert [finding.code for finding in findings] == ([code] if code else [])
    for finding in findings:
        assert (finding.value, finding.limit) == (current, pytest.approx(limit))
        assert (finding.detail, finding.state) == (("start",), ("music",))
