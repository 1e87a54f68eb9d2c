"""A file that is not what it should be is refused with its reason, and nothing is half made.

Zip bombs and names that lead elsewhere are tried as the ZIP format allows them (PKWARE APPNOTE);
the schema is held by the library jsonschema, which shares no code with what made it.
"""

from __future__ import annotations

import copy
import hashlib
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from django.core.files.storage import default_storage
from django.core.management import CommandError, call_command
from django.urls import reverse

from jobs.models import Job, Part, Run, Vehicle, Word
from jobs.pages.portable.published import job_schema
from jobs.portable.making import _Making, make
from jobs.portable.reading import opened
from jobs.portable.refusal import RefusedFileError
from jobs.portable.schema import VERSION
from tests.jobs.portable.conftest import packed

pytestmark = pytest.mark.django_db
Members = dict[str, bytes]


@pytest.fixture(scope="module")
def _members(_building, _van) -> Members:
    file = _building(packed, _van.job)
    with zipfile.ZipFile(file) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.fixture
def members(db, _members) -> Members:
    """What is in the file of the van, to be changed."""
    return dict(_members)


def sealed(members: Members, **about: Any) -> io.BytesIO:
    """A file of these members whose list is right."""
    manifest = json.loads(members["manifest.json"]) | about
    manifest["members"] = {
        name: {"sha256": hashlib.sha256(raw).hexdigest(), "size": len(raw)}
        for name, raw in members.items()
        if name != "manifest.json"
    }
    return zipped(members | {"manifest.json": json.dumps(manifest).encode()})


