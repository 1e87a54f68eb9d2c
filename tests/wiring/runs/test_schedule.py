"""Wire schedule, crimp list and fuse map."""

from dataclasses import replace

import pytest

from wiring.cable.conductor import awg, metric
from wiring.cable.terminals import CrimpTerminal, Passage, pull_force
from wiring.errors import OutOfRangeError, OutsideTableError, WiringError
from wiring.runs.labelled import Allowance, Core, Cut, LabelledRun
from wiring.runs.schedule import FuseEntry, check_schedule, crimp_list, fuse_map, wire_schedule

# Invented.
COPPER = frozenset({"copper"})
RANGE: dict[str, float] = {"smallest": 1e-6, "largest": 120e-6}  # wider than any real one
RING = CrimpTerminal(name="ring M8, 25 mm²", metals=COPPER, torque=9.6, **RANGE)
FERRULE = CrimpTerminal(name="ferrule 25 mm²", metals=COPPER, on_stud=False, **RANGE)
SPADE = CrimpTerminal(name="spade 6.3 mm", metals=COPPER, on_stud=False, **RANGE)
THICK = metric(25e-6, outer_diameter=0.010)
THIN = awg("14", outer_diameter=0.004)
FIREWALL = Passage(id="firewall", place="firewall", metal=True, grommet=True)
ALLOWANCE = Allowance(slack=0.10, per_end=0.15, heat_shrink=0.03)

CUT = Cut(fuse="F01", at_start=True, distance=0.15, terminal=replace(RING, stud="M8"), stud="M8")

MAIN = LabelledRun(
    id="P01",
    label="P01",
    start="battery",
    end="block",
    length=5.0,
    cores=(Core(conductor=THICK, colour="RD", start=RING, end=FERRULE),),
    fuses=("F01",),
    passages=(FIREWALL,),
    on_battery=True,
)
GROUND = LabelledRun(
    id="P02",
    label="P02",
    start="battery",
    end="block",
    length=5.0,
    cores=(Core(conductor=THICK, colour="BK", start=RING, end=FERRULE),),
    passages=(FIREWALL,),
    on_battery=True,
)
SPEAKER = LabelledRun(
    id="S01",
    label="S01",
    start="A1",
    end="left door",
    length=4.0,
    cores=(
        Core(conductor=THIN, colour="WH", start=FERRULE, end=SPADE),
        Core(conductor=THIN, colour="WHBK", start=FERRULE, end=SPADE),
    ),
    one_sheath=True,
    passages=(Passage(id="door gaiter", place="door gaiter", metal=False, grommet=None),),
)
RUNS = (SPEAKER, GROUND, MAIN)


def test_schedule_is_in_the_order_of_the_labels() -> None:
    """Power comes before speaker runs, each kind by its number."""
    rows = wire_schedule(RUNS, ALLOWANCE)
    assert [row.run.label for row in rows] == ["P01", "P02", "S01"]


def test_numbers_sort_as_people_count() -> None:
    """P100 comes after P99."""
    runs = [replace(MAIN, label=label) for label in ("P100", "P99", "P02")]
    assert [row.run.label for row in wire_schedule(runs, ALLOWANCE)] == ["P02", "P99", "P100"]


def test_schedule_row_worked_by_hand() -> None:
    """5 m: 5·1.1 + 2·0.15 = 5.8 m to cut, ⌈5/0.3⌉ = 17 clips, 4 × 10 mm bend (by hand)."""
    row = wire_schedule([MAIN], ALLOWANCE)[0]
    assert row.cut_length == pytest.approx(5.8)
    assert row.supports == 17
    assert row.bend_radius == pytest.approx(0.040)


def test_unknown_length_and_diameter_stay_unknown() -> None:
    """Without a length or a diameter the row says nothing instead of zero."""
    bare = Core(conductor=awg("4"), colour="RD")
    row = wire_schedule([replace(MAIN, length=None, cores=(bare,))], ALLOWANCE)[0]
    assert (row.cut_length, row.supports, row.bend_radius) == (None, None, None)


