"""Room on the interpreter's stack changes nothing but time."""

from __future__ import annotations

import pytest
from django.conf import settings

from jobs.stack import ROOM, with_room


def test_what_is_called_with_room_answers_as_without():
    """Its value comes back, and so does what it raises; however deep it goes."""

    def down(steps: int) -> int:
        return 1 + down(steps - 1) if steps else 0

    assert with_room(lambda: down(300)) == 300
    with pytest.raises(ZeroDivisionError):
        with_room(lambda: 1 // 0)
    assert with_room.__code__.co_stacksize == ROOM


def test_every_request_is_answered_with_room():
    """Before anything else is called."""
    assert settings.MIDDLEWARE[0] == "jobs.pages.middleware.roomy"
