"""Done differently: what is in the car is checked and printed, what was designed stands beside."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.records.as_built import differences
from jobs.design.records.data import from_data, to_data
from jobs.models import RunAsBuilt, SheetKind
from jobs.sheets.issue import printed
from tests.jobs.pages.kinds import form_at, typed

pytestmark = pytest.mark.django_db


def _run(scene, run):
    return next(row for row in load(scene.job).runs if row.pk == run.pk)


def _sent(hatchback, run, **changed):
    address = reverse("run-as-built-add", args=[hatchback.code])
    form = form_at(address, RunAsBuilt(job=hatchback.job, run=run))
    return address, typed(form) | {"reason": "The duct was full."} | changed


def test_the_installer_says_how_it_lies_and_every_check_reads_that(hatchback, browse):
    """The designed row stays; the calculators, the record and the labels take what is there."""
    run = hatchback.main_run
    address, sent = _sent(hatchback, run, length="2.4 m")
    assert browse("installer").post(address, sent).status_code == 302
    built = _run(hatchback, run)
    assert (built.length, built.designed.length) == (2.4, 0.6)
    (difference,) = differences(built)
    assert (difference.label, difference.designed, difference.built) == (
        "Length, one way", "0.60\xa0m", "2.40\xa0m",
    )  # fmt: skip
    assert [str(stop) for stop in built.route] == [str(stop) for stop in run.route]
    result = next(r for r in work_out(load(hatchback.job)).power.runs if r.run.pk == run.pk)
    assert result.run.length == 2.4
    run.refresh_from_db()
    assert run.length == 0.6


def test_a_new_stop_is_said_where_the_person_stands(hatchback, shelf, browse):
    """A fuse larger than its cable bears is a stop at once, in the answer to the save."""
    address, sent = _sent(hatchback, hatchback.six_run, fuse=shelf["150 A"].pk)
    client = browse("installer")
    preview = client.post(reverse("run-as-built-preview", args=[hatchback.code]), sent)
    assert "is-stop" in preview.content.decode()
    page = client.post(address, sent, follow=True)
    assert [str(m) for m in page.context["messages"] if "New stop" in str(m)]


def test_one_row_says_how_a_run_lies(hatchback, browse):
    """A second one is refused and what was typed stays; sent twice it is made once."""
    address, sent = _sent(hatchback, hatchback.main_run)
    client = browse("installer")
    assert client.post(address, sent).status_code == 302
    assert client.post(address, sent).status_code == 302
    assert RunAsBuilt.objects.filter(run=hatchback.main_run).count() == 1
    second = client.post(address, _sent(hatchback, hatchback.main_run)[1])
    assert second.status_code == 422
    assert "The duct was full." in second.content.decode()


def test_sheets_print_what_is_there_beside_what_was_designed(hatchback, cast):
    """Build sheet and record name each difference, why and by whom; read back from archive too."""
    records = load(hatchback.job)
    for design in (work_out(records), work_out(from_data(to_data(records)))):
        for kind in (SheetKind.BUILD, SheetKind.PANELS):
            html, _data = printed(
                design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now()
            )
            text = " ".join(html.split()).replace("\xa0", " ")
            assert "A bracket was in the way." in text, kind
            assert "5.00 m" in text
            assert "4.98 m" in text
            assert cast.installer.full_name in text
            assert "taped to the loom" in text