def test_crimp_list_has_two_ends_for_each_core() -> None:
    """Every end of every core is listed with its published pull force."""
    rows = crimp_list(RUNS)
    assert [(r.run.label, r.at_start) for r in rows[:2]] == [("P01", True), ("P01", False)]
    assert len(rows) == 2 * 4
    assert rows[0].pull_force == pull_force(25e-6).required
    assert rows[-1].pull_force == pull_force(THIN.area).required


def test_a_fuse_in_the_way_makes_two_ends_and_two_pieces() -> None:
    """5 m cut 0.2 m from its start: 0.2·1.1 + 0.3 = 0.52 m and 4.8·1.1 + 0.3 = 5.58 m (by hand)."""
    core = replace(MAIN.cores[0], cuts=(replace(CUT, distance=0.2),))
    run = replace(MAIN, cores=(core,))
    assert wire_schedule([run], ALLOWANCE)[0].pieces == pytest.approx((0.52, 5.58))
    rows = crimp_list([run])
    assert [(row.at_start, row.place, row.stud) for row in rows] == [
        *((True, "battery", ""), (True, "F01", "M8"), (False, "F01", "M8"), (False, "block", ""))
    ]
    assert check_schedule([run]) == ()


@pytest.mark.parametrize(("distance", "at_start"), [(None, True), (5.1, True), (5.1, False)])
def test_pieces_are_not_made_up(distance: float | None, at_start: bool) -> None:
    """Where nobody knows where the fuse is, or it lies beyond the run, no piece is said."""
    core = replace(MAIN.cores[0], cuts=(replace(CUT, distance=distance, at_start=at_start),))
    row = wire_schedule([replace(MAIN, cores=(core,))], ALLOWANCE)[0]
    assert (row.pieces, row.cut_length) == ((), pytest.approx(5.8))


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"terminal": None}, "fuse-terminal-not-chosen"),
        ({"stud": "M6"}, "terminal-wrong-stud"),
        ({"terminal": replace(RING, smallest=35e-6, largest=50e-6)}, "terminal-wrong-size"),
    ],
)
def test_ends_at_a_fuse_are_checked_as_the_others(changes, code) -> None:
    """Each fault of the two ends at a fuse is told once, by the fuse."""
    core = replace(MAIN.cores[0], cuts=(replace(CUT, **changes),))
    findings = check_schedule([replace(MAIN, cores=(core,))])
    assert [(finding.code, finding.detail) for finding in findings] == [(code, ("start fuse", "1"))]


@pytest.mark.parametrize("conductor", [awg("4/0"), awg("4", metal="copper_clad_aluminium_10")])
def test_no_pull_force_outside_the_copper_table(conductor) -> None:
    """Larger sizes and other metals have no published force; none is invented."""
    terminal = replace(RING, metals=frozenset({conductor.metal}))
    core = Core(conductor=conductor, colour="RD", start=terminal, end=terminal)
    run = replace(MAIN, cores=(core,))
    assert {row.pull_force for row in crimp_list([run])} == {None}
    assert {f.code for f in check_schedule([run])} == {"pull-force-unpublished"}


def test_fuse_map() -> None:
    """Fuses are listed by place with what they protect; a spare one protects nothing."""
    fuses = [
        FuseEntry(label="F02", place="boot", style="regular blade", rating=None),
        FuseEntry(label="F01", place="battery", style="strip SF51", rating=100.0),
    ]
    rows = fuse_map(fuses, RUNS)
    assert [(row.fuse.label, row.runs) for row in rows] == [("F01", ("P01",)), ("F02", ())]


def test_a_cable_between_two_sources_has_two_fuses() -> None:
    """A run fused at both ends stands under both fuses."""
    fuses = [FuseEntry(label=f, place=f, style="strip", rating=80.0) for f in ("F01", "F02")]
    rows = fuse_map(fuses, [replace(MAIN, fuses=("F01", "F02"))])
    assert [row.runs for row in rows] == [("P01",), ("P01",)]


