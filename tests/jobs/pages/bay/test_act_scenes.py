"""What is answered to whoever works on a car, act by act, is what was let stand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import QueryDict
from django.utils.http import urlencode

from jobs import photos
from jobs.design.job.measurements import Limits
from jobs.models import BayNote, CautionRead, Measurement, Panel, PanelStep, Photo, ServiceVisit
from jobs.models.bay import LONGEST
from jobs.pages.bay.acts import Act, _do
from jobs.pages.bay.measure import MeasurementForm, _judge
from jobs.pages.bay.values import value_form
from tests.approval import figures, hold
from tests.jobs.test_photos import _jpeg
from tests.told import row, rows

pytestmark = pytest.mark.django_db

# Long ago, so that nothing depends on the day of the test.
AT = dt.datetime(2026, 3, 2, 9, 30, tzinfo=dt.UTC)


def _picture() -> photos.PreparedPhoto:
    return photos.prepared(SimpleUploadedFile("a.jpg", _jpeg(), "image/jpeg"))


class Phone:
    """Does acts in their order and remembers what was answered."""

    def __init__(self, job: Any) -> None:
        self.job, self.told = job, []

    def act(self, user: Any, kind: str, photo: Any = "No photo came along.", **sent: Any) -> None:
        """Do one, as it was sent."""
        typed = QueryDict(urlencode({"kind": kind} | sent))
        answer = _do(Act(job=self.job, user=user, sent=typed, at=AT, photo=photo))
        what = {name: text for name, text in sent.items() if not isinstance(text, int)}
        self.told.append((user.full_name, kind, *answer, str(what)[:80]))


def test_ticks_and_cautions_are_answered_as_was_let_stand(hatchback, cast):
    """One's own tick, another's, one taken back, one behind cautions nobody read that day."""
    phone, step = Phone(hatchback.job), PanelStep.objects.get(text__startswith="Ring")
    mine, other = cast.installer, cast.designer
    phone.act(mine, "tick", step=10**6, done="1")
    phone.act(mine, "tick", done="1")
    phone.act(mine, "tick", step=step.pk, done="1")
    phone.act(mine, "caution", panel=10**6)
    phone.act(mine, "caution", panel=step.panel_id)
    phone.act(mine, "caution", panel=step.panel_id)
    phone.act(mine, "caution")
    phone.act(other, "tick", step=step.pk, done="1")
    phone.act(mine, "tick", step=step.pk, done="1")
    phone.act(mine, "tick", step=step.pk, done="1")
    phone.act(other, "tick", step=step.pk, done="1")
    phone.act(other, "tick", step=step.pk, done="0")
    phone.act(other, "tick", step=step.pk, done="0", sure="1")
    phone.act(other, "tick", step=step.pk, done="0")
    step.refresh_from_db()
    after = (step.done_by, step.done_at, step.version)
    phone.act(mine, "tick", step=step.pk, done="1")
    phone.act(mine, "tick", step=step.pk, done="0")
    step.refresh_from_db()
    assert (step.done_by, step.done_at) == (mine, AT)
    step.wants_photo, step.done_by, step.done_at = True, None, None
    step.save()
    phone.act(mine, "tick", step=step.pk, done="1")
    step.remove()
    phone.act(mine, "tick", step=step.pk, done="1")
    phone.act(mine, "dance")
    read = CautionRead.objects.filter(read_on=AT.date())
    days = [row(kept.read_by.full_name, kept.panel_id is None) for kept in read.order_by("pk")]
    hold("bay/ticks", figures({"acts": rows(phone.told), "after": row(*after), "read": days}))


def test_values_are_answered_as_was_let_stand(hatchback, cast):
    """As meant, not as meant, in another unit, the same again, over another's, unreadable."""
    phone, key_off = Phone(hatchback.job), hatchback.key_off
    Measurement.objects.filter(pk=key_off.pk).update(low=0.001, high=0.05)
    mine, other = cast.installer, cast.designer
    phone.act(mine, "value", value=10**6, text="1 A")
    phone.act(mine, "value", value=key_off.pk, text="")
    phone.act(mine, "value", value=key_off.pk, text="31 kg")
    phone.act(mine, "value", value=key_off.pk, text="31 A", version=1)
    phone.act(mine, "value", value=key_off.pk, text="31 mA", version=1)
    phone.act(mine, "value", value=key_off.pk, text="0.031")
    phone.act(other, "value", value=key_off.pk, text="31 mA")
    phone.act(other, "value", value=key_off.pk, text="32 mA", version=1)
    phone.act(other, "value", value=key_off.pk, text="32 mA", version=2)
    phone.act(other, "value", value=key_off.pk, text="60 mA", version=1, sure="1")
    phone.act(other, "value", value=key_off.pk, text="31 A", version=1, sure="1")
    Measurement.objects.filter(pk=key_off.pk).update(beyond=Measurement.Beyond.STOP)
    phone.act(mine, "value", value=key_off.pk, text="0.9 mA", sure="1")
    Measurement.objects.filter(pk=key_off.pk).update(low=None, high=None, measured_by=None)
    phone.act(mine, "value", value=key_off.pk, text="0.9 mA")
    phone.act(mine, "value", value=key_off.pk, text="1 A")
    phone.act(mine, "value", value=key_off.pk, text="1 A", sure="1")
    key_off.refresh_from_db()
    after = row(key_off.value, key_off.version, key_off.measured_by.full_name)
    assert key_off.measured_at == AT
    key_off.remove()
    phone.act(mine, "value", value=key_off.pk, text="1 A")
    hold("bay/values", figures({"acts": rows(phone.told), "after": after}))


