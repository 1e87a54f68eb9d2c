"""What goes with an issued sheet inside the file: nothing that the sheet does not print."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from decimal import Decimal
from html import unescape
from itertools import count

import pytest
from django.db import models
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from jobs import sheets
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.keeping.erase import PERSONAL, PLATED
from jobs.models import Customer, IssuedSheet, Job, JobPart, Part, SheetKind, User, Vehicle
from jobs.sheets import engine
from jobs.sheets.issue import printed
from tests.jobs.sheets.kinds import OF_THE_WORK

pytestmark = pytest.mark.django_db
needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())

BODY = re.compile(r"<body.*</body>", re.S)
# Texts that calculators read, and keys that are compared.
READ = {"size", "content", "second", "fingerprint", "password", "username", "code"}
# Nobody outside the house may hold these, whatever a sheet is for.
NEVER = [
    (Customer, ("name", "phone", "email", "address", "notes")),
    (
        Job,
        (
            "wishes",
            "listening",
            "space_to_keep",
            "must_stay_factory",
            "why_this",
            "how_to_use",
            "care_notes",
            "budget",
        ),
    ),
    (Part, ("price", "notes", "figures_source")),
    (User, ("email",)),
]
OF_THE_PERSON = [
    (Customer, ("name", "phone", "email", "address", "notes")),
    (Vehicle, ("plate", "vin")),
    (Job, ("wishes", "listening", "budget")),
]


def _texts(model: type[models.Model]) -> Iterator[models.Field]:
    for one in model._meta.fields:
        is_text = isinstance(one, models.CharField | models.TextField) and not one.choices
        # A share or a quantity is no sum of money, and has no room for a mark.
        is_money = isinstance(one, models.DecimalField) and one.max_digits >= 10
        if (is_text or is_money) and one.name not in READ:
            yield one


def _kinds_of_row(model: type[models.Model]) -> Iterator[type[models.Model]]:
    for below in model.__subclasses__():
        yield from [below] if not below._meta.abstract else []
        yield from _kinds_of_row(below)


Marked = tuple[JobDesign, dict[str, str]]


def _mark(pk: int) -> Marked:
    number, marks = count(1), {}
    rows = [Customer, Vehicle, Job, Part, User]
    rows += [one for one in _kinds_of_row(JobPart) if not one.__name__.startswith("Historical")]
    for model in rows:
        for field in _texts(model):
            for row in model._base_manager.all():
                mark: str | Decimal = f"zq{next(number):04d}"
                if isinstance(field, models.DecimalField):
                    mark = Decimal(9_100_000 + next(number))
                model._base_manager.filter(pk=row.pk).update(**{field.name: mark})
                marks[str(mark)] = f"{model.__name__}.{field.name}"
    job = Job.objects.select_related("vehicle__customer", "consultant").get(pk=pk)
    job.panelsteps.update(done_by=job.consultant, done_at=timezone.now())
    return work_out(load(job)), marks


@pytest.fixture(scope="module")
def _marked(_building, _hatchback) -> Marked:
    return _building(_mark, _hatchback.job.pk)


@pytest.fixture
def marked(db, _marked) -> Marked:
    """A job with an unmistakable mark in every text and every sum of money: what is where."""
    return _marked


def _found(text: str, marks: dict[str, str]) -> set[tuple[str, str]]:
    return {(where, mark) for mark, where in marks.items() if mark in text}


def test_every_sheet_says_what_is_attached():
    """A new kind of sheet has its entry, and its entry says what goes with it."""
    assert set(sheets.SHEETS) == set(SheetKind)
    # Money and what is all of the customer go inside no file.
    apart = {SheetKind.SPEC, SheetKind.OPTIONS, SheetKind.INTAKE}
    packs = {kind for kind in SheetKind if kind.chapters}  # what is within brings its own
    without = {kind for kind, sheet in sheets.SHEETS.items() if not sheet.attached.records}
    assert without == apart | packs


@pytest.mark.parametrize("kind", SheetKind)
def test_nothing_is_attached_that_is_not_printed(marked, kind):
    """Each text in the data of a sheet stands on the sheet itself, whatever it is."""
    design, marks = marked
    html, data = printed(
        design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now()
    )
    assert all(data["records"].values())
    assert _found(json.dumps(data), marks) - _found(unescape(html), marks) == set()


@pytest.mark.parametrize("kind", sorted(set(SheetKind) - PERSONAL))
def test_a_sheet_of_the_technical_record_carries_no_person(marked, kind):
    """Neither printed nor attached: customer, their words; a plate only where the car is named."""
    design, marks = marked
    html, data = printed(
        design, sheets.SHEETS[SheetKind(kind)], sheets.Options(), revision=1, at=timezone.now()
    )
    of_the_person = {f"{model.__name__}.{name}" for model, names in OF_THE_PERSON for name in names}
    assert of_the_person <= set(marks.values())
    if kind in PLATED:
        of_the_person -= {"Vehicle.plate", "Vehicle.vin"}
    for text in (unescape(html), json.dumps(data)):
        assert {where for where, _mark in _found(text, marks)} & of_the_person == set()


@needs_pdf
def test_no_file_carries_customer_money_or_notes(marked, cast, monkeypatch):
    """Neither in what is attached to a sheet, nor in its document information or its XMP."""
    render = engine.render

    def without_body(html: str, **more: object) -> bytes:
        """What is asked for here hangs on the head; to lay out what is read takes long."""
        return render(BODY.sub("<body><h1>invented</h1></body>", html), **more)

    monkeypatch.setattr(engine, "render", without_body)
    design, marks = marked
    never = {f"{model.__name__}.{name}" for model, names in NEVER for name in names}
    assert never <= set(marks.values())
    for kind in OF_THE_WORK:
        issued = sheets.issue(design, kind, sheets.Options(), cast.manager)
        file = PdfReader(io.BytesIO(bytes(issued.pdf)))
        ((name, contents),) = file.attachments.items()
        assert name == f"{design.records.job.code}-{kind}-1.json"
        xmp = file.trailer["/Root"]["/Metadata"].get_data().decode()
        inside = [one.decode() for one in contents] + [xmp, str(dict(file.metadata))]
        assert len(inside) == 3
        for text in inside:
            assert {where for where, _mark in _found(text, marks)} & never == set(), kind


@needs_pdf
def test_the_first_scheme_opens_only_to_those_who_may_know_all(saloon, cast, browse):
    """A sheet issued when the whole job went with it keeps its bytes, so its door is narrower."""
    design = work_out(load(saloon.job))
    issued = sheets.issue(design, SheetKind.PANELS, sheets.Options(), cast.manager)
    address = reverse("sheet-issued", args=[saloon.code, issued.pk])
    assert browse("installer").get(address).status_code == 200
    IssuedSheet.objects.update(data={"schema": 1}, fingerprint="")
    for name, status in [
        ("manager", 200), ("consultant", 200), ("designer", 403), ("installer", 403),
        ("stranger", 404),
    ]:  # fmt: skip
        assert browse(name).get(address).status_code == status, name


@needs_pdf
def test_an_issued_sheet_obeys_the_rule_of_its_draft(saloon, cast, browse, monkeypatch):
    """Who may not print a sheet may not open it issued (403); a stranger learns nothing (404)."""
    design = work_out(load(saloon.job))
    issued = sheets.issue(design, SheetKind.PANELS, sheets.Options(), cast.manager)
    entry = sheets.SHEETS[SheetKind.PANELS]
    narrow = sheets.Sheet(
        **{name: getattr(entry, name) for name in entry.__dataclass_fields__}
        | {"may_open": lambda user: "manager" in user.roles}
    )
    monkeypatch.setitem(sheets.SHEETS, SheetKind.PANELS, narrow)
    for address in (
        reverse("sheet-issued", args=[saloon.code, issued.pk]),
        reverse("sheet-draft", args=[saloon.code, SheetKind.PANELS]),
    ):
        for name, status in [("manager", 200), ("installer", 403), ("stranger", 404)]:
            assert browse(name).get(address).status_code == status, (name, address)
    page = browse("installer").get(reverse("sheets", args=[saloon.code])).content.decode()
    assert reverse("sheet-draft", args=[saloon.code, SheetKind.PANELS]) not in page
