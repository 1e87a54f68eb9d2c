"""Which fuses have to open when a run without its own is shorted: those that a source feeds."""

from __future__ import annotations

from dataclasses import replace

from tests.wiring import trees
from wiring.network.tree import Tree
from wiring.protection.protection import Protection


def guards(tree: Tree, label: str, node: str) -> list[tuple[str, float]]:
    """Runs and ratings of the fuses that guard a run from one end."""
    run = next(run for run in tree.runs if run.id == label)
    return [(other.id, seat.fuse.rating) for other, seat in Protection(tree).guards(run, node)]


def unfused(tree: Tree, *labels: str) -> Tree:
    """The tree with the fuses of these runs taken out."""
    runs = [
        replace(run, fuse_start=None, fuse_end=None) if run.id in labels else run
        for run in tree.runs
    ]
    return replace(tree, runs=tuple(runs))


def test_only_fuses_that_a_source_feeds_guard_a_run() -> None:
    """Of the fuses round a block the one towards the battery counts, those towards loads do not."""
    bare = unfused(trees.estate(), "P02")
    assert guards(bare, "P02", "block") == [("P01", 150)]
    assert guards(trees.estate(), "P02", "block") == [("P02", 80)]


def test_each_source_has_its_own_guard() -> None:
    """A run fed by two batteries has the fuse of each; with no fuse on the way there is none."""
    bare = unfused(trees.camper(), "P03")
    assert guards(bare, "P03", "block") == [("P02", 125)]
    further = unfused(trees.camper(), "P02", "P03")
    assert guards(further, "P03", "block") == [("P01", 300)]
    assert guards(unfused(trees.camper(), "P01", "P02", "P03"), "P03", "block") == []
