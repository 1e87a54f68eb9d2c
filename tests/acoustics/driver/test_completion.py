"""Completing a driver from any sufficient subset of its parameters."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.driver.completion import complete_driver
from acoustics.driver.driver import Driver
from acoustics.errors import ContradictionError, MissingError, OutOfRangeError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused

FULL = {
    "fs": 30.0,
    "qes": 0.45,
    "qms": 5.0,
    "re": 3.5,
    "sd": 0.049,
    "vas": 0.06,
    "mms": float(REFERENCE.mms),
    "cms": float(REFERENCE.cms),
    "bl": float(REFERENCE.bl),
    "rms": float(REFERENCE.rms),
    "qts": float(REFERENCE.qts),
    "efficiency": float(REFERENCE.efficiency),
}
CHECKED = ("fs", "qes", "qms", "re", "sd", "vas")


def same(driver: Driver) -> bool:
    return all(getattr(driver, n) == pytest.approx(FULL[n], rel=1e-6) for n in CHECKED)


SETS = [
    "fs qes qms re sd vas",
    "fs qts qes re sd vas",
    "fs qts qms re sd vas",
    "re bl mms cms rms sd",
    "fs qts re bl mms sd",
    "fs qms re bl vas sd",
    "mms cms qts qms re sd",
    "fs qts qms re mms efficiency sd",
    "fs vas re efficiency qts sd",
    "vas cms fs qms qes re",
]


@pytest.mark.parametrize("names", SETS)
def test_sufficient_subsets(names: str) -> None:
    """Each sufficient subset leads back to the driver it was taken from."""
    found = complete_driver(**{name: FULL[name] for name in names.split()})
    assert same(found.driver)
    assert found.findings == ()


def test_diameter_stands_for_area() -> None:
    """The effective diameter gives Sd = pi d²/4."""
    given_values = {n: FULL[n] for n in ("fs", "qes", "qms", "re", "vas")}
    found = complete_driver(**given_values, diameter=math.sqrt(4 * 0.049 / math.pi))
    assert same(found.driver)


# One in seven of all sets of six: enough to meet every relation.
@pytest.mark.parametrize("names", list(itertools.combinations(FULL, 6))[::7])
def test_no_subset_gives_a_wrong_driver(names: tuple[str, ...]) -> None:
    """Any six parameters lead to the right driver or to a refusal that names what is missing."""
    values = {name: FULL[name] for name in names}
    try:
        found = complete_driver(**values)
    except MissingError as error:
        missing = error.given["names"]
        assert missing
        assert set(missing) <= {"fs", "qms", "qes", "re", "vas", "sd"} - set(names)
        return
    assert same(found.driver)


def test_too_little_names_what_is_missing() -> None:
    """A set without area and coil says so."""
    with pytest.raises(MissingError) as caught:
        complete_driver(fs=30.0, qts=0.4, qes=0.45)
    assert caught.value.given["names"] == ("re", "vas", "sd")


def test_a_contradiction_is_a_finding() -> None:
    """A force factor 12 % off what the rest gives is found, one 1 % off is not."""
    basis = {n: FULL[n] for n in CHECKED}
    found = complete_driver(**basis, bl=1.12 * FULL["bl"])
    assert [f.code for f in found.findings] == ["driver-parameters-contradict"]
    finding = found.findings[0]
    assert (finding.detail, finding.unit, finding.severity) == (("bl",), "T·m", "look")
    assert finding.limit == pytest.approx(FULL["bl"], rel=1e-9)
    assert complete_driver(**basis, bl=1.01 * FULL["bl"]).findings == ()
    assert complete_driver(**basis, qts=0.5 * FULL["qts"]).findings[0].detail == ("qts",)


def test_impossible_q_is_refused() -> None:
    """Qts above Qms or Qes is no driver."""
    with refused(ContradictionError, "contradicts-below", "qts", value=5.5, limit=5.0):
        complete_driver(fs=30.0, qts=5.5, qms=5.0, re=3.5, vas=0.06, sd=0.049)
    with refused(ContradictionError, "contradicts-below", "qts", value=0.5):
        complete_driver(fs=30.0, qts=0.5, re=3.5, mms=0.16, sd=0.049, bl=20.0)


@pytest.mark.parametrize("name", ["fs", "vas", "bl", "qts"])
@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_values_must_be_positive_numbers(name: str, value: float) -> None:
    """Zero, negative, infinite or no number is refused by name."""
    with refused(OutOfRangeError, "above", name):
        complete_driver(**(FULL | {name: value}))


@settings(deadline=None, max_examples=60)
@given(
    fs=st.floats(15, 200),
    qms=st.floats(1, 15),
    qes=st.floats(0.15, 2),
    re=st.floats(0.7, 16),
    vas=st.floats(1e-3, 0.5),
    sd=st.floats(5e-3, 0.15),
)
def test_there_and_back(
    fs: float, qms: float, qes: float, re: float, vas: float, sd: float
) -> None:
    """The mechanical set of any driver gives back its Thiele-Small set."""
    driver = Driver(fs=fs, qms=qms, qes=qes, re=re, vas=vas, sd=sd)
    found = complete_driver(
        re=re, sd=sd, mms=float(driver.mms), cms=float(driver.cms), rms=float(driver.rms),
        bl=float(driver.bl),
    ).driver  # fmt: skip
    assert (found.fs, found.qms, found.qes, found.vas) == pytest.approx(
        (fs, qms, qes, vas), rel=1e-9
    )
