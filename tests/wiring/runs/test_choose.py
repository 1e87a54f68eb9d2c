"""Chosen parts against the whole catalogue tried by brute force. Catalogue invented."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from tests.wiring import trees
from wiring.cable.conductor import Conductor, awg
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.errors import TreeError, WiringError
from wiring.network.parts import Load
from wiring.network.solve import solve
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check
from wiring.runs.choice import Catalogue, Choice
from wiring.runs.choose import choose

SIZES = ("14", "10", "8", "6", "4", "2", "1/0", "4/0")
CABLES = tuple(awg(size, insulation=105) for size in SIZES)
FEW = tuple(awg(size, insulation=105) for size in ("14", "8", "4", "2", "1/0"))
FUSES = tuple(
    Fuse(kind="strip", rating=rating, breaking_capacity=10_000, opening=trees.CURVE)
    for rating in (5, 10, 15, 20, 30, 40, 60, 80, 100, 125, 150, 200, 250, 300, 400)
)
CATALOGUE = Catalogue(conductors=CABLES, fuses=FUSES)


def sound(choice: Choice) -> bool:
    """Whether the choice has a tree and no stop or drop finding by the checks themselves."""
    return choice.tree is not None and not any(
        f.severity == "stop" or f.code == "drop-over-limit" for f in check(choice.tree)
    )


def small(watts: float, main: float, branch: float, amps: float, body: float | None = None) -> Tree:
    """A main and two branches; the amplifier's way back may be a measured body."""
    return trees.tree(
        [
            trees.run("P01", "battery", "block", length=main),
            trees.run("P02", "block", "amp", length=branch, chassis=body),
            trees.run("P03", "block", "lamp", length=branch),
        ],
        [trees.battery()],
        [trees.amplifier("amp", watts), Load(id="lamp", node="lamp", kind="current", value=amps)],
    )


def ways(run: Run) -> int:
    """How many times its length a run is cable."""
    return 1 if isinstance(run.return_path, ChassisReturn) else 2


def with_sizes(tree: Tree, sizes: tuple[Conductor, ...]) -> Tree:
    """The tree with these cables, bare of fuses."""
    runs = tuple(
        replace(run, conductor=size, return_path=CableReturn(conductor=size, length=run.length))
        if ways(run) == 2
        else replace(run, conductor=size)
        for run, size in zip(tree.runs, sizes, strict=True)
    )
    return replace(tree, runs=runs)


def passes(tree: Tree, sizes: tuple[Conductor, ...]) -> bool:
    """Whether the smallest fuse that carries each run's load makes the whole pass.

    75 % of the rating, less 0.5 % per °C above 25 °C, in a cabin of 40 °C: 0.69375.
    """
    # No less than P/12.6 V flows, and no cable has fewer ohms than at 20 °C.
    draws = [(x.value or 0) / (0.8 * 12.6 if x.kind == "amplifier" else 1) for x in tree.loads]
    volts = [
        ways(r) * (r.length or 0) * c.resistance_20 * i
        for r, c, i in zip(tree.runs, sizes, (sum(draws), *draws), strict=True)
    ]
    if volts[0] + max(volts[1:]) > 0.36:
        return False
    bare = with_sizes(tree, sizes)
    solution = solve(bare)
    if solution.status != "solved":
        return False
    runs = []
    for run in bare.runs:
        fits = [f for f in FUSES if f.rating * 0.69375 >= solution.runs[run.id].current]
        runs.append(replace(run, fuse_start=FittedFuse(fuse=fits[0], distance=0.0)))
    return not check(replace(bare, runs=tuple(runs)))


def metal(tree: Tree, sizes: tuple[Conductor, ...]) -> float:
    """Volume of metal out and back."""
    return sum(ways(r) * (r.length or 0) * c.area for r, c in zip(tree.runs, sizes, strict=True))


