"""Without signal: an act is done once, in its author's name, and never against another's word."""

from __future__ import annotations

import datetime as dt
import re
import uuid

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode

from jobs import photos
from jobs.models import (
    BayAct,
    BayNote,
    FactoryAsBuilt,
    FactoryPart,
    Measurement,
    PanelStep,
    Photo,
    RunAsBuilt,
)
from jobs.models.bay import LONGEST
from jobs.pages.bay.notes import keep_note
from tests.jobs.factories import make_run_as_built
from tests.jobs.test_photos import _jpeg as picture

pytestmark = pytest.mark.django_db


def _send(client, scene, who, kind, key=None, hours=0.0, **fields):
    now = timezone.now()
    sent = {
        "key": str(key or uuid.uuid4()), "author": str(who.pk), "kind": kind,
        "sent": now.isoformat(), "at": (now - dt.timedelta(hours=hours)).isoformat(),
    }  # fmt: skip
    return client.post(reverse("bay-acts", args=[scene.code]), sent | fields)


def test_an_act_counts_once_and_when_it_was_done(hatchback, cast, browse):
    """A repeat is answered as the first time; the tick carries the hour it was made."""
    step, key = PanelStep.objects.get(text__startswith="Ring"), uuid.uuid4()
    client = browse("installer")
    for _time in range(2):
        answer = _send(
            client, hatchback, cast.installer, "tick", key, hours=3, step=step.pk, done="1"
        )
        assert answer.status_code == 200
    step.refresh_from_db()
    assert step.done_by == cast.installer
    assert dt.timedelta(hours=2.9) < timezone.now() - step.done_at < dt.timedelta(hours=3.1)
    assert (BayAct.objects.count(), step.version) == (1, 2)


def test_an_act_is_signed_by_its_author_only(hatchback, cast, browse):
    """Under another's sign-in nothing is done, and the act may come again."""
    step, key = PanelStep.objects.get(text__startswith="Ring"), uuid.uuid4()
    fields = {"step": step.pk, "done": "1"}
    answer = _send(browse("designer"), hatchback, cast.installer, "tick", key, **fields)
    assert answer.status_code == 401
    step.refresh_from_db()
    assert step.done_at is None
    answer = _send(browse("installer"), hatchback, cast.installer, "tick", key, **fields)
    assert answer.status_code == 200


def test_a_value_somebody_else_wrote_stays_until_a_person_decides(hatchback, cast, browse):
    """Both are named; sent again knowingly the second one stands."""
    row = hatchback.key_off
    first = _send(
        browse("designer"), hatchback, cast.designer, "value", value=row.pk, text="32 mA",
        version=row.version,
    )  # fmt: skip
    assert first.status_code == 200
    mine = {"value": row.pk, "text": "41 mA", "version": row.version}
    answer = _send(browse("installer"), hatchback, cast.installer, "value", **mine)
    assert answer.status_code == 409
    says = answer.json()["says"].replace("\xa0", " ")
    assert "wrote 32" in says
    assert "yours is 41" in says
    _send(browse("installer"), hatchback, cast.installer, "value", sure="1", **mine)
    row.refresh_from_db()
    assert (row.value, row.measured_by) == (0.041, cast.installer)


def test_a_step_removed_meanwhile_and_a_wrong_clock_are_told(hatchback, cast, browse):
    """Neither is a reason to lose what was done without a word."""
    step = PanelStep.objects.get(text__startswith="Ring")
    client, tomorrow = browse("installer"), timezone.now() + dt.timedelta(days=1)
    answer = _send(
        client, hatchback, cast.installer, "tick", step=step.pk, done="1",
        at=tomorrow.isoformat(), sent=tomorrow.isoformat(),
    )  # fmt: skip
    assert "clock" in answer.json()["says"]
    step.refresh_from_db()
    assert step.done_at <= timezone.now()
    step.remove()
    answer = _send(client, hatchback, cast.installer, "tick", step=step.pk, done="0")
    assert answer.status_code == 410
    assert "has removed" in answer.json()["says"]


def test_a_photo_and_a_note_are_kept_once(hatchback, cast, browse):
    """The answer may be lost on the way: sent again they are there once."""
    client, panel = browse("installer"), hatchback.boot_floor.pk
    shot, note = uuid.uuid4(), uuid.uuid4()
    for _time in range(2):
        file = SimpleUploadedFile("a.jpg", picture(), "image/jpeg")
        answer = _send(client, hatchback, cast.installer, "photo", shot, panel=panel, photo=file)
        assert answer.status_code == 200, answer.json()
        answer = _send(
            client, hatchback, cast.installer, "note", note, note="time", minutes="30", panel=panel
        )
        assert answer.status_code == 200
    assert Photo.objects.filter(panel=panel).count() == 1
    assert BayNote.objects.get().minutes == 30


