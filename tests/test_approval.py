"""What is held against what was let stand tells a change from rounding."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests import approval


@pytest.fixture
def kept(tmp_path, monkeypatch):
    """Two lines somebody let stand."""
    monkeypatch.setattr(approval, "KEPT", tmp_path)
    monkeypatch.delenv("APPROVE", raising=False)
    (tmp_path / "scene.txt").write_text("a = 1.23456\nb = wood\n", encoding="utf-8")


@pytest.mark.parametrize("lines", [("a = 1.23456", "b = wood"), ("a = 1.23457", "b = wood")])
def test_rounding_is_let_pass(kept, lines):
    """The same lines, or figures no further apart than two machines round them."""
    approval.hold("scene", lines)


@pytest.mark.parametrize(
    "lines",
    [
        ("a = 1.2347", "b = wood"),
        ("a = 1.23456", "b = board"),
        ("a = 1.23456",),
        ("b = wood", "a = 1.23456"),
        ("a = 1.23456", "b = wood", "b = wood"),
    ],
)
def test_a_change_is_noticed(kept, lines):
    """Another figure or word, a line less or more, another order."""
    with pytest.raises(pytest.fail.Exception, match=r"scene\.txt"):
        approval.hold("scene", lines)


def test_no_lines_hold_nothing(kept):
    """An empty result is no agreement."""
    with pytest.raises(AssertionError):
        approval.hold("scene", [])


def test_money_is_told():
    """An amount is a figure like others, to the cent."""
    assert [*approval.figures({"total": Decimal("1296.80")})] == [".total = 1296.80"]