@pytest.mark.parametrize(
    ("watts", "main", "branch", "amps", "body"),
    [
        (250, 3.0, 1.0, 3, None),
        (500, 4.0, 1.5, 8, None),
        (700, 2.0, 2.5, 1, None),
        # No cable makes the body's own volts less: where they are forgotten, the branch grows.
        (600, 2.0, 1.0, 5, 2e-3),
    ],
)
def test_never_more_than_one_size_above_brute_force(
    watts: float, main: float, branch: float, amps: float, body: float | None
) -> None:
    """Of all size combinations that pass, the least metal is at most one size per run below."""
    tree = small(watts, main, branch, amps, body)
    choice = choose(tree, Catalogue(conductors=FEW, fuses=FUSES))
    assert sound(choice)
    combinations = sorted(product(FEW, repeat=3), key=lambda sizes: metal(tree, sizes))
    best = next(sizes for sizes in combinations if passes(tree, sizes))
    for pick, size in zip(choice.picks, best, strict=True):
        assert FEW.index(pick.conductor) <= FEW.index(size) + 1
    chosen = tuple(pick.conductor for pick in choice.picks)
    assert metal(tree, chosen) <= metal(tree, best) * 1.0001


@given(st.floats(20, 900), st.floats(0.5, 6), st.floats(0.2, 4), st.floats(0.1, 20), st.booleans())
@settings(max_examples=15, deadline=None)
def test_a_choice_never_has_a_stop(
    watts: float, main: float, branch: float, amps: float, two: bool
) -> None:
    """Whatever the supply, a chosen tree has no stop; without one it says what stood in the way."""
    tree = small(watts, main, branch, amps)
    if two:
        tree = replace(tree, sources=(*tree.sources, trees.battery("amp", emf=12.4)))
    choice = choose(tree, CATALOGUE)
    if choice.tree is None:
        assert any(f.severity == "stop" for f in choice.findings)
    else:
        assert not any(f.severity == "stop" for f in check(choice.tree))


def test_both_ends_of_a_cable_between_batteries() -> None:
    """A cable with a source at each end is given a fuse at each end."""
    choice = choose(trees.camper(), CATALOGUE)
    assert sound(choice)
    assert choice.picks[0].fuse_start is not None
    assert choice.picks[0].fuse_end is not None
    assert choice.picks[1].fuse_end is None


def test_overrides_are_kept() -> None:
    """What a person settled stays, the rest is chosen around it."""
    tree = trees.estate()
    choice = choose(tree, CATALOGUE, keep=("P02",))
    assert sound(choice)
    assert choice.tree is not None
    assert choice.tree.runs[1] == tree.runs[1]
    assert choice.picks[1].bound == "kept"


def test_an_unsafe_override_is_not_hidden() -> None:
    """An override that is a stop leaves no tree, and the stop is told."""
    tree = trees.estate()
    bad = replace(tree.runs[1], fuse_start=trees.fused(400))
    choice = choose(
        replace(tree, runs=(tree.runs[0], bad, *tree.runs[2:])), CATALOGUE, keep=["P02"]
    )
    assert choice.tree is None
    assert ("fuse-above-conductor", "P02") in {(f.code, f.about) for f in choice.findings}


def test_nothing_fits() -> None:
    """With only thin cable in stock there is no tree, and the reason is told."""
    thin = Catalogue(conductors=CABLES[:1], fuses=FUSES)
    choice = choose(trees.estate(), thin)
    assert choice.tree is None
    assert any(f.severity == "stop" for f in choice.findings)


def test_unknown_length_is_not_chosen_for() -> None:
    """A run without a length leaves no tree."""
    tree = trees.estate()
    runs = (replace(tree.runs[0], length=None), *tree.runs[1:])
    choice = choose(replace(tree, runs=runs), CATALOGUE)
    assert choice.tree is None
    assert ("length-unknown", "P01") in {(f.code, f.about) for f in choice.findings}


def test_bounds_are_told() -> None:
    """A long main is bound by drop, a hungry short one by the fuse that must carry the load."""
    far = {p.run: p.bound for p in choose(small(250, 6.0, 0.3, 1), CATALOGUE).picks}
    near = {p.run: p.bound for p in choose(small(600, 0.3, 0.3, 1), CATALOGUE).picks}
    assert far["P01"] == "drop-over-limit"
    assert near["P01"] == "fuse-above-conductor"
    assert far["P03"] == near["P03"] == "smallest"