def test_values_typed_at_the_bench_are_answered_as_was_let_stand(hatchback, cast):
    """The same on the page: what is asked once more, and what is sent again knowingly."""
    limits = Limits(low=0.001, high=0.05)
    told = []
    for text, version, sure, value in (
        ("", "", "", None), ("", "", "", 0.03), ("31 mA", "", "", None), ("31 mA", "1", "", 0.031),
        ("31 A", "1", "", None), ("31 A", "1", "31 A", None), ("31 A", "1", "30 A", None),
        ("32 mA", "3", "", 0.03), ("32 mA", "2", "", 0.03), ("32 mA", "", "", 0.03),
        ("0.9 uA", "3", "", 0.03), ("1 kg", "", "", None), ("10.1 A", "", "", None),
        ("9.9 A", "", "", None), ("50.1 A", "", "", None),
    ):  # fmt: skip
        measured_by = cast.designer if value and version == "2" else None
        kept = Measurement(pk=7, job=hatchback.job, name="Key-off", kind="current", version=3,
                           value=value, measured_by=measured_by)  # fmt: skip
        sent = QueryDict(urlencode({"m7-value": text, "m7-version": version, "m7-sure": sure}))
        form = value_form(kept, sent)
        if form.is_valid():
            _judge(form, kept, limits)
        says = form.errors.get("value", ["taken"])[0]
        again = form["version"].value(), form["sure"].value(), vars(form).get("meant")
        told.append((text, version, sure, value, says, *again))
    blank = {"position": "1", "name": "Idle", "kind": "voltage", "beyond": "look", "version": "1"}
    planned = []
    for more in ({}, {"low": "12 V", "high": "11.9 V"}, {"low": "12", "high": "12"},
                 {"low": "-1 V"}, {"kind": "current", "high": "50 mA"},
                 {"kind": "current", "low": "1 V"},
                 {"kind": "", "low": "3"}, {"kind": "odd", "low": "3 A"}):  # fmt: skip
        plan = MeasurementForm(QueryDict(urlencode(blank | more)),
                               instance=Measurement(job=hatchback.job))  # fmt: skip
        plan.full_clean()
        planned.append((str(more), plan.cleaned_data.get("low"), plan.cleaned_data.get("high"),
                        {name: list(wrong) for name, wrong in plan.errors.items()}))  # fmt: skip
    fixed = MeasurementForm(instance=Measurement(job=hatchback.job, derived="rest", kind="current"))
    disabled = [name for name, field in fixed.fields.items() if field.disabled]
    hold("bay/at-the-meter", figures({"typed": rows(told), "planned": rows(planned),
                                      "worked out": disabled}))  # fmt: skip


def test_notes_photos_and_what_was_seen_are_answered_as_was_let_stand(hatchback, cast):
    """Each kind of note, what is too long or empty, and a panel or step that is gone."""
    phone, mine = Phone(hatchback.job), cast.installer
    panel, step = hatchback.sill, PanelStep.objects.get(text__startswith="Ring")
    fixing = hatchback.job.fixings.first()
    phone.act(mine, "note", note="note")
    phone.act(mine, "note", note="note", text="  ")
    phone.act(mine, "note", note="note", text=" Rust. ", panel=panel.pk)
    phone.act(mine, "note", note="extra", text="x" * LONGEST)
    phone.act(mine, "note", note="extra", text="x" * (LONGEST + 1))
    phone.act(mine, "note", note="clip", fixing=fixing.pk)
    phone.act(mine, "note", note="clip", text="A clip of the sill.")
    phone.act(mine, "note", note="clip", fixing=10**6)
    for minutes in (0, 1, 1440, 1441):
        phone.act(mine, "note", note="time", minutes=minutes)
    phone.act(mine, "note", note="time", text="an hour")
    phone.act(mine, "note", note="odd", text="odd")
    for what, there in (("airbag_near", "1"), ("airbag_near", "1"), ("airbag_near", "0"),
                        ("airbag_near", ""), ("name", "1"), ("", "0")):  # fmt: skip
        phone.act(mine, "looked", panel=panel.pk, what=what, there=there)
    phone.act(mine, "looked", panel=10**6, what="airbag_near", there="1")
    picture = _picture()
    phone.act(mine, "photo", panel=panel.pk)
    phone.act(mine, "photo", picture, panel=10**6)
    phone.act(mine, "photo", picture, panel=step.panel_id, step=10**6)
    phone.act(mine, "photo", _picture(), panel=step.panel_id, step=step.pk)
    visit = ServiceVisit.objects.filter(job=hatchback.job).first()
    phone.act(mine, "photo", visit=10**6)
    phone.act(mine, "photo", visit=visit.pk)
    phone.act(mine, "photo", _picture(), visit=visit.pk)
    panel.remove()
    phone.act(mine, "note", note="note", text="Late.", panel=panel.pk)
    phone.act(mine, "looked", panel=panel.pk, what="airbag_near", there="1")
    phone.act(mine, "photo", _picture(), panel=panel.pk)
    notes = [
        row(note.kind, note.panel_id is not None, note.fixing_id is not None, note.minutes,
            len(note.text), note.text[:20], note.written_by.full_name)
        for note in BayNote.objects.order_by("pk")
    ]  # fmt: skip
    kept = Photo.objects.order_by("pk")
    shots = [row(str(shot.panel), shot.step_id is not None, str(shot.visit)[:9]) for shot in kept]
    there = Panel.with_removed.get(pk=panel.pk)
    hold("bay/notes", figures({"acts": rows(phone.told), "notes": notes, "photos": shots,
                               "panel": row(there.airbag_near, there.version)}))  # fmt: skip
