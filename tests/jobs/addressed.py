"""Whose rows stand in the addresses that the rules ask for."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from django.core.files.base import ContentFile
from django.utils import timezone

from jobs import models
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Role, User
from tests.jobs import factories
from tests.jobs.sheets.kinds import issued_sheet

MANAGER, DESIGNER = Role.MANAGER.value, Role.DESIGNER.value


def somebody(role: str) -> User:
    """Whoever has this role."""
    return next(one for one in User.objects.all() if one.roles == [role])


def first(model: Any) -> Callable[[Job], list[Any]]:
    """The number of the job's first record of a kind."""
    return lambda job: [model.objects.filter(job=job).first().pk]


def given(*args: Any) -> Callable[[Job], list[Any]]:
    """Fixed words in the address."""
    return lambda job: list(args)


def a_finding(severity: str) -> Callable[[Job], list[Any]]:
    """The key of a finding of this severity."""
    return lambda job: [
        next(one.key for one in work_out(load(job)).findings if one.severity == severity)
    ]


def a_report(job: Job) -> list[Any]:
    """An answer with a tester's file."""
    row, _made = models.CarAnswer.objects.get_or_create(
        job=job, code="codes-before",
        defaults={"written_by": models.User.objects.first(), "written_at": timezone.now()},
    )  # fmt: skip
    if not row.report:
        row.report.save("x", ContentFile(b"P0000"))
    return [row.pk]


def a_photo(job: Job) -> list[Any]:
    """A photo of the job's first panel."""
    files = {name: ContentFile(b"\xff\xd8", "x.jpg") for name in ("image", "small", "original")}
    by = somebody(MANAGER)
    return [models.Photo.objects.create(job=job, panel=job.panels.first(), taken_by=by, **files).pk]


def a_decision(severity: str) -> Callable[[Job], list[Any]]:
    """A decision about a finding of this severity."""

    def make(job: Job) -> list[Any]:
        by = somebody(MANAGER)
        made = models.Decision.objects.create(
            job=job, code="x", where="x", fingerprint="x", said="x", severity=severity,
            reason="x", decided_by=by, name="x",
        )  # fmt: skip
        return [made.pk]

    return make


def an_issued_sheet(fingerprint: str) -> Callable[[Job], list[Any]]:
    """A sheet that was issued; one without a fingerprint has the whole job attached."""

    return lambda job: [issued_sheet(job, somebody(MANAGER), fingerprint).pk]


def a_customer_page(job: Job) -> list[Any]:
    """Nothing in the address: the hand-over as a page."""
    models.CustomerPage.objects.create(job=job, sheet_id=an_issued_sheet("x")(job)[0], html="x")
    return []


def a_print(*, to_issue: bool) -> Callable[[Job], list[Any]]:
    """A print that failed, of a draft or of a sheet to be issued."""

    def make(job: Job) -> list[Any]:
        order = models.PrintOrder.objects.create(
            job=job, kind="build", options={"paper": "a4", "language": "en", "boxes": []},
            to_issue=to_issue, asked_by=somebody(MANAGER), asked_at=timezone.now(), state="failed",
            trouble="broken",
        )  # fmt: skip
        return [order.pk]

    return make


def an_earlier_job(job: Job) -> list[Any]:
    """A job of the same model whose panels were listed."""
    models.Vehicle.objects.filter(pk=job.vehicle_id).update(model="Rare")
    earlier = factories.make_job(factories.make_car(maker=job.vehicle.maker, model="Rare"))
    models.Panel.objects.create(job=earlier, name="door card")
    return [earlier.pk]


def a_choice(job: Job) -> list[Any]:
    """The token of chosen cables that may be taken back."""
    run = job.runs.first()
    run._change_reason = "chosen token"
    run.save()
    return ["token"]


def a_person(job: Job) -> list[Any]:
    """Somebody who works here."""
    return [somebody(DESIGNER).pk]


def a_session(job: Job) -> list[Any]:
    """Where the manager is signed in as well: everybody else's is not found."""
    session = models.Session.objects.create(
        session_key="elsewhere", session_data="", user=somebody(MANAGER),
        expire_date=timezone.now() + dt.timedelta(days=1), seen_at=timezone.now(),
    )  # fmt: skip
    return [session.handle]


def a_message(job: Job) -> list[Any]:
    """An e-mail that was not sent."""
    message = models.Message.objects.create(
        job=job, kind="collect", to="somebody@example.invalid", subject="x", text="x",
        asked_by=somebody(MANAGER), asked_at=timezone.now(), state="failed",
    )  # fmt: skip
    return [message.pk]


def a_pictured_mark(job: Job) -> list[Any]:
    """A mark on the car with its picture."""
    mark = models.IntakeMark.objects.create(
        job=job, place="roof", noted_by=somebody(MANAGER), noted_at=timezone.now(),
        image=ContentFile(b"x", "x"),
    )  # fmt: skip
    return [mark.pk]


def a_tax_rate(job: Job) -> list[Any]:
    """A rate of tax."""
    rate, _new = models.TaxRate.objects.get_or_create(percent=20, valid_from=dt.date(2020, 1, 1))
    return [rate.pk]


def any_of(model: Any) -> Callable[[Job], list[Any]]:
    """The number of some record of a kind that belongs to no job."""
    return lambda job: [model.objects.first().pk]


def a_take(job: Job) -> list[Any]:
    """A curve with its recording."""
    row = models.ChannelCurve.objects.filter(job=job).first()
    if not row.take:
        row.take.save("x", ContentFile(b"RIFF"))
    return [row.pk]


def a_processor_file(job: Job) -> list[Any]:
    """A processor's file that is there."""
    row = models.ProcessorFile.objects.filter(job=job).first()
    row.kept.save("x", ContentFile(b"kept"))
    return [row.pk]
