"""Ampacity against 33 CFR 183.425 Table 5, its notes, and published correction tables."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from wiring.cable.ampacity import (
    TABLE_5_CLASSES,
    ambient_factor,
    ampacity,
    bundle_factor,
)
from wiring.cable.conductor import awg, metric, sae
from wiring.errors import (
    InsulationTooColdError,
    OutOfRangeError,
    OutsideTableError,
    UnknownDataError,
)

# 33 CFR 183.425, Table 5 (ecfr.gov): 60 75 80 90 105 125 200 °C
TABLE_5 = """
18 10 10 15 20 20 25 25
16 15 15 20 25 25 30 35
14 20 20 25 30 35 40 45
12 25 25 35 40 45 50 55
10 40 40 50 55 60 70 70
8 55 65 70 70 80 90 100
6 80 95 100 100 120 125 135
4 105 125 130 135 160 170 180
3 120 145 150 155 180 195 210
2 140 170 175 180 210 225 240
1 165 195 210 210 245 265 280
1/0 195 230 245 245 285 305 325
2/0 225 265 285 285 330 355 370
3/0 260 310 330 330 385 410 430
4/0 300 360 385 385 445 475 510
"""
ROWS = {line.split()[0]: [int(x) for x in line.split()[1:]] for line in TABLE_5.split("\n") if line}


@pytest.mark.parametrize("size", ROWS)
def test_table_5_is_exact(size: str) -> None:
    """Every cell of the table, copper, 30 °C, up to two conductors."""
    for insulation, amperes in zip(TABLE_5_CLASSES, ROWS[size], strict=True):
        assert ampacity(awg(size, insulation=insulation)).current == amperes


# Note 1 of Table 5, engine spaces of 50 °C; at 200 °C it prints 1.00, which no physics gives.
NOTE_1 = {60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89}


@pytest.mark.parametrize("size", ROWS)
def test_engine_space(size: str) -> None:
    """In air of 50 °C a conductor carries its row times note 1, within the note's own rounding."""
    for insulation, amperes in zip(TABLE_5_CLASSES, ROWS[size], strict=True):
        if insulation in NOTE_1:
            ours = ampacity(awg(size, insulation=insulation), ambient=50).current
            assert ours / amperes == pytest.approx(NOTE_1[insulation], abs=0.0065)


# Note 2 of Table 5, 70, 60 and 50 % of the row: 1-2, 3, 4-6, 7-24 conductors of 105 °C.
@pytest.mark.parametrize(
    ("size", "row"), [("18", (20, 14, 12, 10)), ("4/0", (445, 311.5, 267, 222.5))]
)
def test_bundles(size: str, row: tuple[float, ...]) -> None:
    """Bundled conductors carry less, at 12 V too."""
    conductor = awg(size, insulation=105)
    for counts, amperes in zip(((1, 2), (3,), (4, 5, 6), (7, 24)), row, strict=True):
        for count in counts:
            assert ampacity(conductor, bundled=count).current == pytest.approx(amperes, abs=1e-9)


# Canadian Electrical Code, Table 5A, 30 °C base.
CEC_5A = {
    40: (0.82, 0.88, 0.91, 0.93, 0.95, 0.97),
    50: (0.58, 0.75, 0.82, 0.86, 0.89, 0.94),
    60: (None, 0.58, 0.71, 0.77, 0.83, 0.91),
    65: (None, 0.47, 0.65, 0.73, 0.79, 0.89),
}


@pytest.mark.parametrize("ambient", CEC_5A)
def test_ambient_factor(ambient: int) -> None:
    """The square-root law reproduces the Canadian table within 0.01."""
    for insulation, factor in zip((60, 75, 90, 105, 125, 200), CEC_5A[ambient], strict=True):
        if factor is None:
            with pytest.raises(InsulationTooColdError):
                ambient_factor(insulation=insulation, ambient=ambient)
        else:
            ours = ambient_factor(insulation=insulation, ambient=ambient)
            assert ours == pytest.approx(factor, abs=0.01)


