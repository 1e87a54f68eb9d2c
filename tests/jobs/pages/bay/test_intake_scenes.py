"""What is noted of a car that comes in is read, and refused, as was let stand."""

from __future__ import annotations

import json

import pytest
from django.http import QueryDict
from django.urls import reverse
from django.utils.http import urlencode

from jobs.drawings.car import bodies
from jobs.models import Intake, IntakeMark
from jobs.pages.bay.intake import IntakeForm, MarkForm
from tests.approval import figures, hold
from tests.jobs.factories import make_job
from tests.told import row

pytestmark = pytest.mark.django_db

BODIES = [value for value, _label in Intake._meta.get_field("body").choices]
READ = (
    {},
    {"lamps_lit": "true"},
    {"lamps_lit": "true", "lamps": "Airbag lamp."},
    {"lamps": "Airbag lamp."},
    {"lamps_lit": "false", "lamps": "Airbag lamp."},
    {"belongings_left": "true"},
    {"belongings": "A pram."},
    {"belongings_left": "true", "belongings": "A pram."},
    {"lamps_lit": "false", "belongings_left": "false", "mileage": "123456", "keys": "2"},
    {"mileage": "-1", "keys": "-1"},
    {"mileage": "far", "fuel": "2"},
)
MARKS = (
    {},
    {"kind": "scratch"},
    {"kind": "scratch", "x": "0.5", "y": "0.25"},
    {"kind": "scratch", "x": "1.01", "y": "-0.01"},
    {"kind": "scratch", "x": "1", "y": "0"},
    {"kind": "scratch", "x": "0.5", "place": "bonnet"},
    {"kind": "other", "place": "bonnet"},
    {"kind": "other", "place": "bonnet", "note": "Sap of a tree."},
    {"kind": "picture", "place": "bonnet"},
    {"kind": "odd", "place": "nowhere"},
)


def test_what_is_read_off_a_car_is_what_was_let_stand():
    """A yes names what, a name is a yes, and figures lie within their bounds."""
    job, told = make_job(), {}
    for number, sent in enumerate(READ):
        form = IntakeForm(
            QueryDict(urlencode({"body": BODIES[0], "mileage_unit": "km"} | sent)),
            instance=Intake(job=job),
        )
        wrong = {name: list(errors) for name, errors in form.errors.items()}
        kept = {name: form.cleaned_data.get(name) for name in sent}
        told[f"{number} {row(sent)}"] = row(wrong) if wrong else row(kept)
    hold("intake/read", figures(told))


@pytest.mark.parametrize("body", BODIES)
def test_a_mark_is_taken_as_was_let_stand(body, cast):
    """By a tap, or by a place of this kind of car; something has to be said of it."""
    job = make_job()
    Intake.objects.create(job=job, body=body)
    told = {}
    for number, sent in enumerate(MARKS):
        form = MarkForm(QueryDict(urlencode(sent)), body=body)
        if form.is_valid():
            mark = form.mark(job, cast.installer)
            answer = row(mark.place, mark.kind, mark.note, mark.x, mark.y, str(mark))
        else:
            answer = row({name: list(errors) for name, errors in form.errors.items()})
        told[f"{number} {row(sent)}"] = answer
    told["places"] = row([value for value, _label in MarkForm(body=body).fields["place"].choices])
    told["spots"] = row(bodies.shares(body))
    hold(f"intake/marks-{body}", figures(told))


def test_what_is_signed_is_answered_as_was_let_stand(cast, browse):
    """A name, a tick, strokes, and what was read; then it is frozen."""
    job, client = make_job(), browse("installer")
    drawn = json.dumps([[100, 100, 400, 150, 700, 120]])
    whole = {
        "name": " Hanna   Lind ",
        "agree": "1",
        "signature": drawn,
        "version": "0",
        "newest": "0",
    }
    url, told = reverse("intake-sign", args=[job.code]), {}
    for number, more in enumerate((
        {"name": " "}, {"name": "n" * 121}, {"agree": None}, {"signature": ""},
        {"signature": "[[1"}, {"version": "1"}, {"newest": "7"}, {"name": "n" * 120}, {},
    )):  # fmt: skip
        sent = {name: text for name, text in (whole | more).items() if text is not None}
        answer = client.post(url, sent)
        trouble = answer.context["trouble"] if answer.status_code != 302 else "signed"
        told[str(number)] = row(
            {k: str(v)[:20] for k, v in more.items()}, answer.status_code, trouble
        )
    kept = Intake.objects.get(job=job)
    told["kept"] = row(len(kept.signed_name), kept.version, kept.taken_by.full_name, kept.signature)
    mark = client.post(
        reverse("intake-mark", args=[job.code]), {"kind": "scratch", "place": "bonnet"}
    )
    told["added"] = row(mark.status_code, IntakeMark.objects.filter(job=job).count())
    frozen = client.post(reverse("intake", args=[job.code]), {"body": BODIES[0]})
    told["frozen"] = row(frozen.status_code, frozen.context["trouble"])
    hold("intake/signed", figures(told))