def test_a_photo_ticks_its_step_at_the_hour_it_was_taken(hatchback, cast, browse, monkeypatch):
    """It says when it was taken, and a tap after it takes nothing away; meanwhile nobody waits."""
    step, depth = PanelStep.objects.get(text__startswith="Ring"), len(connection.savepoint_ids)
    step.wants_photo = True
    step.save()
    depths, prepare = [], photos.prepare

    def watched(raw):
        depths.append(len(connection.savepoint_ids))
        return prepare(raw)

    monkeypatch.setattr(photos, "prepare", watched)
    file = SimpleUploadedFile("a.jpg", picture(), "image/jpeg")
    answer = _send(
        browse("installer"), hatchback, cast.installer, "photo", hours=3,
        panel=step.panel_id, step=step.pk, photo=file,
    )  # fmt: skip
    assert answer.status_code == 200
    step.refresh_from_db()
    assert dt.timedelta(hours=2.9) < timezone.now() - step.done_at < dt.timedelta(hours=3.1)
    assert depths == [depth]
    tap = {"step": step.pk, "done": "0"}
    assert _send(browse("installer"), hatchback, cast.installer, "tick", **tap).status_code == 409
    step.refresh_from_db()
    assert step.done_by == cast.installer


def test_a_photo_whose_step_or_panel_is_gone_is_kept_and_says_where(hatchback, cast, browse):
    """It stays with the panel without its step, and with a removed panel until that is back."""
    step, client = PanelStep.objects.get(text__startswith="Ring"), browse("installer")
    sent = {"panel": step.panel_id, "step": step.pk}
    for row, says in ((step, "kept with the panel"), (step.panel, "kept with it")):
        row.remove()
        file = SimpleUploadedFile("a.jpg", picture(), "image/jpeg")
        answer = _send(client, hatchback, cast.installer, "photo", photo=file, **sent)
        assert answer.status_code == 200
        assert says in answer.json()["says"]
    assert Photo.objects.filter(panel=step.panel_id, step=None).count() == 2


def test_what_is_no_photo_is_told(hatchback, cast, browse):
    """A renamed document is refused in words and waits on the device for a person."""
    file = SimpleUploadedFile("scan.jpg", b"%PDF-1.7", "image/jpeg")
    answer = _send(
        browse("installer"), hatchback, cast.installer, "photo",
        panel=hatchback.boot_floor.pk, photo=file,
    )  # fmt: skip
    assert answer.status_code == 422
    assert "scan.jpg" in answer.json()["says"]


def _row(slug, pk="", **typed):
    return {"row": slug, "pk": pk, "form": urlencode(typed | {"rest": "designed"})}


def test_what_was_done_differently_waits_and_counts_once(hatchback, cast, shelf, browse):
    """What is left empty stays as designed; the hour is when it was done; a new stop is told."""
    run, client, key = hatchback.six_run, browse("installer"), uuid.uuid4()
    sent = _row("run-as-built", run=run.pk, reason="None other here.", fuse=shelf["150 A"].pk)
    for _time in range(2):
        answer = _send(client, hatchback, cast.installer, "row", key, hours=3, **sent)
        assert answer.status_code == 200
        assert "New stop" in answer.json()["says"]
    row = RunAsBuilt.objects.get(run=run)
    assert (row.length, row.conductor, row.fuse) == (run.length, run.conductor, shelf["150 A"])
    assert [stretch[0] for stretch in row.route] == [stop.panel_id for stop in run.route]
    assert row.done_by == cast.installer
    assert dt.timedelta(hours=2.9) < timezone.now() - row.done_at < dt.timedelta(hours=3.1)


def test_what_another_wrote_down_of_the_same_row_stays_until_a_person_decides(
    hatchback, cast, browse
):
    """Their reason is named; sent knowingly the second one stands, in the same row."""
    run = hatchback.six_run
    first = _row("run-as-built", run=run.pk, reason="The sill was full.", length="3 m")
    mine = _row("run-as-built", run=run.pk, reason="Along the tunnel.", length="4 m")
    _send(browse("designer"), hatchback, cast.designer, "row", **first)
    answer = _send(browse("installer"), hatchback, cast.installer, "row", **mine)
    assert answer.status_code == 409
    assert "The sill was full." in answer.json()["says"]
    answer = _send(browse("installer"), hatchback, cast.installer, "row", sure="1", **mine)
    assert answer.status_code == 200, answer.json()
    row = RunAsBuilt.objects.get(run=run)
    assert (row.length, row.done_by, row.version) == (4.0, cast.installer, 2)
    # Who saw what stands there before going out of reach is asked nothing.
    seen = _row("run-as-built", row.pk, run=run.pk, reason="Tied up.", length="5 m", version="2")
    answer = _send(browse("designer"), hatchback, cast.designer, "row", **seen)
    assert answer.status_code == 200, answer.json()
    row.refresh_from_db()
    assert (row.length, row.version) == (5.0, 3)