def zipped(members: Members) -> io.BytesIO:
    """A file of these members, whatever their list says."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, raw in members.items():
            archive.writestr(name, raw)
    return file


def with_document(members: Members, change: Callable[[dict[str, Any]], Any]) -> io.BytesIO:
    """A file whose job.json was changed by somebody who knows how its list is made."""
    document = json.loads(members["job.json"])
    change(document)
    return sealed(members | {"job.json": json.dumps(document).encode()})


def refusal(file: io.BytesIO) -> str:
    """Why a file is refused; that nothing is made of it is looked at too."""
    models = (Job, Vehicle, Part, Run, Word)
    before = [model._base_manager.count() for model in models]
    with pytest.raises(RefusedFileError) as refused, opened(file, job_schema()) as arrival:
        make(arrival)
    assert [model._base_manager.count() for model in models] == before
    return str(refused.value)


def test_the_schema_is_one_and_every_file_keeps_to_it(members):
    """It is JSON Schema 2020-12 by its own meta-schema; what it says of a field is its unit."""
    schema = job_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    document = json.loads(members["job.json"])
    jsonschema.Draft202012Validator(json.loads(members["job.schema.json"])).validate(document)
    fs = schema["$defs"]["Driver"]["properties"]["fs"]
    assert (fs["unit"], fs["title"]) == ("hertz", "resonance fs")
    document["records"]["rows"]["Vehicle"][0]["battery_charge"] = -1
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(schema).validate(document)


@pytest.mark.parametrize(("version", "before"), [(1, 1), (2, 2)])
def test_a_file_of_every_version_opens(version, before):
    """What was written by an earlier version is taken in for good: one of each was kept.

    The second tells what its rows were before; of the first a row begins on the day it came.
    """
    kept = Path(__file__).with_name(f"version-{version}.zip")
    with kept.open("rb") as file, opened(file, job_schema()) as arrival:
        job, planned = make(arrival)
    assert (job.code, job.number) == (planned.written_as, 2)
    assert job.runs.count() == len(arrival.rows(Run)) > 3
    assert job.runs.order_by("pk")[0].history.count() == before
    assert version <= VERSION


def _rows(name: str, **values: Any) -> Callable[[dict[str, Any]], Any]:
    return lambda document: document["records"]["rows"][name][0].update(values)


CHANGES: dict[str, tuple[Callable[[dict[str, Any]], Any], str]] = {
    "a field of later": (_rows("Vehicle", wings=2), "newer Undertrim"),
    "rows of later": (lambda d: d["records"]["rows"].update(Wing=[]), "newer Undertrim"),
    "a figure beyond its limit": (_rows("Run", length=1e300), "schema"),
    "a text too long": (_rows("Vehicle", maker="x" * 61), "schema"),
    "a choice there is not": (_rows("Run", kind="X"), "schema"),
    "no number": (_rows("Run", length=float("nan")), "damaged"),
    "half a letter": (_rows("Vehicle", maker="\ud800"), "cannot be written"),
    "a letter no table takes": (_rows("Vehicle", maker="a\0b"), "cannot be written"),
    "a day there is not": (_rows("Job", created_at="2026-13-45T00:00:00Z"), "hang together"),
    "a link to nothing": (_rows("Run", start_id=77), "hang together"),
    "a key twice": (
        lambda d: d["records"]["rows"]["Run"].append(d["records"]["rows"]["Run"][0]),
        "twice",
    ),
    "two of one label": (
        lambda d: d["records"]["rows"]["Run"][1].update(kind="P", number=1),
        "only one may be",
    ),
    "a part without its figures": (
        lambda d: d["records"]["rows"].pop("Amplifier"),
        "hang together",
    ),
    "two jobs": (lambda d: d["records"]["rows"]["Job"].append({"id": 2}), "hang together"),
}


@pytest.mark.parametrize("what", CHANGES)
def test_rows_that_cannot_be_are_refused(members, what):
    """Each with its reason, in words."""
    change, reason = CHANGES[what]
    assert reason in refusal(with_document(members, change))


def test_what_is_not_what_was_packed_is_refused(members):
    """Cut off, changed, missing, added, or no file of a job at all."""
    whole = sealed(members).getvalue()
    assert "damaged" in refusal(io.BytesIO(whole[: len(whole) // 2]))
    assert "damaged" in refusal(io.BytesIO(b"no zip at all"))
    changed = members | {"job.json": members["job.json"] + b" "}
    assert "its hash differs" in refusal(zipped(changed))
    less = {name: raw for name, raw in members.items() if name != "results.json"}
    assert "results.json" in refusal(zipped(less))
    assert "no list" in refusal(zipped({"job.json": b"{}"}))
    assert "Nothing in the job names" in refusal(sealed(members | {"photos/9.jpg": b"x"}))
    assert "newer Undertrim" in refusal(sealed(members, format_version=VERSION + 1, app="9.9"))
    assert "no job" in refusal(sealed(members, format="something else"))


@pytest.mark.parametrize("name", ["../up", "/etc/passwd", "photos/../x.jpg", "a\\b", "job.json/x"])
def test_a_name_that_leads_elsewhere_has_no_place(members, name):
    """Nothing is unpacked by name, and such a file is not read on."""
    assert "has no place" in refusal(sealed(members | {name: b"x"}))


def test_a_bomb_is_told_by_its_size(members, monkeypatch):
    """What would unfold beyond its limit is refused before it is read."""
    bomb = zipped(members | {"photos/1.jpg": bytes(26 * 1024 * 1024)})
    assert len(bomb.getvalue()) < 300_000
    monkeypatch.setattr(zipfile.ZipFile, "open", lambda *_args, **_more: pytest.fail("read"))
    assert "more than it may be" in refusal(bomb)


def test_a_photo_that_is_missing_or_none_is_refused(members):
    """A row that names a photo needs it, and it must be one."""

    def name_it(document: dict[str, Any]) -> None:
        rows = document["records"]["rows"]
        rows["User"] = [{"id": 1, "last_name": "Invented"}]
        rows["Photo"] = [{
            "id": 1, "job_id": 1, "panel_id": 1, "taken_by_id": 1, "caption": "",
            "image": "photos/1.jpg", "small": "photos/1-small.jpg",
        }]  # fmt: skip
        rows.setdefault("Panel", [{"id": 1, "job_id": 1, "name": "door", "position": 1}])
        document["records"]["lists"]["photos"] = [1]

    assert "photos/1.jpg” is missing" in refusal(with_document(members, name_it))
    named = members | {"photos/1.jpg": b"GIF89a", "photos/1-small.jpg": b"x"}
    assert "is no photo" in refusal(with_document(named, name_it))


def test_what_fails_at_its_end_leaves_nothing(members, monkeypatch):
    """A disk that is full when the photos are written takes every row back with it."""

    def full_disk(self: _Making, stored: list[str]) -> None:
        stored.append(default_storage.save("photos/x/y.jpg", io.BytesIO(b"x")))
        raise OSError

    monkeypatch.setattr(_Making, "files", full_disk)
    before = Job.with_removed.count()
    with opened(sealed(members), job_schema()) as arrival, pytest.raises(OSError):  # noqa: PT011
        make(arrival)
    assert Job.with_removed.count() == before
    assert not default_storage.exists("photos/x/y.jpg")


def test_the_command_writes_looks_over_and_takes_in(van, tmp_path, capsys):
    """Each act by its command; a dry run makes nothing."""
    file = tmp_path / "van.zip"
    call_command("job", "export", van.code, file)
    with pytest.raises(CommandError, match="is there already"):
        call_command("job", "export", van.code, file)
    count = Job.objects.count()
    call_command("job", "import", file, "--dry-run")
    assert "that number is taken here" in capsys.readouterr().out
    assert Job.objects.count() == count
    call_command("job", "import", file)
    assert Job.objects.count() == count + 1
    call_command("job", "schema")
    assert f'"urn:undertrim:job:{VERSION}"' in capsys.readouterr().out
    for wrong in (("export", "J-9999", file), ("import", tmp_path / "none.zip")):
        with pytest.raises(CommandError):
            call_command("job", *wrong)


def test_the_pages_hand_out_look_over_and_take_in(van, browse):
    """From the job's own page; sent, shown as what it would do, made on a yes; refused in words."""
    manager = browse("manager")
    answer = manager.get(reverse("job-file", args=[van.code]))
    file = io.BytesIO(b"".join(answer))
    file.name = "van.zip"
    count = Job.objects.count()
    page = manager.post(reverse("job-take-in"), {"file": copy.copy(file)})
    assert page.status_code == 200
    assert "is taken here" in page.content.decode()
    assert Job.objects.count() == count
    name = page.context["name"]
    assert manager.post(reverse("job-make"), {"name": name}, follow=True).status_code == 200
    assert Job.objects.count() == count + 1
    again = manager.post(reverse("job-make"), {"name": name}, follow=True)
    assert "send it again" in again.content.decode()
    bad = io.BytesIO(b"no zip")
    bad.name = "x.zip"
    refused = manager.post(reverse("job-take-in"), {"file": bad})
    assert refused.status_code == 422
    assert "This file is no job" in refused.content.decode()
