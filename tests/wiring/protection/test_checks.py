"""Each way to break a sound supply brings its own finding, and the sound ones bring none."""

from dataclasses import replace

import pytest

from tests.refused import refused
from tests.wiring import trees
from wiring.cable.conductor import awg, metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import Fuse
from wiring.errors import OutOfRangeError
from wiring.findings import CODES, Finding
from wiring.network.parts import Load, Source
from wiring.network.states import solve_states
from wiring.network.tree import Node, Run, Tree
from wiring.protection.checks import check


def codes(tree: Tree) -> set[tuple[str, str]]:
    """Codes with the places they name."""
    return {(f.code, f.about) for f in check(tree)}


def with_run(tree: Tree, label: str, **changes: object) -> Tree:
    """The tree with one run changed."""
    runs = tuple(replace(r, **changes) if r.id == label else r for r in tree.runs)  # type: ignore[arg-type]
    return replace(tree, runs=runs)


def with_load(tree: Tree, name: str, **changes: object) -> Tree:
    """The tree with one load changed."""
    loads = tuple(replace(x, **changes) if x.id == name else x for x in tree.loads)  # type: ignore[arg-type]
    return replace(tree, loads=loads)


@pytest.mark.parametrize("tree", [trees.estate(), trees.camper()])
def test_sound_supplies(tree: Tree) -> None:
    """A supply in order brings no finding at all."""
    assert check(tree) == ()


ESTATE, CAMPER = trees.estate(), trees.camper()
THIN = awg("8", insulation=105)
FUSE = Fuse(kind="strip SF51", rating=150, breaking_capacity=6000, opening=trees.CURVE)
P01 = ESTATE.runs[0]
HIDDEN = CableReturn(conductor=trees.MAIN, length=None)

