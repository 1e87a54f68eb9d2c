"""What is kept of one person, in one file for them: plain JSON, tables, photos, hand-overs."""

from __future__ import annotations

import datetime as dt
import io
import json
import zipfile
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from django.core.files.storage import default_storage
from django.db.models import Model
from django.utils.translation import override

from jobs.keeping.erase import PERSONAL
from jobs.models import (
    Conversation,
    Customer,
    Intake,
    IntakeMark,
    IssuedSheet,
    Job,
    Message,
    Photo,
    ProcessorFile,
    Vehicle,
)
from jobs.tables import written

PERSON = ("name", "phone", "email", "address", "notes")
CAR = ("maker", "model", "body", "year", "plate", "vin", "colour")
JOB = ("title", "stage", "promised_on", "wishes", "listening", "looks", "space_to_keep",
       "must_stay_factory", "budget", "why_this",
       "how_to_use", "care_notes")  # fmt: skip
INTAKE = ("signed_name", "signed_at", "mileage", "keys", "belongings", "works", "works_not")
Table = list[dict[str, str]]


def export(customer: Customer) -> bytes:
    """Return the file."""
    cars = Vehicle.with_removed.filter(customer=customer)
    jobs = Job.with_removed.filter(vehicle__in=cars).order_by("number")
    earlier = Customer.history.filter(id=customer.pk).order_by("history_id")
    with override("en"):  # names of fields do not depend on who asks
        tables: dict[str, Table] = {
            "person": [_row(customer, PERSON)],
            "person as written before": [
                {"on": entry.history_date.date().isoformat()} | _row(entry, PERSON)
                for entry in earlier
            ],
            "cars": [_row(car, CAR) for car in cars],
            "jobs": [{"number": job.code} | _row(job, JOB) for job in jobs],
            "intakes": [
                {"number": row.job.code} | _row(row, INTAKE)
                for row in Intake.objects.filter(job__in=jobs).select_related("job")
            ],
            "conversations": [
                {"number": row.job.code} | _row(row, ("held_on", "way", "text"))
                for row in Conversation.objects.filter(job__in=jobs).select_related("job")
            ],
            "messages": [
                {"number": row.job.code} | _row(row, ("asked_at", "to", "subject", "text"))
                for row in Message.objects.filter(job__in=jobs).select_related("job")
            ],
        }
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("data.json", json.dumps(tables, ensure_ascii=False, indent=1))
        for name, table in tables.items():
            file.writestr(f"{name}.csv", written(list(table[0]) if table else [], table))
        for name, content in _files(jobs):
            file.writestr(name, content)
    return packed.getvalue()


def _row(row: Model, names: Sequence[str]) -> dict[str, str]:
    """Return fields by their labels, choices by their words."""
    return {_label(row, name): _said(row, name) for name in names}


def _label(row: Model, name: str) -> str:
    return str(row._meta.get_field(name).verbose_name)  # type: ignore[union-attr]


def _said(row: Any, name: str) -> str:
    value = getattr(row, name)
    field = row._meta.get_field(name)
    if field.choices:
        return str(dict(field.flatchoices).get(value, value))
    if isinstance(value, dt.date):
        return value.isoformat()
    return "" if value is None else f"{value:.2f}" if isinstance(value, Decimal) else str(value)


def _files(jobs: Iterable[Job]) -> Iterable[tuple[str, bytes]]:
    """Photos that show them, how their processor was set, and the sheets that carry them."""
    photos = Photo.objects.filter(job__in=jobs, shows_person=True).select_related("job")
    marks = IntakeMark.objects.filter(job__in=jobs).exclude(image="").select_related("job")
    set_so = ProcessorFile.objects.filter(job__in=jobs).exclude(kept="").select_related("job")
    named = [(f"photos/{row.job.code}-{row.pk}.jpg", row.original.name or "") for row in photos]
    named += [(f"intake/{row.job.code}-{row.pk}.jpg", row.image.name or "") for row in marks]
    named += [
        (f"processors/{row.job.code}-{row.pk}-{row.kept_name}", row.kept.name or "")
        for row in set_so
    ]
    for called, name in named:
        if name and default_storage.exists(name):
            with default_storage.open(name) as opened:
                yield called, opened.read()
    sheets = IssuedSheet.objects.filter(job__in=jobs, kind__in=PERSONAL, erased_at=None)
    for sheet in sheets.select_related("job").defer("data"):
        called = f"sheets/{sheet.job.code}-{sheet.kind}-{sheet.revision}.pdf"
        if (pdf := sheet.content()) is not None:
            yield called, pdf
