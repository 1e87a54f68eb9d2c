"""What the board counts is true or said to be under way: never 0 while it is 2."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.models import Job
from tests.jobs.factories import make_job
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db
AFTER_COMMIT = "django_capture_on_commit_callbacks"


def _true(job: Job) -> tuple[int, int]:
    design = work_out(load(job))
    return len(design.open_stops), len(design.open_looks)


def _kept(job: Job) -> tuple[int | None, int | None]:
    return Job.objects.values_list("open_stops", "open_looks").get(pk=job.pk)


@pytest.fixture
def after_commit(request):
    """Do what waits for the end of a transaction, as outside a test."""
    return request.getfixturevalue(AFTER_COMMIT)


def _change(client, url: str, **changed: str) -> None:
    sent = typed(client.get(url).context["form"]) | changed
    answer = client.post(url, sent)
    assert answer.status_code == 302, answer.context["form"].errors


def test_a_fuse_changed_in_the_catalogue_counts_its_jobs_anew(
    hatchback, browse, shelf, after_commit
):
    """As designer, the fuse of the main run becomes one no cable bears."""
    job = hatchback.job
    board_counts.refresh(job)
    assert _kept(job)[0] == 0
    url = reverse("part-edit", args=[hatchback.main_run.fuse_id])
    with after_commit(execute=True):
        _change(browse("designer"), url, rating="500 A")
    assert _kept(job) == _true(job)
    assert _kept(job)[0] > 0


def test_until_it_is_counted_nothing_is_claimed(hatchback, browse, after_commit, monkeypatch):
    """Between the save and the count the board says so, and asks for the count of each job."""
    monkeypatch.setattr(board_counts, "AT_ONCE", -1.0)
    jobs = [hatchback.job, *(make_job(hatchback.job.vehicle) for _n in range(2))]
    for job in jobs:
        board_counts.refresh(job)
    client = browse("manager")
    url = reverse("workshop")
    with after_commit(execute=False):
        _change(client, url, name="Another name")
    assert None not in {_kept(job)[0] for job in jobs}
    with after_commit(execute=False):
        _change(client, url, kerf="4 mm")
    assert {_kept(job) for job in jobs} == {(None, None)}
    html = client.get(reverse("board")).content.decode()
    assert html.count("counts being renewed") == len(jobs)
    for job in jobs:
        assert reverse("count", args=[job.code]) in html
        answer = client.post(reverse("count", args=[job.code]))
        assert "being renewed" not in answer.content.decode()
        assert _kept(job) == _true(job)
    # Whoever saves waits for one job at least, and no longer than is said.
    with after_commit(execute=True):
        _change(client, url, kerf="3 mm")
    assert [_kept(job)[0] is None for job in jobs].count(True) == len(jobs) - 1


def test_the_page_after_a_save_counts(hatchback, browse):
    """A save takes the counts away; the page that follows it shows and keeps the true ones."""
    job, client = hatchback.job, browse("designer")
    board_counts.refresh(job)
    client.post(reverse("run-remove", args=[job.code, hatchback.main_run.pk]))
    assert _kept(job) == (None, None)
    client.get(reverse("power", args=[job.code]))
    assert _kept(job) == _true(job)


def test_who_read_before_a_save_keeps_no_count(hatchback):
    """A page that was read before somebody saved leaves the count to whoever reads after."""
    board_counts.forget(hatchback.job)
    read_before = work_out(load(Job.objects.get(pk=hatchback.job.pk)))
    hatchback.main_run.remove()
    board_counts.forget(hatchback.job)
    board_counts.keep(read_before)
    assert _kept(hatchback.job) == (None, None)


def test_a_car_two_jobs_share_counts_both(hatchback, browse, after_commit):
    """What is known of a car holds for each of its visits."""
    other = make_job(hatchback.job.vehicle)
    for job in (hatchback.job, other):
        board_counts.refresh(job)
    before = _kept(other)
    with after_commit(execute=True):
        _change(browse("designer"), reverse("car", args=[hatchback.code]), battery_charge="")
    assert _kept(other) == _true(other)
    assert _kept(hatchback.job) == _true(hatchback.job)
    assert _kept(hatchback.job) != (None, None)
    assert before != (None, None)


def test_a_part_is_looked_for_wherever_it_stands(hatchback, shelf):
    """On the list, in a run, as wood: each use counts; a part nobody uses touches no job."""
    job = hatchback.job
    for part in (
        *(hatchback.sub.part, hatchback.box.material, hatchback.main_run.conductor),
        *(hatchback.main_run.fuse, hatchback.main_run.start_terminal),
    ):
        own = next(one for one in shelf.values() if one.pk == part.pk)
        assert job in board_counts.touched_by(own)
    unused = [part for part in shelf.values() if job not in board_counts.touched_by(part)]
    assert unused
