"""Prismatoids and compound mitres against closed forms."""

import math

import pytest

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper


def test_prismatoid_and_not_a_pyramid():
    """V = h / 6 (A1 + A2 + 4 Am) = 0.022083 m³; h / 3 (A1 + A2 + √(A1 A2)) would be 0.022071.

    Source: prismatoid formula, from memory of any solid geometry text; 0.30 × 0.40 m below,
    0.20 × 0.30 m above, 0.25 m high.
    """
    box = four_sided_taper(bottom=(0.3, 0.4), top=(0.2, 0.3), height=0.25, thickness=0.01)
    assert box.outer_volume == pytest.approx(0.0220833, abs=5e-8)
    assert abs(box.outer_volume - 0.022071) > 1e-5


@pytest.mark.parametrize(
    ("sides", "lean", "bevel", "mitre", "dihedral"),
    [
        (4, 45, 30.0, 35.2644, 120.0),
        (4, 10, 44.1360, 9.8511, 91.7279),
        (4, 0, 45.0, 0.0, 90.0),
        (6, 20, 28.0243, 11.1702, 123.9514),
    ],
)
def test_compound_mitre(sides, lean, bevel, mitre, dihedral):
    """sin bevel = cos t · sin(180°/n), tan mitre = sin t · tan(180°/n), dihedral 180° − 2 bevel.

    Source: compound-mitre formulas of woodwork, common practice, no source.
    """
    turns = [2 * math.pi * k / sides for k in range(sides)]
    plan = Profile(points=tuple((0.4 * math.cos(a), 0.4 * math.sin(a)) for a in turns))
    box = Taper(plan=plan, height=0.2, leans=math.radians(lean), thickness=0.012)
    panel = panels(box)[1]
    assert math.degrees(panel.cuts[1].bevel) == pytest.approx(bevel, abs=1e-4)
    assert math.degrees(panel.cuts[3].bevel) == pytest.approx(bevel, abs=1e-4)
    assert math.degrees(panel.cuts[1].slant) == pytest.approx(mitre, abs=1e-4)
    assert math.degrees(panel.cuts[3].slant) == pytest.approx(mitre, abs=1e-4)
    assert math.degrees(box.dihedral(1)) == pytest.approx(dihedral, abs=1e-4)