def test_a_factory_part_is_said_later_and_what_cannot_be_read_is_told(hatchback, cast, browse):
    """Nothing is half kept: without a reason the row waits on the device with what is wrong."""
    FactoryAsBuilt.objects.all().delete()
    part, client = hatchback.job.factory_parts.first(), browse("installer")
    sent = {"factory_part": part.pk, "fate": FactoryPart.Fate.REMOVED, "kept_where": "shelf 4"}
    answer = _send(client, hatchback, cast.installer, "row", **_row("factory-as-built", **sent))
    assert answer.status_code == 422
    assert str(part) in answer.json()["says"]
    sent["reason"] = "Its bracket broke."
    answer = _send(client, hatchback, cast.installer, "row", **_row("factory-as-built", **sent))
    assert answer.status_code == 200, answer.json()
    assert FactoryAsBuilt.objects.get(factory_part=part).kept_where == "shelf 4"
    answer = _send(client, hatchback, cast.installer, "row", **_row("customer", **sent))
    assert answer.status_code == 422


def test_what_another_did_already_is_said_with_who_and_nothing_is_done_twice(
    hatchback, cast, browse
):
    """A tick, and the same value once more: done, in the name of the first."""
    step, row = PanelStep.objects.get(text__startswith="Ring"), hatchback.key_off
    value = {"value": row.pk, "text": "32 mA", "version": row.version}
    client = browse("installer")
    _send(browse("designer"), hatchback, cast.designer, "value", **value)
    step.done_by, step.done_at = cast.designer, timezone.now()
    step.save()
    ticked = _send(client, hatchback, cast.installer, "tick", step=step.pk, done="1")
    wrote = _send(client, hatchback, cast.installer, "value", **value)
    assert (ticked.status_code, wrote.status_code) == (200, 200)
    assert ticked.json()["says"] == f"Dan Draw has ticked this already: {step.text}"
    assert wrote.json()["says"] == "Dan Draw has written the same down already."
    step.refresh_from_db()
    row.refresh_from_db()
    assert (step.done_by, row.measured_by) == (cast.designer, cast.designer)
    row.measured_by = None
    row.save()
    wrote = _send(client, hatchback, cast.installer, "value", **value)
    assert wrote.json()["says"] == "– has written the same down already."


def test_a_value_of_another_unit_is_asked_about_and_one_beyond_is_said(hatchback, cast, browse):
    """A thousandfold is a slip that a person decides; beyond a limit it is kept and told."""
    row, client = hatchback.key_off, browse("installer")
    Measurement.objects.filter(pk=row.pk).update(high=0.05, beyond="look")
    sent = {"value": row.pk, "text": "37 A", "version": row.version}
    answer = _send(client, hatchback, cast.installer, "value", **sent)
    assert answer.status_code == 409
    says = answer.json()["says"].replace("\xa0", " ")
    assert re.fullmatch(
        re.escape(row.name)
        + r": 37(\.0+)? A; at most 50(\.0+)? mA is expected\. Was it 37(\.0+)? mA\?",
        says,
    )
    answer = _send(client, hatchback, cast.installer, "value", **sent | {"text": "60 mA"})
    assert answer.status_code == 200
    says = answer.json()["says"].replace("\xa0", " ")
    assert re.fullmatch(
        f"Not as expected: {re.escape(row.name)}"
        + r" is 60(\.0+)? mA, expected at most 50(\.0+)? mA\.",
        says,
    )
    row.refresh_from_db()
    assert row.value == pytest.approx(0.06)


def test_cautions_of_the_car_have_no_panel_and_those_of_one_need_it(hatchback, cast, browse):
    """Of a panel that is not there any more nothing is read."""
    client = browse("installer")
    for panel, status in (("", 200), (hatchback.boot_floor.pk, 200), (987_654, 410)):
        answer = _send(client, hatchback, cast.installer, "caution", panel=panel)
        assert answer.status_code == status
    assert answer.json()["says"] == "This panel is there no more."


def test_a_row_removed_meanwhile_waits_with_who_removed_it(hatchback, cast, browse):
    """It is not made anew."""
    run = hatchback.six_run
    row = make_run_as_built(run, cast.designer)
    row.remove()
    mine = _row("run-as-built", row.pk, run=run.pk, reason="Tied up.", length="5 m")
    answer = _send(browse("installer"), hatchback, cast.installer, "row", **mine)
    assert answer.status_code == 422
    assert answer.json()["says"]
    assert not RunAsBuilt.objects.filter(run=run).exists()


def test_the_script_that_keeps_the_bay_open_is_asked_for_anew(client):
    """From the root, as a script, with no copy trusted; without its file there is none."""
    answer = client.get("/worker.js")
    assert (answer.status_code, answer["Content-Type"]) == (200, "text/javascript")
    assert answer["Cache-Control"] == "no-cache"
    assert b"addEventListener" in answer.content


def test_notes_are_as_long_as_is_kept_and_a_day_has_its_minutes(hatchback, cast):
    """At the end of both they are kept, beyond it nothing is; the sentence says how long."""
    says = f"At most {LONGEST} characters, and a day of minutes."
    for sent, answer in (
        ({"kind": "note", "text": "x" * LONGEST}, ""),
        ({"kind": "note", "text": "x" * (LONGEST + 1)}, says),
        ({"kind": "time", "minutes": "1440"}, ""),
        ({"kind": "time", "minutes": "1441"}, says),
        ({"kind": "time", "minutes": "1"}, ""),
    ):
        assert keep_note(hatchback.job, cast.installer, None, sent) == answer
    assert BayNote.objects.filter(job=hatchback.job).count() == 3