@pytest.mark.parametrize(
    ("branch", "grown"),
    [
        # 4 m of 50 mm² out and back become 55 mm² with 20 cm³ more; 2.8 m of 10 mm² become 20 mm²
        # with 28 cm³ more, though the thicker main is more metal as a whole.
        (1.4, (55, 10, 50)),
        # 1 m of 10 mm² becomes 20 mm² with 10 cm³.
        (0.5, (50, 20, 50)),
    ],
)
def test_the_cable_that_adds_least_metal_grows_first(branch: float, grown: tuple[int, ...]) -> None:
    """Of two cables either of which would cure a low voltage, the cheaper step is taken."""
    sizes = {
        area: Conductor(
            system="metric",
            size=f"{area}",
            area=area * 1e-6,
            resistance_20=0.018 / area,
            insulation=105.0,
        )
        for area in (10, 20, 50, 55)
    }
    bare = trees.tree(
        [
            trees.run("P01", "battery", "block", length=2.0),
            trees.run("P02", "block", "amp", length=branch),
            trees.run("P03", "block", "lamp", length=0.2),
        ],
        [trees.battery()],
        [
            trees.amplifier("amp", 250.0),
            Load(id="lamp", node="lamp", kind="current", value=100.0),
        ],
    )

    def volts(*areas: int) -> float:
        return solve(with_sizes(bare, tuple(sizes[a] for a in areas))).voltages["amp"]

    least = volts(50, 10, 50) + 0.005
    assert least < min(volts(55, 10, 50), volts(50, 20, 50))
    tree = replace(bare, loads=(replace(bare.loads[0], minimum_voltage=least), bare.loads[1]))
    catalogue = Catalogue(conductors=tuple(sizes.values()), fuses=FUSES)
    choice = choose(tree, catalogue, drop_limit=0.3)
    assert [pick.conductor for pick in choice.picks] == [sizes[area] for area in grown]
    bound = {pick.run: pick.bound for pick in choice.picks}
    assert bound["P01" if grown[0] == 55 else "P02"] == "voltage-below-load-minimum"


def test_a_fuse_of_unknown_breaking_is_taken_before_one_that_is_known_to_burst() -> None:
    """Unknown asks a person; too little is a stop, though both carry the load."""
    weak = tuple(replace(fuse, breaking_capacity=200.0) for fuse in FUSES)
    unknown = tuple(replace(fuse, breaking_capacity=None) for fuse in FUSES)
    tree = small(250, 3.0, 1.0, 3)
    choice = choose(tree, Catalogue(conductors=CABLES, fuses=(*weak, *unknown)))
    fitted = [pick.fuse_start for pick in choice.picks]
    assert len(fitted) == 3
    assert all(seat is not None and seat.fuse.breaking_capacity is None for seat in fitted)
    assert "breaking-capacity-unknown" in {f.code for f in choice.findings}
    assert "breaking-capacity-low" not in {f.code for f in choice.findings}


def test_stock_too_thin_for_the_load_is_told() -> None:
    """Where the largest cable in stock carries too little, there is no tree, and why is told."""
    stock = Catalogue(conductors=CABLES[:2], fuses=FUSES)  # 14 and 10 AWG
    choice = choose(small(700, 0.5, 0.3, 1), stock)
    assert choice.tree is None
    assert choice.picks[0].conductor == CABLES[1]
    assert {"ampacity-exceeded", "fuse-above-conductor"} & {f.code for f in choice.findings}


def test_bad_catalogues() -> None:
    """An empty catalogue, a cable of unknown class, a label that is no run: each is refused."""
    with refused(WiringError, "at-least", "fuses-offered"):
        Catalogue(conductors=CABLES, fuses=())
    with refused(WiringError, "entered", "insulation-class", about="4 AWG"):
        Catalogue(conductors=(awg("4"),), fuses=FUSES)
    with refused(TreeError, "known-run", "run-to-keep"):
        choose(trees.estate(), CATALOGUE, keep=("P99",))