BROKEN = {
    "length missing": (with_run(ESTATE, "P01", length=None), "length-unknown", "P01"),
    "return length missing": (
        with_run(ESTATE, "P01", return_path=HIDDEN), "length-unknown", "P01"),
    "conductor missing": (with_run(ESTATE, "P02", conductor=None), "conductor-unknown", "P02"),
    "chassis not measured": (
        with_run(ESTATE, "P02", return_path=ChassisReturn(resistance=None)),
        "return-unknown", "P02"),
    "no return": (with_run(ESTATE, "P02", return_path=None), "return-unknown", "P02"),
    "source unknown": (
        replace(ESTATE, sources=(replace(ESTATE.sources[0], resistance=None),)),
        "source-resistance-unknown", "B-battery"),
    "fault current unknown": (
        replace(ESTATE, sources=(replace(ESTATE.sources[0], resistance=None),)),
        "fault-current-unknown", "B-battery"),
    "cold battery unknown": (
        replace(ESTATE, sources=(replace(ESTATE.sources[0], cold_cranking=None),)),
        "cold-resistance-unknown", "B-battery"),
    "big battery": (
        replace(ESTATE, sources=(replace(ESTATE.sources[0], cold_cranking=2300),)),
        "fault-current-unknown", "P01"),
    "draw unknown": (with_load(ESTATE, "A-sub", value=None), "load-draw-unknown", "A-sub"),
    "ten kilowatts": (with_load(ESTATE, "A-sub", value=10_000.0), "no-solution", "B-battery"),
    "weak amplifier": (
        with_load(ESTATE, "A-sub", minimum_voltage=12.5), "voltage-below-load-minimum", "A-sub"),
    "over ampacity": (
        with_run(ESTATE, "P02", conductor=THIN, bundled=24), "ampacity-exceeded", "P02"),
    "thin return": (
        with_run(ESTATE, "P02", return_path=CableReturn(
            conductor=awg("14", insulation=105), length=1)),
        "ampacity-exceeded", "P02"),
    "no rating": (
        with_run(ESTATE, "P04", conductor=metric(0.5e-6, insulation=105)),
        "ampacity-outside-table", "P04"),
    "thick bundle": (with_run(ESTATE, "P04", bundled=30), "ampacity-outside-table", "P04"),
    "cold insulation": (
        with_run(ESTATE, "P01", conductor=awg("1/0", insulation=0)),
        "insulation-below-ambient", "P01"),
    "class unknown": (
        with_run(ESTATE, "P03", conductor=awg("4")), "insulation-unknown", "P03"),
    "long main": (with_run(ESTATE, "P01", length=12.0), "drop-over-limit", "P01"),
    "no main fuse": (with_run(ESTATE, "P01", fuse_start=None), "unprotected-conductor", "P01"),
    "fuse at the wrong end": (
        with_run(ESTATE, "P01", fuse_start=None, fuse_end=trees.fused(150)),
        "unprotected-conductor", "P01"),
    "one end of two": (
        with_run(CAMPER, "P01", fuse_end=None), "second-source-unprotected", "P01"),
    "fuse too big": (
        with_run(ESTATE, "P02", fuse_start=trees.fused(200)), "fuse-above-conductor", "P02"),
    "step down unfused": (
        with_run(ESTATE, "P02", conductor=THIN, fuse_start=None), "fuse-above-conductor", "P02"),
    "fuse too small": (
        with_run(ESTATE, "P02", fuse_start=trees.fused(40)), "fuse-below-load", "P02"),
    "fuse tight": (
        with_run(ESTATE, "P02", fuse_start=trees.fused(50)), "fuse-load-above-75-percent", "P02"),
    "fuse at 200 mm": (
        with_run(ESTATE, "P01", fuse_start=trees.fused(150, distance=0.2)),
        "fuse-beyond-178-mm", "P01"),
    "fuse at 500 mm": (
        with_run(ESTATE, "P01", fuse_start=trees.fused(150, distance=0.5)),
        "fuse-too-far", "P01"),
    "fuse past the end": (
        with_run(ESTATE, "P02", length=0.12, fuse_start=trees.fused(80, distance=0.15)),
        "fuse-beyond-run-end", "P02"),
    "fuse somewhere": (
        with_run(ESTATE, "P01", fuse_start=trees.fused(150, distance=None)),
        "fuse-distance-unknown", "P01"),
    "fuse bursts": (
        with_run(ESTATE, "P01", fuse_start=trees.fused(150, breaking=2000)),
        "breaking-capacity-low", "P01"),
    "unrated fuse": (
        with_run(ESTATE, "P01", fuse_start=trees.fused(150, breaking=None)),
        "breaking-capacity-unknown", "P01"),
    "no curve": (
        with_run(ESTATE, "P01", fuse_start=replace(
            trees.fused(150), fuse=replace(FUSE, opening=()))),
        "fuse-curve-unknown", "P01"),
    "slow fuse": (
        with_run(ESTATE, "P01", fuse_start=replace(
            trees.fused(150), fuse=replace(FUSE, opening=((2.0, 60.0),)))),
        "fuse-opens-slowly", "P01"),
    "let-through": (
        with_run(ESTATE, "P02", conductor=THIN, fuse_start=replace(
            trees.fused(60), fuse=replace(FUSE, rating=60, opening=((8.0, 4.0),)))),
        "insulation-damaged-first", "P02"),
    "long thin fault": (
        with_run(ESTATE, "P02", length=40.0, fuse_start=replace(
            trees.fused(140), fuse=replace(FUSE, rating=140, opening=((2.0, 5.0),)))),
        "fuse-may-not-open", "P02"),
    "copper lugs on clad": (
        with_run(ESTATE, "P01", conductor=trees.CLAD, aluminium_terminals=False),
        "terminal-unsuited-to-metal", "P01"),
    "lugs unknown on clad": (
        with_run(ESTATE, "P01", conductor=trees.CLAD, aluminium_terminals=None),
        "terminal-metal-unknown", "P01"),
    "load too low": (
        with_load(ESTATE, "A-sub", connected_ohms=1.0, lowest_ohms=2.0),
        "load-below-amplifier-lowest", "A-sub"),
    "lowest load unknown": (
        with_load(ESTATE, "A-sub", connected_ohms=1.0), "amplifier-lowest-unknown", "A-sub"),
}  # fmt: skip


@pytest.mark.parametrize("name", BROKEN)
def test_each_fault_is_found(name: str) -> None:
    """Breaking one thing in a sound supply brings the finding for it, at the place."""
    tree, code, where = BROKEN[name]
    assert (code, where) in codes(tree)


