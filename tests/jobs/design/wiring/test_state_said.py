"""In which state of the car a finding of the wiring holds is said where that is not plain."""

from __future__ import annotations

import pytest

from jobs.design.records.about import About
from jobs.design.wiring.power import Named, _from_tree
from wiring.findings import Finding
from wiring.network.states import Condition


@pytest.mark.parametrize(
    ("condition", "of_many", "is_said"),
    [
        (Condition.RUNNING, False, False),
        (Condition.RUNNING, True, True),
        # Starting and standing locked are never the usual state.
        (Condition.STARTING, False, True),
        (Condition.KEY_OFF, False, True),
        (Condition.STARTING, True, True),
        (None, True, False),
    ],
)
def test_a_state_is_said_where_there_are_several_or_it_passes(condition, of_many, is_said):
    """With one lasting state there is nothing to tell it from."""
    about = About(kind="run", key="7")
    finding = Finding(
        code="load-without-source", about="7", state=(condition.value,) if condition else ()
    )
    told = _from_tree(finding, {"7": Named(about, "P01", {})}, {}, of_many=of_many)
    assert bool(told.place) == is_said
    assert (told.about, told.name) == (about, "P01")
