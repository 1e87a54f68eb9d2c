"""A panel is closed and a car handed over on somebody's word, or not at all."""

from __future__ import annotations

import datetime as dt

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone
from django.utils.html import escape

from jobs import sheets
from jobs.design.job.electronics import questions
from jobs.design.job.handover_gate import FUNCTIONS, gate_checks
from jobs.design.job.stages import as_left, may_hand_over, open_before_handover
from jobs.design.job.whole import load, work_out
from jobs.design.records.decisions import take
from jobs.models import CarAnswer, CautionRead, Job, PanelStep, PrintOrder, SheetKind, Stage
from jobs.models.bay import LONGEST
from jobs.pages.bay.gate import MOST_WORDS
from jobs.sheets.issue import printed
from tests.jobs.factories import make_job
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db


def _design(scene):
    return work_out(load(scene.job))


def test_no_car_goes_with_something_open(hatchback, browse, monkeypatch):
    """Neither the sheet nor the stage; the manager's word covers what was open then, no more."""
    monkeypatch.setattr("jobs.sheets.printing.orders.carry_out", lambda order: None)
    manager, code = browse("manager"), hatchback.code
    issue = reverse("sheet-issue", args=[code, "handover"])
    assert manager.post(issue).url == reverse("gate", args=[code])
    assert not PrintOrder.objects.exists()
    stage = reverse("stage", args=[code])
    assert manager.post(stage, {"to": "handed_over"}).status_code == 409
    hatchback.job.refresh_from_db()
    assert hatchback.job.stage == Stage.BAY
    release = reverse("gate-release", args=[code])
    assert browse("designer").post(release, {"reason": "late"}).status_code == 403
    assert manager.post(release, {"reason": ""}).status_code == 422
    manager.post(release, {"reason": "The customer drives to the coast."})
    assert may_hand_over(_design(hatchback))
    html, _data = printed(
        _design(hatchback), sheets.SHEETS[SheetKind.HANDOVER], sheets.Options(), revision=1,
        at=timezone.now(),
    )  # fmt: skip
    assert "The customer drives to the coast." in html
    assert "No hand-over sheet is issued" not in read(manager, reverse("gate", args=[code]))
    assert manager.post(stage, {"to": "handed_over"}).status_code == 302
    PanelStep.objects.create(job=hatchback.job, panel=hatchback.sill, text="One more.")
    assert not may_hand_over(_design(hatchback))


def test_the_gate_opens_when_everything_is_signed(hatchback, browse, cast):
    """Ticked, measured, closed and signed one by one, every factory function by itself."""
    client, code = browse("installer"), hatchback.code
    hatchback.job.panelsteps.update(done_at=timezone.now())
    hatchback.job.measurements.update(value=1.0)
    hatchback.job.equipmentitems.update(state="fitted")
    Job.objects.filter(pk=hatchback.job.pk).update(wishes="Bass, and the boot stays a boot.")
    hatchback.job.refresh_from_db()
    for panel in hatchback.job.panels.all():
        client.post(reverse("panel-close", args=[code, panel.pk]), {"reason": "tried elsewhere"})
    checks = gate_checks(load(hatchback.job))
    assert {"insulated", "fuses", "torque", "lamps", "rattle", "tools"} <= {c.code for c in checks}
    assert sum(check.code == "function" for check in checks) > 5
    asked = questions(load(hatchback.job))
    assert {"codes-before", "disconnected", "codes-after"} <= {question.code for question in asked}
    for question in asked:
        sent = {"question": question.code, "text": "none stored", "yes": "0"}
        client.post(reverse("gate-answer", args=[code]), sent)
    for look in _design(hatchback).open_looks:
        take(hatchback.job, look, cast.designer, "Seen together with the customer.")
    assert len(open_before_handover(_design(hatchback))) == len(checks)
    for check in checks:
        client.post(reverse("gate-sign", args=[code]), {"check": check.code, "of": check.key})
    assert open_before_handover(_design(hatchback)) == []
    back = {"check": "tools", "of": "", "signed": "0", "sure": "1"}
    client.post(reverse("gate-sign", args=[code]), back)
    assert [item.keys for item in open_before_handover(_design(hatchback))] == [("tools",)]


