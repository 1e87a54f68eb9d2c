"""What a page of the bay says after each thing that is sent to it is what was let stand."""

from __future__ import annotations

from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.design.job.electronics import BY_YES_OR_NO, WITH_FILE, questions
from jobs.design.job.handover_gate import gate_checks
from jobs.design.job.whole import load
from jobs.models import CarAnswer, GateSign, Measurement, PanelClosing, PanelStep, StageRelease
from jobs.models.bay import LONGEST
from jobs.pages.bay.gate import MOST_WORDS
from tests.approval import figures, hold
from tests.jobs.pages.forms.test_row_act_scenes import said
from tests.jobs.test_photos import _jpeg
from tests.told import row

pytestmark = pytest.mark.django_db


def _says(trouble: Any) -> str:
    """What is wrong or asked, without what was typed."""
    told = [getattr(trouble, name) for name in ("says", "wrong", "text") if hasattr(trouble, name)]
    return str(told[0] if told else trouble)


class Bench:
    """Sends to pages of a job and remembers what they said."""

    def __init__(self, scene: Any, browse: Any) -> None:
        self.code, self.browse, self.told = scene.code, browse, []

    def post(self, who: str, page: str, *args: Any, **sent: Any) -> Any:
        """Send it, and keep the answer in words."""
        answer = self.browse(who).post(reverse(page, args=[self.code, *args]), sent)
        context = answer.context or {}
        shown = (context.get(name) for name in ("wrong", "refused", "asked", "reopening"))
        trouble = [_says(what) for what in shown if what]
        typed = {
            name: str(value)[:24] for name, value in sent.items() if not isinstance(value, int)
        }
        self.told.append(row(who, page, typed, answer.status_code, trouble, [*said(answer)]))
        return answer


def test_the_meter_is_answered_as_was_let_stand(hatchback, browse):
    """A value as meant, to look at, to stop at, unjudged, the same again, and one removed."""
    bench, key_off = Bench(hatchback, browse), hatchback.key_off
    field = f"m{key_off.pk}-value"

    def read(who: str, text: str, **limits: Any) -> None:
        Measurement.objects.filter(pk=key_off.pk).update(**limits)
        key_off.refresh_from_db()
        sent = {field: text, f"m{key_off.pk}-version": key_off.version}
        bench.post(who, "measure", key_off.pk, **sent)
        bench.told[-1] = bench.told[-1].replace(f"m{key_off.pk}-", "")

    read("installer", "41 mA", low=None, high=None)
    read("designer", "41 mA")
    read("designer", "40 mA", low=0.001, high=0.04)
    read("designer", "42 mA")
    read("designer", "43 mA", beyond=Measurement.Beyond.STOP)
    read("designer", "")
    read("designer", "9 bananas")
    key_off.remove()
    read("installer", "44 mA")
    read("designer", "44 mA")
    for _time in range(2):
        bench.post("installer", "measurement-plan")
    planned = [
        row(kept.position, kept.name, kept.kind, kept.derived)
        for kept in Measurement.objects.order_by("position")
    ]
    hold("bay/measured", figures({"said": bench.told, "planned": planned}))