def extra(tree: Tree, *, node: Node | None = None, run: Run | None = None,
          source: Source | None = None, load: Load | None = None) -> Tree:  # fmt: skip
    """The tree with one more part of a kind."""
    return Tree(
        nodes=tree.nodes + ((node,) if node else ()),
        runs=tree.runs + ((run,) if run else ()),
        sources=tree.sources + ((source,) if source else ()),
        loads=tree.loads + ((load,) if load else ()),
    )


def test_structure() -> None:
    """Loops, loads and nodes nothing feeds, and two mains on one stud are found."""
    ring = extra(ESTATE, run=trees.run("P05", "sub", "front", fuse=60))
    assert {("loop", x) for x in ("P02", "P03", "P05")} <= codes(ring)
    assert ("loop", "P01") not in codes(ring)
    shelf = Node(id="shelf")
    lamp = Load(id="lamp", node="shelf", kind="current", value=1)
    assert ("load-without-source", "lamp") in codes(extra(ESTATE, node=shelf, load=lamp))
    assert ("node-without-source", "shelf") in codes(extra(ESTATE, node=shelf))
    second = extra(ESTATE, node=shelf, run=trees.run("P05", "battery", "shelf", fuse=60))
    assert ("two-mains-on-one-stud", "battery") in codes(second)


def test_converter_findings() -> None:
    """A converter at its limit is found, and one whose limit nobody entered."""
    boost = Source(id="D", node="block", kind="dc-dc", emf=14, resistance=2e-3, current_limit=20)
    assert ("converter-at-limit", "D") in codes(extra(ESTATE, source=boost))
    blind = replace(boost, current_limit=None)
    assert ("current-limit-unknown", "D") in codes(extra(ESTATE, source=blind))


def test_a_converter_that_charges_a_battery_is_not_short_of_current() -> None:
    """At its limit while the battery beside it takes current, a converter does what it is for."""
    boost = Source(id="D", node="two", kind="dc-dc", emf=14.4, resistance=2e-3, current_limit=20)
    lamp = trees.amplifier("two", 20.0)
    charged = trees.tree([], [trees.battery("two"), boost], [lamp])
    assert ("converter-at-limit", "D") not in codes(charged)
    drawn = replace(charged, loads=(replace(lamp, value=800.0),))
    assert ("converter-at-limit", "D") in codes(drawn)


def test_every_source_on_every_path() -> None:
    """Fuses that each suit the cable but together feed it more than it carries are found."""
    both = trees.tree(
        [
            trees.run("P01", "one", "block", trees.MAIN, fuse=100),
            trees.run("P02", "two", "block", trees.MAIN, fuse=100),
            trees.run("P03", "block", "amp", awg("6", insulation=105)),
        ],
        [trees.battery("one"), trees.battery("two")],
        [trees.amplifier("amp", 300.0)],
    )
    found = [f for f in check(both) if f.code == "fuse-above-conductor"]
    assert [(f.about, f.value) for f in found] == [("P03", 200.0)]


def test_capacitor_bank_is_a_source() -> None:
    """A capacitor bank at the end of a run makes its end need a fuse."""
    bank = Source(id="C", node="sub", kind="capacitor", emf=12.6, resistance=2e-3)
    assert ("second-source-unprotected", "P02") in codes(extra(ESTATE, source=bank))


def test_upstream_fuse_serves() -> None:
    """A run without its own fuse is guarded by one upstream that suits its cable."""
    back = CableReturn(conductor=trees.MAIN, length=1.0)
    tree = with_run(ESTATE, "P02", conductor=trees.MAIN, return_path=back, fuse_start=None)
    assert {c for c, where in codes(tree) if where == "P02"} == set()


