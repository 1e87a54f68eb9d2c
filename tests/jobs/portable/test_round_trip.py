"""A job goes out and comes in again without loss, into the same tables or into empty ones."""

from __future__ import annotations

import io
import json
import random
import zipfile
from typing import Any

import pytest
from django.core.files.storage import default_storage
from django.core.management import call_command
from django.db import connection

from jobs.design.job.whole import load, work_out
from jobs.design.records.changes import Present
from jobs.models import IssuedSheet, Job, Offer, Panel, User
from jobs.pages.portable.published import job_schema
from jobs.portable.making import make
from jobs.portable.matching import Plan
from jobs.portable.origin import data_here
from jobs.portable.reading import opened
from jobs.portable.results import differing
from jobs.sheets.chain import faults
from tests.jobs.portable.conftest import packed
from tests.jobs.portable.shuffle import shuffled

pytestmark = pytest.mark.django_db


def taken_in(file: io.BytesIO) -> tuple[Job, Plan]:
    """The job that is made of a file."""
    with opened(file, job_schema()) as arrival:
        return make(arrival)


def says(file: io.BytesIO) -> dict[str, Any]:
    """Everything in a file but the number of its job, the secrets of sheets, and the list."""
    with zipfile.ZipFile(file) as archive:
        names = [
            name for name in archive.namelist() if name not in ("manifest.json", "READ ME.txt")
        ]
        every: dict[str, Any] = {name: archive.read(name) for name in names}
    document = json.loads(every.pop("job.json"))
    job = document["records"]["rows"]["Job"][0]
    number = f"J-{job['number']:04d}"
    del document["job"], job["number"]
    for name in ("IssuedSheet", "Panel"):
        for row in document["records"]["rows"].get(name, ()):
            del row["token"]
    results = every.pop("results.json").decode().replace(number, "J")
    return every | {"job.json": document, "results.json": json.loads(results)}


def test_what_comes_in_is_what_went_out(full, file):
    """Every row, figure, photo, decision and sheet; only the number and the codes are others."""
    before = says(file)
    box = before["results.json"]["boxes"][0]
    assert {"spl", "excursion", "impedance"} <= box["curves"].keys()
    assert {"net_volume", "fc", "f3"} <= {figure["name"] for figure in box["figures"]}
    job, planned = taken_in(file)
    assert (job.pk, job.number) != (full.pk, full.number)
    assert planned.number_is_taken
    assert planned.customer.is_here
    assert not planned.new_parts
    assert not planned.new_people
    assert (planned.damaged, planned.different, planned.lost) == ([], [], [])
    assert [*differing(before, says(packed(job)))] == []


def test_findings_keep_their_decisions_and_their_releases(full, file):
    """A decision holds in the new job for what it held for, and no gate opens or shuts."""
    job, _planned = taken_in(file)
    then, now = (work_out(load(each)) for each in (full, job))
    decided = [f.code for f in then.findings if f.decision]
    assert len(decided) > 1
    assert [(f.code, bool(f.decision)) for f in now.findings] == [
        (f.code, bool(f.decision)) for f in then.findings
    ]
    release = now.records.releases[0]
    assert {key for item in now.still_open for key in item.keys} <= set(release.left_open["keys"])
    assert [sign.subject for sign in now.records.gate_signs] == [
        f"channel {now.records.channels[-1].pk}"
    ]


def test_sheets_keep_their_bytes_and_their_chain(full, file):
    """What was issued elsewhere is as it was issued, and says that nothing has changed since."""
    job, _planned = taken_in(file)
    assert list(faults(full)) == list(faults(job)) == []
    mine, theirs = (list(j.issued_sheets.order_by("pk")) for j in (full, job))
    assert [bytes(a.pdf) for a in mine] == [bytes(b.pdf) for b in theirs]
    present = Present.of(load(job))
    # The number and the codes on the panels are taken here; nothing else is another.
    changes = present.changes_since(data_here(theirs[-1]))
    assert {name for change in changes for name in change.fields} == {"number", "token"}
    assert not any(change.is_new or change.is_gone for change in changes)
    IssuedSheet.objects.filter(pk=theirs[1].pk).update(pdf=b"%PDF-x")
    photo = job.photos.order_by("pk")[0]
    default_storage.delete(photo.image.name)
    complaints = {fault.what for fault in faults(job)}
    assert "its PDF was changed" in complaints
    assert any("(image) was changed or is lost" in what for what in complaints)


def test_secrets_stay(full, file):
    """No link of an offer, no signature, no original, no buying price, no sign-in goes along."""
    offer = Offer.objects.get(job=full)
    text = file.getvalue() + b"".join(
        zipfile.ZipFile(file).read(name) for name in ("job.json", "results.json")
    )
    assert offer.token.encode() not in text
    rows = json.loads(zipfile.ZipFile(file).read("job.json"))["records"]["rows"]
    assert not {"token", "signature"} & rows["Offer"][0].keys()
    assert rows["Offer"][0]["accepted_name"] == "Invented Name"
    assert {*rows["User"][0]} == {"id", "last_name"}
    assert not {"cost", "supplier", "notes"} & rows["Part"][0].keys()
    assert "original" not in rows["Photo"][0]
    job, _planned = taken_in(file)
    assert Offer.objects.get(job=job).token != offer.token


def test_an_empty_installation_keeps_number_and_codes(full, file, django_db_blocker):
    """Where nothing is, people, parts, car and customer are made anew, and nobody can sign in."""
    names = [*Panel.objects.filter(job=full).order_by("pk").values_list("token", flat=True)]
    number, before = full.number, says(file)
    connection.check_constraints()  # PostgreSQL empties no table that has checks to come
    call_command("flush", interactive=False, verbosity=0)
    job, planned = taken_in(file)
    assert job.number == number
    assert len(planned.new_parts) == len(planned.parts) > 3
    assert not any(user.is_active or user.has_usable_password() for user in User.objects.all())
    assert [*Panel.objects.filter(job=job).order_by("pk").values_list("token", flat=True)] == names
    after = says(packed(job))
    for every in (before, after):  # the settings of the workshop stay
        del every["job.json"]["records"]["rows"]["Workshop"]
    assert [*differing(before, after)] == []


def _try(number: int, scenes: list[Job]) -> None:
    job = shuffled(scenes[number % len(scenes)], random.Random(number))
    file = packed(job)
    made, planned = taken_in(file)
    assert [*differing(says(file), says(packed(made)))] == [], f"seed {number}"
    assert planned.different == []


@pytest.mark.parametrize("number", range(3))
def test_a_random_job_comes_in_as_it_went_out(number, full, van, saloon):
    """Figures, choices, texts and links drawn at random within their limits, rows gone or twice."""
    _try(number, [full, van.job, saloon.job])


@pytest.mark.long
@pytest.mark.parametrize("number", range(1000))
def test_a_thousand_random_jobs_come_in_as_they_went_out(number, full, van, saloon):
    """The same, a thousand times."""
    _try(number, [full, van.job, saloon.job])
