"""Ground points: what meets there, which way it flows, and what is half entered."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wiring.returns import meeting_at, passed
from jobs.models import GroundPoint, Run, Vehicle
from tests.jobs.factories import make_ground
from tests.jobs.scenes import Van

pytestmark = pytest.mark.django_db


def _on_one_stud(van: Van) -> GroundPoint:
    """Second battery and amplifier on one body stud, a milliohm away from the starter battery."""
    stud = make_ground(van.job, "Sill", kind=GroundPoint.Kind.BODY, stud="M8", resistance=0.001)
    Run.objects.filter(pk=van.link.pk).update(return_end=stud, return_start=None)
    Run.objects.filter(pk=van.branch.pk).update(return_start=stud)
    return stud


def test_a_point_named_at_both_ends_counts_once(van: Van) -> None:
    """A minus whose both ends are on one stud meets that stud's resistance once."""
    stud = _on_one_stud(van)
    van.branch.return_kind = Run.Return.CHASSIS
    van.branch.return_start = van.branch.return_end = stud
    assert passed(van.branch) == [stud]


def test_runs_without_ends_are_no_trunk(van: Van) -> None:
    """Of two half-entered runs on one stud neither feeds the other, and the job works out."""
    stud = _on_one_stud(van)
    Run.objects.filter(pk=van.link.pk).update(end=None, return_end=stud)
    Run.objects.filter(pk=van.branch.pk).update(start=None)
    records = load(van.job)
    meeting = meeting_at(stud, records.runs)
    assert len(meeting.runs) == 2
    assert not meeting.trunks
    assert work_out(records).findings


@pytest.mark.parametrize(
    ("figures", "given"),
    [
        ({"charging_current_idle": 80.0, "charging_hot_share": 0.8, "vehicle_current": 35.0}, 29.0),
        (
            {"charging_current_idle": 80.0, "charging_hot_share": None, "vehicle_current": 35.0},
            18.3,
        ),
        ({"charging_current_idle": None, "charging_current": 180.0, "vehicle_current": 35.0}, 25.0),
        ({"charging_current_idle": 80.0, "vehicle_current": None}, 0.1),
        ({"charging_current_idle": None, "charging_current": None, "vehicle_current": 35.0}, 0.1),
    ],
)
def test_an_unread_alternator_gives_the_least(
    van: Van, figures: dict[str, float | None], given: float
) -> None:
    """What nobody has read of the alternator at idle counts as the least, never as plenty.

    Published: an engine maker's manual, 16 A hot at idle of 48 A rated and of 24 A cold.
    """
    Vehicle.objects.filter(pk=van.job.vehicle_id).update(**figures)
    tree = work_out(load(van.again().job)).power.tree
    assert tree is not None
    alternator = next(source for source in tree.sources if source.kind == "alternator")
    assert alternator.idle_limit == pytest.approx(given, abs=0.05)
