"""What a part's maker says of its supply fuse goes first, also where parts are chosen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.cable.fuse import Fuse
from wiring.findings import CODES
from wiring.network.parts import Load, Source
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check
from wiring.runs.choice import Catalogue
from wiring.runs.choose import choose

MAKERS = {"fuse-above-part", "fuse-below-part", "main-fuse-below-sum", "bank-fuse-below-note"}


def _tree(sub: float | None, front: float | None) -> Tree:
    """Main of 150 A, branches fused with 80 A and 60 A, and what their makers ask for."""
    tree = trees.estate()
    asked = {"A-sub": sub, "A-front": front}
    loads = tuple(replace(load, fuse_rating=asked.get(load.id)) for load in tree.loads)
    return replace(tree, loads=loads)


def _said(tree: Tree) -> dict[str, tuple[str, float | str | None, float | str | None]]:
    return {f.code: (f.about, f.value, f.limit) for f in check(tree) if f.code in MAKERS}


def test_the_makers_own_figure_says_nothing():
    """80 A and 60 A asked for and fitted, 150 A ahead of 140 A."""
    assert _said(_tree(80.0, 60.0)) == {}


@pytest.mark.parametrize(
    ("asked", "code"),
    [((70.0, 60.0), "fuse-above-part"), ((90.0, 60.0), "fuse-below-part")],
)
def test_another_fuse_than_the_makers_is_named_with_both(asked, code):
    """Above it is a stop, below it a look: 80 A fitted against what is asked."""
    assert _said(_tree(*asked)) == {code: ("A-sub", 80.0, asked[0])}
    assert CODES[code] == ("stop" if "above" in code else "look")


def test_a_main_holds_the_makers_fuses_behind_it_or_a_stated_share():
    """150 A ahead of 80 A + 75 A is short; of 90 % of them, 139.5 A, it is not."""
    tree = _tree(80.0, 75.0)
    main = _said(tree)["main-fuse-below-sum"]
    assert main == ("P01", 150.0, 155.0)
    runs = tuple(replace(r, diversity=0.9) if r.id == "P01" else r for r in tree.runs)
    assert "main-fuse-below-sum" not in _said(replace(tree, runs=runs))


def test_a_bank_is_fused_for_the_note():
    """The first moments of a note come from it: what both amplifiers draw, far above 10 A."""
    tree = trees.estate()
    bank = Source(id="C", node="bank", kind="capacitor", emf=12.6, resistance=2e-3)

    def beside(fuse: float) -> Tree:
        link = trees.run("P05", "block", "bank", trees.BRANCH, 0.5, fuse=fuse, fuse_end=fuse)
        return trees.tree([*tree.runs, link], [*tree.sources, bank], list(tree.loads))

    about, value, limit = _said(beside(10.0))["bank-fuse-below-note"]
    # By hand: 600 W at 80 % from at most 12.6 V are 59.5 A and more.
    assert (about, value) == ("P05", 10.0)
    assert isinstance(limit, float)
    assert limit > 59.5
    assert "bank-fuse-below-note" not in _said(beside(80.0))


@pytest.mark.parametrize("sub", [20.0, 60.0, 100.0])
def test_what_is_chosen_is_the_makers_figure_or_says_so(sub: float):
    """Never above it, and never below it without a look that names both."""
    sizes = tuple(awg(size, insulation=105) for size in ("14", "8", "4", "1/0", "4/0"))
    fuses = tuple(
        Fuse(kind="strip", rating=r, breaking_capacity=10_000, opening=trees.CURVE)
        for r in (5.0, 15.0, 30.0, 40.0, 60.0, 80.0, 125.0, 200.0, 250.0)
    )
    choice = choose(_tree(sub, 60.0), Catalogue(conductors=sizes, fuses=fuses))
    fitted = {pick.run: pick.fuse_start for pick in choice.picks}
    branch, main = fitted["P02"], fitted["P01"]
    assert branch is not None
    assert main is not None
    assert branch.fuse.rating <= sub
    below = any(f.code == "fuse-below-part" and f.about == "A-sub" for f in choice.findings)
    assert below == (branch.fuse.rating < sub)
    assert main.fuse.rating >= sub + 60.0
    # A fuse below what flows is a stop, so nothing is put in.
    assert (choice.tree is None) == any(f.severity == "stop" for f in choice.findings)


def _contact(rated: float | None, *, fuse: float = 125.0) -> set[str]:
    """A switch between main and block."""
    tree = trees.estate()
    runs = [
        replace(r, end="gate", fuse_start=trees.fused(fuse)) if r.id == "P01" else r
        for r in tree.runs
    ]
    switch = Run(
        id="S", start="gate", end="block", conductor=None, length=None, return_path=None,
        contact=trees.contact(rated),
    )  # fmt: skip
    apart = trees.tree([*runs, switch], list(tree.sources), list(tree.loads))
    return {f.code for f in check(apart) if f.about == "S"}


def test_a_contact_is_held_to_what_it_may_carry():
    """Rated for the fuse ahead it says nothing; for less, for what flows, or unread, it does."""
    assert _contact(125.0) == set()
    assert _contact(100.0) == {"contact-fuse-above-rating"}
    assert "contact-over-rating" in _contact(20.0)
    assert _contact(None) == {"contact-rating-unknown"}


@pytest.mark.parametrize(
    ("emf", "stated", "code"),
    [
        # ISO 16750-2, code A: 16 V; a 24 V battery is charged at 28.8 V.
        (12.6, None, ""),
        (25.2, None, "highest-voltage-unknown"),
        (25.2, 32.0, ""),
        (25.2, 16.0, "voltage-above-part"),
    ],
)
def test_a_part_stands_what_reaches_it(emf: float, stated: float | None, code: str):
    """Of what nobody read a 24 V network asks; what is read binds."""
    lamp = Load(id="lamp", node="lamp", kind="current", value=2.0, highest_voltage=stated)
    run = trees.run("P01", "battery", "lamp", trees.BRANCH, 2.0, fuse=10)
    tree = trees.tree([run], [trees.battery(emf=emf)], [lamp])
    codes = {f.code for f in check(tree) if "voltage" in f.code and f.about == "lamp"}
    assert codes == ({code} if code else set())


def test_starting_may_open_a_fuse_and_lets_the_voltage_fall():
    """A fuse with a tail of its curve beyond ten seconds only may open; 9 V are said, no stop."""
    tree = trees.camper()
    starter = replace(tree.sources[0], starting_current=800.0)
    loads = (replace(tree.loads[0], minimum_voltage=11.9), *tree.loads[1:])
    runs = tuple(
        replace(r, fuse_start=trees.fused(200), fuse_end=trees.fused(200)) if r.id == "P01" else r
        for r in tree.runs
    )
    findings = check(replace(tree, sources=(starter, tree.sources[1]), loads=loads, runs=runs))
    said = {f.code: f.severity for f in findings if f.state and f.state[0] == "starting"}
    assert said["fuse-may-open-on-start"] == "look"
    assert said["low-voltage-on-start"] == "note"