def test_what_nobody_planned_is_open():
    """Without a panel and without a value to measure nothing was closed and nothing measured."""
    still = open_before_handover(work_out(load(make_job())))
    assert {("no panels",), ("no values",)} <= {item.keys for item in still}


def test_the_signature_of_a_function_stays_with_it():
    """Signatures are stored by these keys: none of them ever means another function."""
    first = {"function 1": "windows and locks", "function 8": "start, stop and charging"}
    assert first.items() <= {key: str(says) for key, says in FUNCTIONS.items()}.items()


def test_the_sheet_names_what_is_still_open(hatchback, cast):
    """What was done after the manager's word is not printed as open; the rest is, with the word."""
    still = open_before_handover(_design(hatchback))
    hatchback.job.stagereleases.create(
        left_open=as_left(still), reason="The customer drives to the coast.",
        released_by=cast.manager, released_at=timezone.now(),
    )  # fmt: skip
    hatchback.job.measurements.update(value=1.0)
    html, _data = printed(
        _design(hatchback), sheets.SHEETS[SheetKind.HANDOVER], sheets.Options(), revision=1,
        at=timezone.now(),
    )  # fmt: skip
    assert "Values not measured" not in html
    assert "Steps not ticked" in html
    assert "The customer drives to the coast." in html


def test_a_panel_is_closed_after_its_own_checks(hatchback, cast, browse):
    """Something open wants a reason; behind it nothing is ticked until it is reopened."""
    client, panel = browse("installer"), hatchback.door_left
    address = reverse("panel-close", args=[hatchback.code, panel.pk])
    assert client.post(address, {"check": ["travel"]}).status_code == 422
    assert not panel.closings.exists()
    client.post(address, {"check": ["travel"], "reason": "The woofer comes on Monday."})
    closing = panel.closings.get()
    assert (closing.closed_by, "travel" in closing.checked) == (cast.installer, True)
    assert {"steps", "photos"} <= set(closing.left_open)
    step = panel.steps.get()
    client.post(reverse("tick", args=[hatchback.code, step.pk]), {"done": "1"})
    step.refresh_from_db()
    assert step.done_at is None
    reopen = reverse("panel-reopen", args=[hatchback.code, panel.pk])
    client.post(reopen, {"reason": ""})
    client.post(reopen, {"reason": "The woofer came."})
    closing.refresh_from_db()
    assert (closing.reopened_by, closing.reopened_why) == (cast.installer, "The woofer came.")
    client.post(reverse("tick", args=[hatchback.code, step.pk]), {"done": "1"})
    step.refresh_from_db()
    assert step.done_at is not None


def test_whoever_closes_second_is_told_who_closed_it(hatchback, browse):
    """The first word stands; what the second person wrote is said not to be kept."""
    panel = hatchback.door_left
    address = reverse("panel-close", args=[hatchback.code, panel.pk])
    browse("installer").post(address, {"reason": "The woofer comes on Monday."})
    page = browse("designer").post(address, {"reason": "No photo yet."}, follow=True)
    assert panel.closings.get().reason == "The woofer comes on Monday."
    (told,) = page.context["messages"]
    assert "Ina Fit has closed this already" in str(told)
    assert "No photo yet." in str(told)