def test_sheath_allows_a_metre() -> None:
    """In a sheath all the way the fuse may sit up to 40 in away (33 CFR 183.455(b))."""
    sheathed = replace(trees.fused(150, distance=0.9), sheathed=True)
    assert check(with_run(ESTATE, "P01", fuse_start=sheathed)) == ()
    beyond = replace(sheathed, distance=1.1)
    assert ("fuse-beyond-1016-mm", "P01") in codes(with_run(ESTATE, "P01", fuse_start=beyond))
    # On a battery, ABYC E-11 knows 72 in under a sheath; elsewhere nothing does.
    past = replace(sheathed, distance=72 * 0.0254 + 1e-4)
    assert ("fuse-too-far", "P01") in codes(with_run(ESTATE, "P01", fuse_start=past))
    branch = with_run(ESTATE, "P03", length=3.0, conductor=THIN, fuse_start=replace(
        beyond, fuse=trees.fused(10).fuse))  # fmt: skip
    assert ("fuse-too-far", "P03") in codes(branch)


def distance_code(metres: float) -> set[str]:
    """Codes of the estate car with its main fuse that far from the battery."""
    fitted = trees.fused(150, distance=metres)
    return {f.code for f in check(with_run(ESTATE, "P01", fuse_start=fitted))}


@pytest.mark.parametrize(
    ("inches", "inside", "beyond"),
    [(7, set(), {"fuse-beyond-178-mm"}), (18, {"fuse-beyond-178-mm"}, {"fuse-too-far"})],
)
def test_distance_edges(inches: int, inside: set[str], beyond: set[str]) -> None:
    """The edges lie at 7 and 18 in exactly (33 CFR 183.455(b); 18 in is common practice)."""
    assert distance_code(inches * 0.0254) == inside
    assert distance_code(inches * 0.0254 + 1e-4) == beyond


def test_strip_fuse_against_a_warm_battery() -> None:
    """2 kA of ISO 8820-5 against a bolted short of a 4 mΩ battery, 3.15 kA (Ohm's law): fails."""
    sources = (replace(ESTATE.sources[0], resistance=4e-3),)
    tree = with_run(
        replace(ESTATE, sources=sources), "P01", fuse_start=trees.fused(150, breaking=2000)
    )
    low = [f for f in check(tree) if f.code == "breaking-capacity-low"]
    assert [(f.about, f.limit) for f in low] == [("P01", 2000)]
    assert low[0].value == pytest.approx(12.6 / 4e-3, rel=1e-9)


def test_fuse_at_the_ampacity_is_allowed() -> None:
    """A fuse of exactly the ampacity passes, one above does not; 150 % of it is no excuse."""
    cable = awg("4", insulation=105, rated_current=100, rated_ambient=40, rated_source="invented")
    for rating, stops in ((100, False), (100.1, True), (149, True), (151, True)):
        tree = with_run(ESTATE, "P02", conductor=cable, return_path=CableReturn(
            conductor=cable, length=1.0), fuse_start=trees.fused(rating))  # fmt: skip
        assert (("fuse-above-conductor", "P02") in codes(tree)) is stops


@pytest.mark.parametrize(("air", "stops"), [(104.9, False), (105.0, True), (105.1, True)])
def test_insulation_as_warm_as_its_air_carries_nothing(air: float, stops: bool) -> None:
    """At equality no heat leaves the cable: √((105 − 105)/(105 − 30)) = 0 A, which is a stop."""
    found = {f.code: f for f in check(with_run(ESTATE, "P02", ambient=air))}
    assert ("insulation-below-ambient" in found) is stops
    if stops:
        finding = found["insulation-below-ambient"]
        assert (finding.severity, finding.value, finding.limit) == ("stop", 105, air)


def test_unknown_never_passes() -> None:
    """No part that lacks a number is without a finding (each already in the table above)."""
    for name, (tree, _, _) in BROKEN.items():
        if "unknown" in name or "missing" in name:
            assert check(tree), name


def test_given_solution_is_used() -> None:
    """A solution at hand gives the same findings as solving anew."""
    tree = trees.estate(700)
    assert check(tree, solve_states(tree)) == check(tree)


def test_findings_are_data() -> None:
    """Every code has a severity; a code nobody knows is refused."""
    assert set(CODES.values()) == {"stop", "look", "note"}
    assert Finding(code="loop", about="P01").severity == "stop"
    with pytest.raises(KeyError):
        Finding(code="fire", about="P01")


def test_drop_limit_must_be_sensible() -> None:
    """A drop limit of nothing is refused."""
    with refused(OutOfRangeError, "above", "drop-limit"):
        check(ESTATE, drop_limit=0)
