"""What the end of a piece of the interpreter's stack costs, and that nobody meets it with room."""

from __future__ import annotations

import time

import pytest

from jobs.stack import with_room

pytestmark = pytest.mark.bench

CALLS, DEEPEST = 2000, 200


def _leaf(a, b, c, d):
    return a


def _loop() -> float:
    began = time.process_time()
    for _ in range(CALLS):
        _leaf(1, 2, 3, 4)
    return time.process_time() - began


def _at(depth: int) -> float:
    return _at(depth - 1) if depth else min(_loop() for _ in range(3))


def _slowest() -> float:
    """How many times the usual time the same loop takes at the depth where it is slowest."""
    spent = sorted(_at(depth) for depth in range(DEEPEST))
    return spent[-1] / spent[DEEPEST // 2]


def test_a_loop_takes_as_long_at_any_depth():
    """With room, the same calls cost the same wherever they are made from."""
    without, with_ = _slowest(), with_room(_slowest)
    print(f"\nslowest depth: {without:.1f} times the usual, with room {with_:.1f}")
    assert with_ < 2.0