def test_a_reason_too_long_to_keep_is_refused_whole(hatchback, browse):
    """Nothing is cut off: it is said, and what was typed stands in its field."""
    client, panel = browse("installer"), hatchback.door_left
    client.post(reverse("panel-close", args=[hatchback.code, panel.pk]), {"reason": "Late."})
    reason = "the clip " * 30
    reopen = reverse("panel-reopen", args=[hatchback.code, panel.pk])
    answer = client.post(reopen, {"reason": reason})
    assert answer.status_code == 422
    assert says_beside_field(answer, f"reopen-{panel.pk}", reason.strip())
    assert panel.closings.get().reopened_at is None
    other = hatchback.boot_floor
    for length, status in ((LONGEST, 302), (LONGEST + 1, 422)):
        url = reverse("panel-close", args=[hatchback.code, other.pk])
        answer = client.post(url, {"reason": "x" * length})
        assert answer.status_code == status
    assert f"At most {LONGEST} characters." in answer.content.decode()
    url = reverse("gate-answer", args=[hatchback.code])
    for length, status in ((MOST_WORDS + 1, 422), (MOST_WORDS, 302)):
        sent = {"question": "codes-before", "text": "x" * length, "version": ""}
        answer = client.post(url, sent)
        assert answer.status_code == status
        if status == 422:
            assert f"At most {MOST_WORDS} characters." in answer.content.decode()


def test_a_signature_is_taken_back_knowingly(hatchback, browse):
    """A second tap says whose it is and asks, of one's own too."""
    url, sent = reverse("gate-sign", args=[hatchback.code]), {"check": "tools", "of": ""}
    browse("installer").post(url, sent)
    told = browse("designer").post(url, sent, follow=True).content.decode()
    assert "Ina Fit has signed this already" in told
    for who in ("designer", "installer"):
        answer = browse(who).post(url, sent | {"signed": "0"})
        assert answer.status_code == 409
        assert "Ina Fit signed this." in answer.content.decode()
    assert hatchback.job.gatesigns.get().signed_by.username == "ina"
    browse("designer").post(url, sent | {"signed": "0", "sure": "1"})
    assert not hatchback.job.gatesigns.exists()


def test_the_second_answer_is_told_of_the_first(hatchback, browse):
    """Both are shown; sent again the second stands in its place."""
    url, sent = reverse("gate-answer", args=[hatchback.code]), {"question": "codes-before"}
    browse("installer").post(url, sent | {"text": "none stored", "version": ""})
    answer = browse("designer").post(url, sent | {"text": "two codes", "version": ""})
    assert answer.status_code == 422
    assert "Ina Fit wrote “none stored” meanwhile." in answer.content.decode()
    assert says_beside_field(answer, "text-codes-before", "two codes")
    row = hatchback.job.caranswers.get()
    assert (row.text, row.written_by.username) == ("none stored", "ina")
    browse("designer").post(url, sent | {"text": "two codes", "version": str(row.version)})
    row.refresh_from_db()
    assert (row.text, row.written_by.username) == ("two codes", "dan")


def says_beside_field(answer, field: str, text: str) -> bool:
    """Whether the typed text is still there and the field has a message of its own."""
    html = answer.content.decode()
    return escape(text) in html and f'id="{field}_error"' in html


def test_no_step_opens_behind_a_panel_under_an_open_stop(hatchback, browse):
    """Without the maker's airbag procedure nothing is ticked there; a photo step wants a photo."""
    step = hatchback.door_left.steps.get()
    address = reverse("tick", args=[hatchback.code, step.pk])
    car = hatchback.job.vehicle
    procedure, car.airbag_procedure = car.airbag_procedure, ""
    car.save()
    answer = browse("installer").post(address, {"done": "1"}, headers={"HX-Request": "true"})
    assert "Not behind this panel yet" in answer.content.decode()
    car.airbag_procedure = procedure
    car.save()
    step.wants_photo = True
    step.save()
    answer = browse("installer").post(address, {"done": "1"}, headers={"HX-Request": "true"})
    assert "not done without a photo" in answer.content.decode()
    step.refresh_from_db()
    assert step.done_at is None