def test_the_gate_is_answered_as_was_let_stand(hatchback, browse):
    """Each check signed, signed again, taken back when said twice; each question answered."""
    bench, job = Bench(hatchback, browse), hatchback.job
    checks = gate_checks(load(job))
    check = {"check": checks[0].code, "of": checks[0].key}
    bench.post("installer", "gate-sign", check="odd", of="")
    bench.post("installer", "gate-sign", **check, signed="0")
    bench.post("installer", "gate-sign", **check)
    bench.post("installer", "gate-sign", **check)
    bench.post("designer", "gate-sign", **check)
    bench.post("designer", "gate-sign", **check, signed="0")
    signs = [GateSign.objects.count()]
    bench.post("designer", "gate-sign", **check, signed="0", sure="1")
    signs.append(GateSign.objects.count())
    codes = [question.code for question in questions(load(job))]
    for code in codes:
        bench.post("installer", "gate-answer", question=code, text="")
        bench.post("installer", "gate-answer", question=code, text="w" * (MOST_WORDS + 1), yes="1")
        bench.post("installer", "gate-answer", question=code, text="Read.", yes="1")
        bench.post("installer", "gate-answer", question=code, text="Read.", yes="1")
        bench.post("designer", "gate-answer", question=code, text="Not.", yes="0", version="0")
        bench.post("designer", "gate-answer", question=code, text="Not.", yes="0", version="1")
    bench.post("installer", "gate-answer", question="odd", text="Read.")
    answers = [
        row(kept.code, kept.text[:9], kept.yes, kept.version, kept.written_by.full_name)
        for kept in CarAnswer.objects.order_by("pk")
    ]
    for reason in ("", "w" * (LONGEST + 1), "w" * LONGEST):
        bench.post("manager", "gate-release", reason=reason)
    released = [
        row(len(kept.reason), kept.left_open["says"]) for kept in StageRelease.objects.all()
    ]
    kinds = [sorted(BY_YES_OR_NO), sorted(WITH_FILE)]
    hold("bay/gate", figures({
        "checks": [row(kept.code, kept.says) for kept in checks], "said": bench.told,
        "signs": signs, "answers": answers, "released": released, "kinds": kinds,
    }))  # fmt: skip


def test_panels_steps_and_photos_are_answered_as_was_let_stand(hatchback, browse):
    """Ticked, closed with and without a reason, opened again, photos of a step that is gone."""
    bench, panel = Bench(hatchback, browse), hatchback.sill
    step = PanelStep.objects.create(
        job=hatchback.job, panel=panel, text="Clip it.", phase=PanelStep.Phase.REFIT
    )
    photo = SimpleUploadedFile("a.jpg", _jpeg(), "image/jpeg")
    bench.post("installer", "tick", step.pk, done="1")
    bench.post("designer", "tick", step.pk, done="1")
    bench.post("designer", "tick", step.pk, done="0")
    bench.post("installer", "bay-looked", panel.pk, what="airbag_near", there="1")
    bench.post("installer", "bay-looked", panel.pk, what="odd", there="1")
    bench.post("installer", "bay-caution", panel.pk)
    bench.post("installer", "bay-note", panel=panel.pk, kind="note", text="Rust.")
    bench.post("installer", "bay-note", kind="note", text="")
    bench.post("installer", "bay-photos", panel.pk)
    bench.post("installer", "bay-photos", panel.pk, photo=photo)
    bench.post("installer", "bay-photos", panel.pk, photo=SimpleUploadedFile("b.jpg", b"no"))
    photo.seek(0)
    bench.post("installer", "bay-photos", panel.pk, photo=photo, step="999999")
    bench.post("installer", "panel-close", panel.pk, reason="")
    bench.post("installer", "panel-close", panel.pk, reason="w" * (LONGEST + 1))
    bench.post("installer", "panel-close", panel.pk, reason="Later.")
    bench.post("designer", "panel-close", panel.pk, reason="Mine.")
    bench.post("installer", "tick", hatchback.job.panelsteps.first().pk, done="1")
    bench.post("installer", "panel-reopen", panel.pk, reason="")
    bench.post("installer", "panel-reopen", panel.pk, reason="w" * (LONGEST + 1))
    bench.post("installer", "panel-reopen", panel.pk, reason="A clip broke.")
    bench.post("installer", "panel-reopen", panel.pk, reason="Again.")
    step.refresh_from_db()
    kept = [
        row(
            closing.checked,
            closing.left_open,
            closing.reason,
            closing.reopened_why,
            closing.version,
        )
        for closing in PanelClosing.objects.order_by("pk")
    ]
    step.remove()
    bench.post("installer", "tick", step.pk, done="1")
    hold("bay/panels", figures({"said": bench.told, "closings": kept, "step": row(step.version)}))
