"""What to order for the runs of a job."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.wiring.runs.test_schedule import ALLOWANCE, CUT, GROUND, MAIN, RING, RUNS, SPEAKER, THICK
from wiring.cable.terminals import Passage
from wiring.runs.labelled import Allowance, Core
from wiring.runs.order import cable_order
from wiring.runs.schedule import check_schedule, crimp_list, wire_schedule


def test_cable_order_worked_by_hand() -> None:
    """Each size and colour is summed with slack, a sheath counts once (by hand)."""
    order = cable_order(RUNS, ALLOWANCE)
    assert [(c.size, c.colours, c.runs) for c in order.cables] == [
        ("14 AWG", ("WH", "WHBK"), ("S01",)),
        ("25 mm²", ("BK",), ("P02",)),
        ("25 mm²", ("RD",), ("P01",)),
    ]
    assert [c.length for c in order.cables] == pytest.approx([4.7, 5.8, 5.8])
    assert order.terminals == {"ferrule 25 mm²": 4, "ring M8, 25 mm²": 2, "spade 6.3 mm": 2}
    assert order.heat_shrink == pytest.approx({0.004: 0.12, 0.010: 0.12})
    assert order.grommets == {"firewall": ("P01", "P02")}
    assert order.ties == 17 + 17 + 9
    assert (order.unmeasured, order.unfinished) == ((), ())


def test_a_fuse_in_the_way_is_ordered_for() -> None:
    """A plus cut once: 5·1.1 + 4·0.15 = 6.1 m, two rings and two sleeves more (by hand)."""
    core = replace(MAIN.cores[0], cuts=(CUT,))
    order = cable_order([replace(MAIN, cores=(core,))], ALLOWANCE)
    assert order.cables[0].length == pytest.approx(6.1)
    assert order.terminals == {"ferrule 25 mm²": 1, "ring M8, 25 mm²": 3}
    assert order.heat_shrink == pytest.approx({0.010: 0.12})
    open_end = replace(core, cuts=(replace(CUT, terminal=None),))
    assert cable_order([replace(MAIN, cores=(open_end,))], ALLOWANCE).unfinished == ("P01",)


def test_loose_cores_are_ordered_one_by_one() -> None:
    """Without a sheath each core is its own cable."""
    order = cable_order([replace(SPEAKER, one_sheath=False)], ALLOWANCE)
    assert [(c.colours, c.length) for c in order.cables] == [
        (("WH",), pytest.approx(4.7)),
        (("WHBK",), pytest.approx(4.7)),
    ]


def test_a_plug_goes_on_the_lead_once() -> None:
    """However many cores and screens meet in it, one plug an end, and nothing to crimp."""
    plug = replace(RING, name="plug", crimped=False)
    core = Core(conductor=THICK, colour="GY", start=plug, end=plug)
    cores = (core, replace(core, colour="WH"), replace(core, colour="", screen=True))
    lead = replace(SPEAKER, label="L01", cores=cores)
    order = cable_order([lead], ALLOWANCE)
    assert order.terminals == {"plug": 2}
    assert [cable.colours for cable in order.cables] == [("GY", "WH")]
    rows = crimp_list([lead])
    assert len(rows) == 6
    assert not any(row.is_crimped or row.pull_force for row in rows)
    codes = {finding.code for finding in check_schedule([lead])}
    assert not codes & {"pull-force-unpublished", "terminal-not-chosen"}


def test_order_names_what_is_missing() -> None:
    """A run without a length or a terminal is named in the order, not left out silently."""
    open_end = replace(GROUND, cores=(Core(conductor=THICK, colour="BK", start=RING),))
    order = cable_order([replace(MAIN, length=None), open_end], ALLOWANCE)
    assert order.unmeasured == ("P01",)
    assert order.ties == 17  # the measured run's alone
    assert order.unfinished == ("P02",)


def test_unknown_edge_gets_a_grommet() -> None:
    """An edge nobody looked at is ordered for as if it were metal."""
    unknown = replace(
        MAIN, passages=(Passage(id="seat rail", place="seat rail", metal=None, grommet=None),)
    )
    assert cable_order([unknown], ALLOWANCE).grommets == {"seat rail": ("P01",)}


@settings(deadline=None, max_examples=60)
@given(
    lengths=st.lists(st.floats(0.05, 12.0), min_size=1, max_size=12),
    slack=st.floats(0.0, 0.3),
    per_end=st.floats(0.0, 0.3),
)
def test_order_covers_what_is_cut(lengths: list[float], slack: float, per_end: float) -> None:
    """The metres ordered cover all cuts and exceed them by less than one step per line."""
    allowance = Allowance(slack=slack, per_end=per_end, heat_shrink=0.0)
    labels = tuple(f"P{number:02d}" for number in range(1, len(lengths) + 1))
    runs = [replace(MAIN, label=a, length=b) for a, b in zip(labels, lengths, strict=True)]
    cut = sum(row.cut_length for row in wire_schedule(runs, allowance))
    (line,) = cable_order(runs, allowance).cables
    assert cut - 1e-6 <= line.length <= cut + 0.1 + 1e-6
    assert line.runs == labels
