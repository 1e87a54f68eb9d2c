"""A fuse's rated voltage is held against what its network can reach."""

from dataclasses import replace

import pytest

from tests.refused import refused
from tests.wiring.trees import camper, estate
from wiring.errors import OutOfRangeError
from wiring.findings import CODES
from wiring.network.tree import Tree
from wiring.protection.fuse_voltage import check_fuse_voltages, network_voltage


def rated(tree: Tree, *, voltage: float | None, emf: float | None = None) -> Tree:
    """The same tree with every fuse of this rated voltage, and perhaps another network."""
    runs = []
    for run in tree.runs:
        ends = {}
        for name in ("fuse_start", "fuse_end"):
            fitted = getattr(run, name)
            if fitted is not None:
                ends[name] = replace(fitted, fuse=replace(fitted.fuse, voltage=voltage))
        runs.append(replace(run, **ends))
    sources = tuple(replace(s, emf=s.emf if emf is None else emf) for s in tree.sources)
    return replace(tree, runs=tuple(runs), sources=sources)


@pytest.mark.parametrize(
    ("emf", "limit"),
    [
        (12.6, 16.0),  # ISO 16750-2:2012, supply code A: 16 V in a 12 V system
        (16.0, 16.0),
        (36.0, 64.0),  # the 48 V network, low; four times 16 V, common practice, no source
        (48.0, 64.0),
        (25.2, 32.0),  # in proportion; ISO 16750-2 prints 32 V for 24 V systems (from memory)
        (51.2, 64.0),  # in proportion; VDA 320 ends at 54 V (from memory), so it errs to safety
    ],
)
def test_a_network_reaches_more_than_its_battery_rests_at(emf: float, limit: float) -> None:
    """12 V networks are charged to 16 V at the most, others in proportion."""
    assert network_voltage(emf) == limit


def test_no_network_without_a_voltage() -> None:
    """Zero volts are refused by name."""
    with refused(OutOfRangeError, "above", "open-circuit-voltage"):
        network_voltage(0.0)


@pytest.mark.parametrize("tree", [estate(), camper()], ids=["estate", "camper"])
def test_a_32_volt_fuse_suits_12_volts(tree: Tree) -> None:
    """ISO 8820 fuses are rated for 32 V, enough for 12 and 24 V networks and not for 48 V."""
    assert check_fuse_voltages(rated(tree, voltage=32.0)) == ()
    assert check_fuse_voltages(rated(tree, voltage=32.0, emf=25.2)) == ()
    fused = sum(bool(run.fuse_start or run.fuse_end) for run in tree.runs)
    found = check_fuse_voltages(rated(tree, voltage=32.0, emf=51.2))
    assert [one.code for one in found] == ["fuse-voltage-low"] * fused
    assert CODES["fuse-voltage-low"] == "stop"
    assert {(one.value, one.limit) for one in found} == {(32.0, 64.0)}


def test_an_unknown_rating_is_a_finding() -> None:
    """Nobody read it off the sheet: said once for each run, with what it has to reach."""
    tree = rated(camper(), voltage=None)
    found = check_fuse_voltages(tree)
    assert {one.code for one in found} == {"fuse-voltage-unknown"}
    assert [one.about for one in found] == ["P01", "P02", "P03", "P04"]
    assert {one.limit for one in found} == {16.0}


def test_one_good_fuse_hides_no_bad_one() -> None:
    """A run with a fuse at each end is judged by the worse of the two."""
    tree = rated(camper(), voltage=32.0)
    first = tree.runs[0]
    assert first.fuse_end is not None
    worse = replace(first.fuse_end, fuse=replace(first.fuse_end.fuse, voltage=12.0))
    mixed = replace(tree, runs=(replace(first, fuse_end=worse), *tree.runs[1:]))
    (one,) = check_fuse_voltages(mixed)
    assert (one.code, one.about, one.value, one.limit) == ("fuse-voltage-low", "P01", 12.0, 16.0)


def test_nothing_to_hold_against_without_a_source() -> None:
    """Without a source there is no voltage; the tree says that by itself."""
    assert check_fuse_voltages(replace(rated(estate(), voltage=None), sources=())) == ()
