"""What a fuse in the way of a cable asks for: two ends more, terminals for them, a holder."""

from __future__ import annotations

import pytest

from jobs.models import Fuse, Run, Workshop
from tests.jobs.design.wiring.test_schedule import codes, schedule

pytestmark = pytest.mark.django_db


def test_the_plus_ends_twice_at_a_fuse_in_its_way(van):
    """Fuses 150 mm from both ends part the plus: three pieces, six ends; the minus has two."""
    link = van.link
    lists = schedule(van.job)
    line = next(line for line in lists.lines if line.run == link)
    shop = Workshop.current()
    by_hand = [part * (1 + shop.cable_slack) + 2 * shop.cable_per_end for part in (0.15, 3.9, 0.15)]
    assert line.row.pieces == pytest.approx(by_hand)
    assert line.return_cut == pytest.approx(shop.cable_per_end * 2 + 4.2 * (1 + shop.cable_slack))
    ends = [row for row in lists.ends if row.run.label == link.label]
    a, b = f"F-{link}a", f"F-{link}b"
    assert [row.cut.fuse if row.cut else "" for row in ends if row.core.sign == "+"] == [
        *("", a, a, b, b, "")
    ]
    assert len([row for row in ends if row.core.sign == "−"]) == 2


def test_a_fuse_on_the_post_or_in_the_block_parts_nothing(hatchback):
    """At 0 the cable starts at the fuse, so that there is no end more and none to choose."""
    Run.objects.filter(pk=hatchback.main_run.pk).update(fuse_distance=0.0, fuse_terminal=None)
    assert not [row for row in schedule(hatchback.job).ends if row.cut]
    assert "fuse-terminal-not-chosen" not in codes(hatchback.job)


def test_how_the_cable_ends_at_a_fuse_is_asked_once(hatchback, shelf):
    """No terminal there is said by a code of its own; one of another size or stud as elsewhere."""
    run = Run.objects.filter(pk=hatchback.main_run.pk)
    run.update(fuse_terminal=None, fuse_distance=None)
    assert hatchback.main_run.label in codes(hatchback.job)["fuse-terminal-not-chosen"]
    assert "terminal-not-chosen" not in codes(hatchback.job)
    run.update(fuse_terminal=shelf["ring 2.5 mm²"])
    assert f"F-{hatchback.main_run}" in codes(hatchback.job)["terminal-wrong-size"]


def test_a_fuse_without_a_holder_is_told_once_for_all(hatchback, shelf):
    """On the cable or on a post a fuse needs something that holds it; in a block it has its way."""
    assert "fuse-holder-not-chosen" not in codes(hatchback.job)
    Run.objects.filter(job=hatchback.job).update(fuse_holder=None)
    assert codes(hatchback.job)["fuse-holder-not-chosen"] == hatchback.main_run.label
    Run.objects.filter(pk=hatchback.main_run.pk).update(fuse_distance=0.0)
    assert "fuse-holder-not-chosen" in codes(hatchback.job)  # it starts at a battery
    Run.objects.filter(pk=hatchback.six_run.pk).update(fuse_distance=0.2)
    both = f"{hatchback.main_run}, {hatchback.six_run}"
    assert codes(hatchback.job)["fuse-holder-not-chosen"] == both
    Fuse.objects.update(type=Fuse.Type.BREAKER)
    assert "fuse-holder-not-chosen" not in codes(hatchback.job)
