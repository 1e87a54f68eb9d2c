"""Room on the interpreter's stack, so that no loop runs across the end of a piece of it.

CPython keeps the frames of Python functions in pieces of 16 KiB (`_PyThreadState_PushFrame` in
Python/pystate.c, from memory; measured on 3.11: `tests/bench/test_stack.py`). A call that does not
fit maps a new piece, and its return gives it back: a loop that stands just there pays for both at
every call, and pages took half as long again. A frame that asks for much gets a piece with room
for all that is called from it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")

# Words; a piece is as large as the next power of two, so that as much again is left.
ROOM = 33_000


def with_room(run: Callable[[], T]) -> T:
    """Call something with room for some hundred calls within each other."""
    return run()


with_room.__code__ = with_room.__code__.replace(co_stacksize=ROOM)
