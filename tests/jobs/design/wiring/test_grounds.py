"""Ground points: what meets there, which way it flows, and what is half entered."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wiring.grounds import work_out_grounds
from jobs.design.wiring.returns import meeting_at, passed
from jobs.models import GroundPoint, Holder, PowerNode, Run, Vehicle
from tests.jobs.factories import make_block, make_ground, make_item, make_power_run
from tests.jobs.scenes import Hatchback, Van
from wiring.network.states import PASSING

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
    meeting = meeting_at(stud, records, records.runs)
    assert len(meeting.runs) == 2
    assert not meeting.trunks
    assert work_out(records).findings


def test_a_second_battery_at_a_block_is_no_trunk(van: Van) -> None:
    """What it gives to the block leaves the point where its minus is, or charges it from there.

    By hand, Kirchhoff: what the branch sends in, less what the second battery takes out, is what
    goes on to the first battery; the first battery's own run is the trunk and says the same.
    """
    block = make_block(van.job, "Block")
    bar = make_ground(van.job, "Bar", kind=GroundPoint.Kind.BLOCK, stud="M8")
    for run in (van.link, van.branch):
        Run.objects.filter(pk=run.pk).update(return_start=None, return_end=bar)
    Run.objects.filter(pk=van.link.pk).update(end=block, end_fuse=None)
    Run.objects.filter(pk=van.branch.pk).update(start=block)
    second = make_power_run(
        van.leisure, block, van.link.conductor, 1.0, fuse=van.link.fuse, fuse_distance=0.1,
        return_end=bar, end_fuse=van.link.fuse, end_fuse_distance=0.1,
    )  # fmt: skip
    design = work_out(load(van.again().job))
    [ground] = [row for row in work_out_grounds(design.records, design.power) if row.point == bar]
    meeting = meeting_at(bar, design.records, design.records.runs)
    assert meeting.trunks == [van.link]
    assert meeting.leaving == [second]
    assert design.power.solved is not None
    trunk = [
        abs(solution.runs[about(van.link).id].current)
        for state, solution in design.power.solved.solutions.items()
        if state.condition not in PASSING
    ]
    assert ground.current == pytest.approx(max(trunk), rel=1e-6)
    # The second battery flat: what charges it passes here, the music does not count alone.
    branch = [
        abs(solution.runs[about(van.branch).id].current)
        for solution in design.power.solved.solutions.values()
    ]
    assert ground.current != pytest.approx(max(branch), rel=0.05)


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


def test_a_minus_that_ends_nowhere_and_a_thin_shared_lead_are_looks(hatchback: Hatchback) -> None:
    """Where it goes is asked; what several lose on one long lead is held to half of 3 %."""
    Run.objects.filter(pk=hatchback.main_run.pk).update(return_start=None, return_end=None)
    GroundPoint.objects.filter(pk=hatchback.ground_bar.pk).update(
        conductor=hatchback.main_run.conductor, length=9.0
    )
    looks = {
        finding.code: finding.name
        for finding in work_out(load(hatchback.again().job)).findings
        if finding.severity == "look"
    }
    assert looks["return-end-unknown"] == hatchback.main_run.label
    assert looks["shared-return-drop"] == str(hatchback.ground_bar)


def test_a_block_nobody_has_read_is_a_look(hatchback: Hatchback) -> None:
    """What it may carry is asked of its maker's sheet."""
    part = Holder.objects.create(kind="holder", name="Block", ways=4, largest_cable=35e-6)
    item = make_item(hatchback.job, part, "boot")
    PowerNode.objects.filter(pk=hatchback.block.pk).update(equipment=item)
    findings = work_out(load(hatchback.again().job)).findings
    [look] = [f for f in findings if f.code == "holder-rating-unknown"]
    assert (look.severity, look.name) == ("look", hatchback.block.name)


def test_a_run_without_a_way_back_is_asked_for_no_end_of_it(hatchback: Hatchback) -> None:
    """Where the minus of a run goes is asked once its way back is known, not before."""
    Run.objects.filter(pk=hatchback.main_run.pk).update(
        return_kind="", return_start=None, return_end=None
    )
    codes = {finding.code for finding in work_out(load(hatchback.again().job)).findings}
    assert "return-end-unknown" not in codes
