"""R. H. Small, "Passive-Radiator Loudspeaker Systems", JAES 22 (1974) 592-601 and 683-689."""

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import PassiveRadiatorBox
from tests.acoustics.drivers import REFERENCE, passive_cone

CONE = passive_cone(fp=15.0, qmp=10.0, vap=0.120, sd=0.0490)
BOX = PassiveRadiatorBox(volume=0.060, radiator=CONE, ql=7.0)


def test_mass_and_tuning() -> None:
    """Mmp = 1/(wp² Cmp) and fb = fp sqrt(1 + Vap/Vb)."""
    assert CONE.mms == pytest.approx(0.31944, abs=5e-6)
    assert BOX.resonance() == pytest.approx(15 * 3**0.5, rel=1e-12)


def test_notch_lies_at_the_cone_resonance() -> None:
    """Part II: the response is nearly that of a vented box with a notch where the cone resonates.

    With the cone's losses small the notch sits at fp, and added mass moves it down with fp.
    """
    f = np.linspace(8, 20, 2401)
    for added in (0.0, 0.1):
        cone = passive_cone(fp=15.0, qmp=1e4, vap=0.120, sd=0.0490, added_mass=added)
        box = PassiveRadiatorBox(volume=0.060, radiator=cone)
        spl = sweep(driver=REFERENCE, box=box, frequencies=f).spl
        assert f[spl.argmin()] == pytest.approx(
            15.0 * (0.31944 / (0.31944 + added)) ** 0.5, abs=0.006
        )