def test_no_step_opens_before_its_cautions_are_read(hatchback, browse):
    """By this person and on this day; without signal the word comes along with the ticks."""
    step = hatchback.door_left.steps.get()
    CautionRead.objects.all().delete()
    address, client = reverse("tick", args=[hatchback.code, step.pk]), browse("installer")
    answer = client.post(address, {"done": "1"}, headers={"HX-Request": "true"})
    assert "Read the cautions of this panel first" in answer.content.decode()
    read_them = reverse("bay-caution", args=[hatchback.code, hatchback.door_left.pk])
    for _twice in range(2):
        assert client.post(read_them).status_code == 302
    assert CautionRead.objects.count() == 1
    CautionRead.objects.update(read_on=timezone.localdate() - dt.timedelta(days=1))
    client.post(address, {"done": "1"}, headers={"HX-Request": "true"})
    step.refresh_from_db()
    assert step.done_at is None
    client.post(read_them)
    client.post(address, {"done": "1"}, headers={"HX-Request": "true"})
    step.refresh_from_db()
    assert step.done_at is not None


def test_glass_is_a_caution_of_its_panel_and_stands_on_its_sheets(hatchback, browse):
    """Nobody ticks behind it unread; page, bay, build sheet and record say it, else none does."""
    panel, says = hatchback.boot_floor, "gloves and eye protection"
    step, client = panel.steps.first(), browse("installer")
    pages = [reverse(name, args=[hatchback.code]) for name in ("bay", "panels")]
    assert not [url for url in pages if says in read(client, url)]
    panel.glass_near = True
    panel.save()
    CautionRead.objects.all().delete()
    PanelStep.objects.filter(pk=step.pk).update(done_at=None, done_by=None)
    assert [url for url in pages if says in read(client, url)] == pages
    design = work_out(load(hatchback.job))
    for kind in (SheetKind.BUILD, SheetKind.PANELS):
        html, _data = printed(
            design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now()
        )
        assert says in " ".join(html.split()), kind
    address = reverse("tick", args=[hatchback.code, step.pk])
    answer = client.post(address, {"done": "1"}, headers={"HX-Request": "true"})
    assert "Read the cautions of this panel first" in answer.content.decode()


def test_fault_codes_are_kept_as_the_testers_file(hatchback, browse, cast):
    """The file alone is an answer; it is handed out to be saved, and shown by no browser."""
    client, url = browse("installer"), reverse("gate-answer", args=[hatchback.code])
    file = SimpleUploadedFile("before.log", b"<script>B1342</script>")
    client.post(url, {"question": "codes-before", "text": "", "report": file})
    row = CarAnswer.objects.get(job=hatchback.job, code="codes-before")
    assert (row.text, row.report_name, row.written_by) == ("", "before.txt", cast.installer)
    page = client.get(reverse("gate", args=[hatchback.code])).content.decode()
    there = reverse("gate-report", args=[hatchback.code, row.pk])
    assert there in page
    answer = client.get(there)
    assert answer.headers["Content-Type"] == "application/octet-stream"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="before.txt"'
    assert b"".join(answer.streaming_content) == b"<script>B1342</script>"


def test_a_file_that_cannot_be_kept_is_told_and_the_text_stays(hatchback, browse):
    """What was typed beside it is still there and nothing was written."""
    client, url = browse("installer"), reverse("gate-answer", args=[hatchback.code])
    file = SimpleUploadedFile("before.zip", b"PK\x03\x04\x00\x00")
    sent = {"question": "codes-before", "text": "B1342 stored", "report": file}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert "B1342 stored" in answer.content.decode()
    assert "before.zip" in answer.content.decode()
    assert not CarAnswer.objects.filter(job=hatchback.job).exists()


def test_a_file_is_taken_only_where_one_is_asked_for(hatchback, browse):
    """Of how the battery was supported there is no tester's file."""
    client, url = browse("installer"), reverse("gate-answer", args=[hatchback.code])
    file = SimpleUploadedFile("x.txt", b"x")
    client.post(url, {"question": "support", "text": "a charger", "report": file})
    assert not CarAnswer.objects.get(job=hatchback.job, code="support").report
