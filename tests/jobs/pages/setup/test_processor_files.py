"""A processor's own file: kept byte for byte, handed out to be saved, erased with its person."""

from __future__ import annotations

import io
import stat
import zipfile
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.keeping.erase import erase
from jobs.keeping.export import export
from jobs.models import Part, ProcessorFile
from jobs.pages.setup import processor_files

pytestmark = pytest.mark.django_db
# Nothing anybody could read: it is kept all the same.
CONTENT = b"\x00\xff<script>alert(1)</script>\x1a" + bytes(range(256))


@pytest.fixture
def sent(hatchback):
    processor = hatchback.job.equipmentitems.filter(part__kind=Part.Kind.PROCESSOR).first()
    return {
        "processor": processor.pk, "saved_on": "2026-11-28", "saved_by": "Ina",
        "note": "preset 1", "sent": SimpleUploadedFile("../../cabin one.html", CONTENT),
    }  # fmt: skip


@pytest.fixture
def url(hatchback) -> str:
    return reverse("processor-file-add", args=[hatchback.code])


def test_it_comes_back_byte_for_byte_and_runs_nowhere(hatchback, browse, url, sent):
    """An attachment without a type a browser would run, readable by the app's account alone."""
    client = browse("installer")
    assert client.post(url, sent).status_code == 302
    row = ProcessorFile.objects.get(saved_by="Ina")
    assert (row.kept_name, row.size) == ("cabin one.html", len(CONTENT))
    answer = client.get(reverse("setup-processor-file", args=[hatchback.code, row.pk]))
    assert b"".join(answer.streaming_content) == CONTENT
    assert answer["Content-Type"] == "application/octet-stream"
    assert answer["Content-Disposition"].startswith("attachment")
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert stat.S_IMODE(Path(row.kept.path).stat().st_mode) == 0o600
    html = client.get(reverse("setup-as-set", args=[hatchback.code])).content.decode()
    assert "cabin one.html" in html
    # Changed without a file sent anew it stays the same file.
    edit = reverse("processor-file-edit", args=[hatchback.code, row.pk])
    again = {**sent, "note": "both presets", "version": row.version}
    del again["sent"]
    assert client.post(edit, again).status_code == 302
    assert ProcessorFile.objects.get(pk=row.pk).kept.name == row.kept.name


def test_none_and_one_too_large_are_answered(hatchback, browse, url, sent, monkeypatch):
    """Without a file there is nothing to keep; beyond the bound its size is said."""
    client = browse("installer")
    monkeypatch.setattr(processor_files, "LARGEST", 100)
    for wrong, says in (({"sent": ""}, "Choose the file"), ({}, "at most 100")):
        answer = client.post(url, sent | wrong)
        assert answer.status_code == 422
        html = answer.content.decode().replace("\xa0", " ")
        assert says in html
        assert "preset 1" in html
    assert not ProcessorFile.objects.filter(saved_by="Ina").exists()


def test_it_is_handed_out_with_a_person_and_erased_with_them(hatchback, browse, url, sent):
    """Nobody has looked into it, so it may name them."""
    browse("installer").post(url, sent)
    customer = hatchback.job.vehicle.customer
    with zipfile.ZipFile(io.BytesIO(export(customer))) as packed:
        names = [name for name in packed.namelist() if name.startswith("processors/")]
        assert [packed.read(name) for name in names] == [CONTENT]
    row = ProcessorFile.objects.get(saved_by="Ina")
    files = erase(customer, by=None, why="asked", plates=False)
    assert row.kept.name in files
    row.refresh_from_db()
    assert not row.kept
    assert (
        browse("installer")
        .get(reverse("setup-processor-file", args=[hatchback.code, row.pk]))
        .status_code
        == 404
    )