def test_complete_runs_have_no_findings() -> None:
    """Nothing to say about runs where everything is known and right."""
    assert check_schedule(RUNS) == ()


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"length": None}, "run-length-unknown"),
        ({"cores": (Core(conductor=THICK, colour="RD", start=RING),)}, "terminal-not-chosen"),
        ({"passages": (replace(FIREWALL, grommet=False),)}, "grommet-missing"),
        (
            {"cores": (Core(conductor=THICK, colour="RD", start=replace(RING, torque=None),
                            end=FERRULE),)},
            "stud-torque-unknown",
        ),
        (
            {"cores": (Core(conductor=metric(25e-6, metal="aluminium"), colour="RD", start=RING,
                            end=FERRULE),)},
            "terminal-unsuited-to-metal",
        ),
    ],
)  # fmt: skip
def test_schedule_findings(changes: dict[str, object], code: str) -> None:
    """Each gap or fault of a run is found at the run."""
    found = check_schedule([replace(MAIN, **changes)])
    assert code in {f.code for f in found}
    assert all(f.about == "P01" for f in found)


@pytest.mark.parametrize(
    ("broken", "error"),
    [
        (lambda: replace(MAIN, label="M1"), WiringError),
        (lambda: replace(MAIN, length=-1.0), OutOfRangeError),
        (lambda: replace(MAIN, cores=()), WiringError),
        (lambda: Core(conductor=THICK, colour="red"), OutsideTableError),
        (lambda: Allowance(slack=-0.1, per_end=0.0, heat_shrink=0.0), OutOfRangeError),
        (lambda: FuseEntry(label="F01", place="x", style="y", rating=0.0), OutOfRangeError),
        (lambda: wire_schedule([MAIN, MAIN], ALLOWANCE), WiringError),
        (lambda: fuse_map([], [MAIN]), WiringError),
    ],
)
def test_impossible_input_is_refused(broken, error: type[WiringError]) -> None:
    """What cannot be raises an error of its own that names the value."""
    with pytest.raises(error):
        broken()


@pytest.mark.parametrize(
    ("figures", "code"),
    [
        ({"largest": 16e-6}, "terminal-wrong-size"),
        ({"smallest": 35e-6, "largest": 50e-6}, "terminal-wrong-size"),
        ({"smallest": 16e-6, "largest": 25e-6}, ""),
        ({"largest": None}, "terminal-size-unknown"),
    ],
)
def test_a_terminal_is_made_for_some_cables_only(figures, code) -> None:
    """25 mm² fits a range that ends or holds it; outside it is a stop, unknown a note."""
    ring = replace(RING, **figures)
    core = Core(conductor=THICK, colour="RD", start=ring, end=ring)
    run = LabelledRun(id="1", label="P01", start="a", end="b", length=1.0, cores=(core,))
    codes = {f.code for f in check_schedule([run])}
    assert codes == ({code} if code else set())


def test_a_hole_fits_one_stud_only() -> None:
    """An M8 ring on the M6 of a ground bar is a stop; the bar's torque goes before the ring's."""
    ring = replace(RING, stud="M8")
    core = Core(
        conductor=THICK,
        colour="BK",
        start=ring,
        end=ring,
        start_stud="M6",
        start_torque=5.0,
        sign="−",
        start_place="ground bar",
    )
    run = LabelledRun(id="1", label="P01", start="a", end="b", length=1.0, cores=(core,))
    assert [f.detail for f in check_schedule([run]) if f.code == "terminal-wrong-stud"] == [
        ("start", "1")
    ]
    first, last = crimp_list([run])
    assert (first.label, first.place, first.torque) == ("P01 −", "ground bar", 5.0)
    assert (last.place, last.torque, last.stud) == ("b", 9.6, "M8")
