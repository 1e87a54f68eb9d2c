"""What was issued is found changed by one byte; the code on paper says whether it is current."""

from __future__ import annotations

import io

import pytest
from django.core.files.base import ContentFile
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import IssuedSheet, Job, Photo, SheetKind
from jobs.sheets import engine
from jobs.sheets.chain import digest

pytestmark = pytest.mark.django_db
KINDS = (SheetKind.BUILD, SheetKind.CABLES, SheetKind.BUILD)


@pytest.fixture
def issued(saloon, cast, monkeypatch) -> list[IssuedSheet]:
    """Three sheets in a chain, and a photo in what they were made from; nothing is laid out."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: html.encode())
    panel = saloon.job.panels.create(name="sill")
    files = {name: ContentFile(b"as it was", "x.jpg") for name in ("image", "small", "original")}
    Photo.objects.create(job=saloon.job, panel=panel, taken_by=cast.installer, **files)
    design = work_out(load(saloon.job))
    options = sheets.Options(reason="a longer cable")
    return [sheets.issue(design, kind, options, cast.designer) for kind in KINDS]


def verified(job: Job) -> tuple[str, str]:
    """What the command says, and what it complains of."""
    out, wrong = io.StringIO(), io.StringIO()
    try:
        call_command("verify", str(job), stdout=out, stderr=wrong)
    except CommandError as error:
        return str(error), wrong.getvalue()
    return out.getvalue(), wrong.getvalue()


def test_what_was_not_touched_is_as_it_was_issued(issued, saloon):
    """Every sheet has a link of its own, and the command says how many it looked at."""
    assert len({sheet.link for sheet in issued}) == len({sheet.token for sheet in issued}) == 3
    assert verified(saloon.job) == ("3 issued sheets are as they were issued.\n", "")
    out = io.StringIO()
    call_command("verify", stdout=out)
    assert "3 issued sheets" in out.getvalue()
    for unknown in ("J-9999", "x"):
        with pytest.raises(CommandError, match=f"no job {unknown}"):
            call_command("verify", unknown)


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        ({"pdf": b"x"}, "its PDF was changed"),
        ({"data": {}}, "what it was made from was changed"),
        ({"reason": "another"}, "its row was changed"),
        ({"paper": "a3"}, "its row was changed"),
        ({"revision": 9}, "its row was changed"),
        ({"sha256": "0" * 64}, "its row was changed"),
    ],
)
def test_one_thing_changed_is_found_on_its_sheet(issued, saloon, change, complaint):
    """Bytes, data and each column; the sheets behind it are as they were."""
    IssuedSheet.objects.filter(pk=issued[1].pk).update(**change)
    _said, wrong = verified(saloon.job)
    assert complaint in wrong
    kind, revision = KINDS[1], change.get("revision", 1)
    assert {line.partition(":")[0] for line in wrong.splitlines()} == {
        f"{saloon.code} {kind} {revision}"
    }


@pytest.mark.parametrize("which", [0, 1, 2])
def test_a_sheet_taken_out_is_missed(issued, saloon, which):
    """At the beginning, in the middle and at the end."""
    IssuedSheet.objects.filter(pk=issued[which].pk).delete()
    said, wrong = verified(saloon.job)
    assert said == "1 not as issued."
    assert "missing" in wrong


def test_a_sheet_taken_out_stays_missed_when_another_is_issued(issued, saloon, cast):
    """The next sheet hangs on the one that was issued last, not on the last one still there."""
    IssuedSheet.objects.filter(pk=issued[2].pk).delete()
    design = work_out(load(saloon.job))
    sheets.issue(design, SheetKind.PANELS, sheets.Options(), cast.designer)
    said, wrong = verified(saloon.job)
    assert said == "1 not as issued."
    assert "a sheet before it is missing" in wrong


def test_a_photo_changed_is_found_and_one_removed_is_none(issued, saloon):
    """One byte of a photo that a sheet was made from; of a removed photo nobody asks."""
    photo = saloon.job.photos.get()
    with photo.small.open("wb") as file:
        file.write(b"as it is.")
    said, wrong = verified(saloon.job)
    assert said == "3 not as issued."
    assert "(small) was changed or is lost" in wrong
    photo.delete()
    assert verified(saloon.job)[1] == ""


def test_a_number_reads_the_same_from_every_database():
    """A database may return 1 for 1.0 and has no minus zero; true is no number."""
    assert digest({"a": [1, 0, 1e22]}) == digest({"a": [1.0, -0.0, 10**22]})
    assert digest([True]) != digest([1])


def test_the_code_on_paper_says_whether_there_is_a_newer_one(issued, saloon):
    """Signed out, in the reader's language; a stranger's code opens nothing; no person is named."""
    old, other, new = (
        Client().get(reverse("sheet-standing", args=[sheet.token])).content.decode()
        for sheet in issued
    )
    assert "There is a newer one" in old
    assert "Revision 2" in old
    assert "This is the current one" in other
    assert "This is the current one" in new
    for text in (old, other, new):
        assert saloon.code in text
        assert str(saloon.job.vehicle.customer) not in text
        assert str(saloon.job.vehicle.plate or "no plate") not in text
    german = Client().get(reverse("sheet-standing", args=[issued[0].token]) + "?l=de")
    assert "Es gibt ein neueres" in german.content.decode()
    assert Client().get(reverse("sheet-standing", args=["x" * 22])).status_code == 404


def test_a_second_revision_says_what_is_new(issued, saloon, browse):
    """It is asked for with what has changed already written, and stands on the sheet."""
    assert b"a longer cable" in bytes(issued[2].pdf)
    assert b"data:image/svg+xml" in bytes(issued[2].pdf)
    designer = browse("designer")
    address = reverse("sheet-issue", args=[saloon.code, SheetKind.CABLES])
    asked = designer.post(address, {"paper": "a4", "language": "en"})
    assert asked.status_code == 302
    assert "nothing; printed again" in designer.get(asked["Location"]).content.decode()
    Job.objects.filter(pk=saloon.job.pk).update(title="Another title")
    assert "nothing; printed again" not in designer.get(asked["Location"]).content.decode()
    sent = {"paper": "a4", "language": "en", "sure": "1", "reason": "  a\0 shorter way "}
    assert designer.post(address, sent | {"reason": "x" * 900}).status_code == 302
    assert designer.post(address, sent).status_code == 302
    reasons = list(saloon.job.issued_sheets.order_by("pk").values_list("reason", flat=True)[3:])
    assert reasons == ["x" * 240, "a shorter way"]