def test_worked_derating() -> None:
    """4 AWG 105 °C at 65 °C carries 116.8 A, three bundled 81.8 A (160 A × sqrt(40/75) × 0.7)."""
    conductor = awg("4", insulation=105)
    assert ampacity(conductor, ambient=65).current == pytest.approx(116.8, abs=0.06)
    assert ampacity(conductor, ambient=65, bundled=3).current == pytest.approx(81.8, abs=0.06)


def test_metric_takes_the_gauge_below() -> None:
    """25 mm² counts as 4 AWG (21.15 mm²), 16 mm² as 6 AWG, 10 mm² as 8 AWG, never more."""
    for area, size in ((25, "4"), (16, "6"), (10, "8"), (2.5, "14")):
        ours = ampacity(metric(area * 1e-6, insulation=105)).current
        assert ours == ROWS[size][4]
    # 35 mm² of class 5 has more ohms than 2 AWG: derated for equal heat below its 210 A.
    assert 180 < ampacity(metric(35e-6, insulation=105)).current < 210


def test_less_metal_or_worse_metal_carries_less() -> None:
    """SAE and copper-clad sizes give off the heat of the table's conductor, not more."""
    copper = awg("4", insulation=105)
    for other in (
        sae("4", insulation=105),
        awg("4", metal="copper_clad_aluminium_10", insulation=105),
        awg("4", metal="aluminium", insulation=105),
    ):
        ours = ampacity(other).current
        heat = ours**2 * other.resistance(20)
        assert ours < 160
        assert heat == pytest.approx(160**2 * copper.resistance(20), rel=1e-9)


def test_the_sheet_goes_first() -> None:
    """A current from the part's sheet replaces the table, and its source is told."""
    conductor = metric(
        0.5e-6, insulation=105, rated_current=9, rated_ambient=40, rated_source="cable sheet"
    )
    carries = ampacity(conductor, ambient=40)
    assert (carries.current, carries.source) == (9, "cable sheet")
    assert ampacity(conductor, ambient=80).current == pytest.approx(9 * (25 / 65) ** 0.5)


def test_outside_the_table() -> None:
    """Thin cable, cool classes, unknown classes and thick bundles are refused, not guessed."""
    with refused(OutsideTableError, "at-least", "area"):
        ampacity(metric(0.5e-6, insulation=105))
    with refused(OutsideTableError, "at-least", "insulation-class"):
        ampacity(awg("4", insulation=55))
    with refused(UnknownDataError, "entered", "insulation-class"):
        ampacity(awg("4"))
    with refused(OutsideTableError, "at-most", "bundle", value=25, limit=24):
        bundle_factor(25)
    with refused(OutOfRangeError, "at-least", "bundle", value=0, limit=1):
        bundle_factor(0)
    assert bundle_factor(1) == 1.0


@given(
    area=st.floats(0.83, 120),
    more=st.floats(1, 2),
    insulation=st.sampled_from((60.0, 70.0, 75.0, 85.0, 105.0, 125.0, 150.0, 200.0)),
    ambient=st.floats(-20, 55),
    hotter=st.floats(0, 30),
)
@settings(deadline=None)
def test_more_metal_never_less_and_hotter_never_more(
    area: float, more: float, insulation: float, ambient: float, hotter: float
) -> None:
    """A larger area never lowers ampacity, hotter air never raises it."""
    small = ampacity(metric(area * 1e-6, insulation=insulation), ambient=ambient).current
    if area * more <= 120:
        large = ampacity(metric(area * more * 1e-6, insulation=insulation), ambient=ambient)
        assert large.current >= small * (1 - 1e-12)
    if ambient + hotter < insulation:
        hot = ampacity(metric(area * 1e-6, insulation=insulation), ambient=ambient + hotter)
        assert hot.current <= small
