"""Power tree, signal path and marks: nothing left out, nothing on another thing."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.drawings.pencil.marks import WORDS, mark
from jobs.drawings.pencil.nodes import Node
from jobs.drawings.pencil.svg import DrawingError
from jobs.drawings.wiring.power_tree import PowerTree, Run, line_width, power_tree
from jobs.drawings.wiring.signal_path import Link, SignalPath, signal_path

Rect = tuple[float, float, float, float]


def words(drawing: str) -> str:
    return " ".join(e.text or "" for e in ET.fromstring(drawing).iter() if e.tag.endswith("text"))


def boxes(drawing: str) -> list[Rect]:
    """The frames of the things, without fuses."""
    found = []
    for e in ET.fromstring(drawing).iter():
        if e.tag.endswith("rect") and e.get("width") != "26" and e.get("stroke-width") != "0.6":
            x, y, w, h = (float(e.attrib[k]) for k in ("x", "y", "width", "height"))
            found.append((x, y, x + w, y + h))
    return found


def apart(rects: list[Rect]) -> bool:
    return all(
        a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        for i, a in enumerate(rects)
        for b in rects[:i]
    )


def tree(parents: list[int]) -> PowerTree:
    """A tree in which node i + 1 hangs on node parents[i] (modulo what there is)."""
    nodes = [Node(id=f"n{i}", kind="block", name=f"thing {i}") for i in range(len(parents) + 1)]
    runs = [
        Run(
            label=f"P{i + 1:02}",
            start=f"n{parent % (i + 1)}",
            end=f"n{i + 1}",
            words=["16 mm²", "2.5 m"],
            fuse="60 A",
            area=16e-6,
        )
        for i, parent in enumerate(parents)
    ]
    return PowerTree(key="t", title="Tree", description="d", nodes=nodes, runs=runs)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.integers(0, 30), min_size=1, max_size=24))
def test_every_thing_and_run_is_drawn_and_no_box_covers_another(parents: list[int]) -> None:
    """Over all pages, whatever the shape of the tree."""
    spec = tree(parents)
    pages = power_tree(spec)
    said = " ".join(words(page) for page in pages)
    for node in spec.nodes:
        assert re.search(rf"\b{node.name}\b", said)
    for run in spec.runs:
        assert run.label in said
    assert all(apart(boxes(page)) for page in pages)
    ids = re.findall(r' id="([^"]+)"', "".join(pages))
    assert len(ids) == len(set(ids))


def test_many_leaves_wrap_to_pages_that_each_start_at_the_source() -> None:
    """Every page can be read by itself."""
    pages = power_tree(replace(tree([0] * 30), most_rows=14))
    assert len(pages) == 3
    assert all("thing 0" in words(page) for page in pages)


def test_a_node_fed_twice_and_a_loop_are_both_drawn() -> None:
    """Two sources on one stud, or a ring by mistake: every run entered is still to be seen."""
    nodes = [Node(id=i, kind="battery", name=f"battery {i}") for i in "ab"]
    nodes.append(Node(id="c", kind="block", name="block c"))
    runs = [
        Run(label="P01", start="a", end="c"),
        Run(label="P02", start="b", end="c"),
    ]
    spec = PowerTree(key="t", title="t", description="d", nodes=nodes, runs=runs)
    said = words(power_tree(spec)[0])
    assert said.count("block c") == 2
    assert "P01" in said
    assert "P02" in said
    ring = [Run(label=f"P1{a}", start=a, end=b) for a, b in ("ab", "bc", "ca")]
    said = words(power_tree(replace(spec, runs=ring))[0])
    assert all(run.label in said for run in ring)


def test_line_width_grows_with_the_conductor_and_unknown_is_dashed() -> None:
    """Thicker copper, thicker line; a size nobody knows is drawn broken."""
    sizes = [1.5e-6, 4e-6, 16e-6, 35e-6, 70e-6]
    widths = [line_width(a) for a in sizes]
    assert widths == sorted(widths)
    assert len(set(widths)) == len(widths)
    spec = tree([0])
    unknown = replace(spec, runs=[replace(spec.runs[0], area=None)])
    assert 'stroke-dasharray="5 3"' in power_tree(unknown)[0]
    assert 'stroke-dasharray="5 3"' not in power_tree(spec)[0]
    for bad in (0.0, -1e-6, float("nan")):
        with pytest.raises(DrawingError, match="area"):
            line_width(bad)


def test_findings_stand_at_the_spot_with_shape_and_word() -> None:
    """A stop on a run and a look on a node are both said in words."""
    spec = tree([0])
    marked = replace(
        spec,
        nodes=[spec.nodes[0], replace(spec.nodes[1], marks=["look"])],
        runs=[replace(spec.runs[0], marks=["stop", "stop"])],
    )
    drawing = power_tree(marked)[0]
    assert words(drawing).split().count("stop") == 1
    assert "look" in words(drawing)
    assert 'class="mark stop"' in drawing


def test_names_of_people_cannot_break_the_drawing() -> None:
    """Typed text is escaped."""
    spec = tree([0])
    nasty = replace(spec, nodes=[replace(spec.nodes[0], name="<b>&\x07"), spec.nodes[1]])
    assert "<b>&" in words(power_tree(nasty)[0])


def test_trees_without_sense_are_refused() -> None:
    """A run to nowhere and an empty tree each say so."""
    with pytest.raises(DrawingError, match="at least one node"):
        power_tree(PowerTree(key="t", title="t", description="d", nodes=[], runs=[]))
    with pytest.raises(DrawingError, match="P01"):
        power_tree(replace(tree([0]), nodes=tree([0]).nodes[:1]))


def path(count: int, order: list[int]) -> SignalPath:
    nodes = [
        Node(id="s", kind="source", name="Source"),
        Node(id="p", kind="processor", name="Proc"),
    ]
    nodes.append(Node(id="a", kind="amplifier", name="Amp"))
    nodes += [Node(id=f"k{i}", kind="speaker", name=f"Speaker {i}") for i in range(count)]
    links = [Link(start="s", end="p", out="line", into="1")]
    for i in range(count):
        links.append(Link(start="p", end="a", out=f"out {i + 1}", into=f"ch {i + 1}", words="L"))
        links.append(Link(start="a", end=f"k{order[i]}", out=f"ch {i + 1}", words=f"S{i:02}"))
    return SignalPath(key="s", title="Path", description="d", nodes=nodes, links=links)


@settings(deadline=None, max_examples=25)
@given(st.permutations(range(8)))
def test_speakers_line_up_with_their_channels_in_any_order(order: list[int]) -> None:
    """One speaker per channel can always be drawn without a crossing; the sweeps find it."""
    drawing = signal_path(path(8, order))
    tops = {}
    for e in ET.fromstring(drawing).iter():
        if e.text and e.text.startswith("Speaker "):
            tops[int(e.text.split()[1])] = float(e.attrib["y"])
    assert [k for k, _ in sorted(tops.items(), key=lambda kv: kv[1])] == list(order)
    assert apart(boxes(drawing))


def test_ports_are_sorted_as_people_count() -> None:
    """Port 10 comes after port 9."""
    drawing = signal_path(path(12, list(range(12))))
    outs = [
        (float(e.attrib["y"]), e.text)
        for e in ET.fromstring(drawing).iter()
        if e.text and e.text.startswith("out ")
    ]
    assert [name for _, name in sorted(outs)] == [f"out {i + 1}" for i in range(12)]


def test_a_link_may_pass_a_column_but_never_run_backwards() -> None:
    """A factory source straight to an amplifier is drawn past the processor."""
    spec = path(2, [0, 1])
    past = replace(spec, links=[*spec.links, Link(start="s", end="a", out="rear", factory=True)])
    assert "rear" in words(signal_path(past))
    with pytest.raises(DrawingError, match="left to right"):
        signal_path(replace(spec, links=[Link(start="a", end="p")]))


def test_marks_differ_in_shape_and_carry_no_colour_of_their_own() -> None:
    """Each kind has its own outline, drawn in the ink of the page."""
    shapes = {re.sub(r'class="[^"]*"', "", mark(kind)) for kind in WORDS}
    assert len(shapes) == len(WORDS)
    assert all("#" not in mark(kind) for kind in WORDS)
    with pytest.raises(DrawingError, match="no mark"):
        mark("octopus")
