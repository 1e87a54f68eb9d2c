"""Which figure of a data sheet is the wrong one, told by all the others."""

import pytest

from acoustics.driver.completion import complete_driver, misread_figures
from tests.acoustics.driver.test_completion import FULL

# A whole sheet as it is printed: the mass and the compliance stand in it, not the efficiency.
SHEET = {name: value for name, value in FULL.items() if name != "efficiency"}


def test_a_sheet_that_agrees_names_nobody() -> None:
    """Figures rounded as sheets round them, within the tolerance, contradict nothing."""
    assert misread_figures(SHEET) == ()
    assert misread_figures({n: float(f"{v:.2g}") for n, v in SHEET.items()}) == ()


@pytest.mark.parametrize("name", SHEET)
@pytest.mark.parametrize("factor", [0.1, 10.0, 1000.0])
def test_a_slip_of_the_decimal_mark_is_named(name: str, factor: float) -> None:
    """One figure ten or a thousand times off is the one named, with what it should be."""
    suspects = misread_figures({**SHEET, name: SHEET[name] * factor})
    assert [suspect.name for suspect in suspects] == [name]
    assert suspects[0].expected == pytest.approx(SHEET[name], rel=0.02)
    assert suspects[0].value == pytest.approx(SHEET[name] * factor)


@pytest.mark.parametrize("name", SHEET)
def test_another_slip_is_among_those_named(name: str) -> None:
    """A figure a third too high is named, alone or beside the one that could be wrong instead."""
    suspects = misread_figures({**SHEET, name: SHEET[name] * 1.3})
    assert name in [suspect.name for suspect in suspects]
    assert len(suspects) <= 2


def test_of_three_the_slip_is_found() -> None:
    """Qts 0.52 beside Qes 5.8 and Qms 5.2: 1/Qts = 1/Qes + 1/Qms, read 0.58 for either."""
    suspects = misread_figures({"qts": 0.52, "qes": 5.8, "qms": 5.2})
    assert {suspect.name for suspect in suspects} == {"qes", "qms"}
    by_name = {suspect.name: suspect.expected for suspect in suspects}
    # Second method: 1/(1/0.52 - 1/5.2), by hand.
    assert by_name["qes"] == pytest.approx(1 / (1 / 0.52 - 1 / 5.2))


def test_two_wrong_ones_are_not_pinned_on_one() -> None:
    """Where no single figure explains it, none is accused."""
    assert misread_figures({**SHEET, "fs": 90.0, "mms": SHEET["mms"] * 4.0}) == ()


def test_the_finding_blames_the_wrong_figure() -> None:
    """A Qes ten times off is the finding's subject, not the Bl that was right."""
    contradicted = complete_driver(**{**SHEET, "qes": 10 * SHEET["qes"]}).findings
    assert [finding.detail for finding in contradicted] == [("qes",)]
    assert contradicted[0].limit == pytest.approx(SHEET["qes"], rel=0.02)
