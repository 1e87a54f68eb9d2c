"""On random jobs: a name is nowhere a key, a copy is another record, and nothing is hidden."""

from __future__ import annotations

from collections import Counter
from copy import copy, deepcopy
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, decided
from jobs.design.records.records import JobRecords
from jobs.models import Decision, Job, PowerNode
from tests.jobs import factories

pytestmark = pytest.mark.django_db
# What a workshop forgets to enter, by the list of the job it is in.
GAPS = {
    "runs": (
        "length",
        "conductor",
        "fuse",
        "return_length",
        "zone",
        "start_terminal",
        "end_terminal",
        "start",
        "fuse_distance",
    ),
    "nodes": ("internal_resistance", "current", "charge", "cca", "capacitance", "equipment"),
    "channels": ("speaker", "amplifier", "amplifier_channel", "factory_speaker"),
    "boxes": ("driver", "material", "wanted_volume", "cavity_width"),
    "panels": ("airbag_near",),
    "factory_parts": ("fate",),
    "rings": ("outer_diameter", "material"),
    "trim_panels": ("width", "material"),
    "equipment": ("ventilated",),
}
EMPTY = {"zone": "", "fate": ""}
NAMED = ("nodes", "boxes", "channels", "panels", "rings", "trim_panels")
# Names that look like a key, a list, a place or a word of the calculators.
NAMES = st.sampled_from(
    [
        "Amp",
        "Amp #2",
        "Amp, rear",
        "Amp · rear",
        "P01 > P02",
        "P01",
        "front",
        "port",
        "out",
        "Öl / 1",
    ]
) | st.text(min_size=1, max_size=12)
USUAL = settings(
    max_examples=12,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)


@pytest.fixture
def jobs(hatchback, van, saloon) -> list[JobRecords]:
    """Three jobs with a story, and one of two rows of everything."""
    small = factories.make_job(hatchback.job.vehicle, number=99)
    factories.make_rows(small, 2)
    return [load(job) for job in Job.objects.order_by("number")]


def _with_gaps(records: JobRecords, data: st.DataObject) -> JobRecords:
    """A copy of a job where some figures were never entered."""
    broken = deepcopy(records)
    for _ in range(data.draw(st.integers(0, 6))):
        rows = data.draw(st.sampled_from(sorted(name for name in GAPS if getattr(broken, name))))
        row = data.draw(st.sampled_from(list(getattr(broken, rows))))
        gap = data.draw(st.sampled_from(GAPS[rows]))
        setattr(row, gap, EMPTY.get(gap))
    return broken


def _renamed(records: JobRecords, data: st.DataObject) -> JobRecords:
    """The same job with other names, of parts and materials of the catalogue too."""
    other = deepcopy(records)
    rows = [row for name in NAMED for row in getattr(other, name)]
    parts = [item.part for item in other.equipment]
    parts += [driver for part in parts if (driver := getattr(part, "driver", None))]
    parts += [run.conductor for run in other.runs if run.conductor]
    for row in rows:
        row.name = data.draw(NAMES)
    for part in (*parts, *(box.material for box in other.boxes if box.material)):
        part.name = data.draw(NAMES)
    for part in other.factory_parts:
        part.place = data.draw(NAMES)
    for item in other.equipment:
        item.place = data.draw(NAMES)
    other.job.vehicle.model = data.draw(NAMES)
    return other


def _known_by(findings: tuple[Finding, ...]) -> Counter[tuple[str, ...]]:
    return Counter((one.key, one.fingerprint, one.severity, one.section) for one in findings)


@USUAL
@given(data=st.data())
def test_another_name_changes_no_finding_but_its_words(jobs, data):
    """Key, fingerprint, severity and number of all findings are the same under any names."""
    broken = _with_gaps(data.draw(st.sampled_from(jobs)), data)
    before = work_out(broken).findings
    assert before
    assert _known_by(work_out(_renamed(broken, data)).findings) == _known_by(before)


@USUAL
@given(data=st.data())
def test_every_finding_is_shown_and_decided_by_itself(jobs, data):
    """No two findings share a key, and a decision settles exactly the one it was made on."""
    findings = work_out(_with_gaps(data.draw(st.sampled_from(jobs)), data)).findings
    twice = [key for key, count in Counter(one.key for one in findings).items() if count > 1]
    assert [one for one in findings if one.key in twice] == []
    one = data.draw(st.sampled_from(findings))
    settled = decided(findings, [Decision(fingerprint=one.fingerprint)])
    assert len(settled) == len(findings)
    assert [each.key for each in settled if each.decision] == [one.key]


COPIED = ("panels", "boxes", "rings", "factory_parts", "nodes")


def _copied(records: JobRecords, name: str, row) -> tuple[JobRecords, object]:
    twin = copy(row)
    twin.pk = 10_000 + len(getattr(records, name))
    return replace(records, **{name: [*getattr(records, name), twin]}), twin


# Said once of a job for all its rows: one row more is another finding, and asks again.
TOGETHER = {"not-placed", "panels-not-recorded"}


@USUAL
@given(data=st.data())
def test_a_copy_adds_its_own_findings_and_no_other(jobs, data):
    """A second record just like the first brings as many findings again, each to be decided."""
    broken = _with_gaps(data.draw(st.sampled_from(jobs)), data)
    name = data.draw(st.sampled_from([one for one in COPIED if getattr(broken, one)]))
    row = data.draw(st.sampled_from(list(getattr(broken, name))))
    if name == "nodes":
        # A copy is wired to nothing: copy one that is not wired either.
        row = PowerNode(pk=9_999, job=broken.job, kind=PowerNode.Kind.LOAD, name=row.name)
        broken = replace(broken, nodes=[*broken.nodes, row])
    before = [one for one in work_out(broken).findings if one.code not in TOGETHER]
    more, twin = _copied(broken, name, row)
    settled = [Decision(fingerprint=one.fingerprint) for one in before]
    after = work_out(replace(more, decisions=settled)).findings
    after = tuple(one for one in after if one.code not in TOGETHER)
    mine = [one for one in before if one.about.is_of(about(row))]
    added = [one for one in after if one.about.is_of(about(twin))]
    assert [one.code for one in added] == [one.code for one in mine]
    assert not any(one.decision for one in added)
    rest = tuple(one for one in after if one not in added)
    assert _known_by(rest) == _known_by(before)
    assert all(one.decision for one in rest)
