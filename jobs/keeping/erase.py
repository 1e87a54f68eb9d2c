"""Erase a person: the technical record of the car stays, and says nothing of anybody.

Blanked are the customer's row, the customer's own words on their jobs, both in every entry of the
history, and their name, telephone and e-mail wherever somebody typed them. An issued sheet that
carries the person loses its bytes and keeps number, date, revision and hash.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Iterator
from typing import Any

from django.apps import apps
from django.db.models import CharField, JSONField, Model, QuerySet, TextField
from django.utils import timezone

from jobs import search
from jobs.keeping import erased_list
from jobs.keeping.erased_list import Erased
from jobs.keeping.removed import files_of
from jobs.models import (
    CarAnswer,
    ChannelCurve,
    Conversation,
    Customer,
    CustomerPage,
    Intake,
    IntakeMark,
    IssuedSheet,
    Job,
    JobPart,
    Message,
    Offer,
    OptionCopy,
    Photo,
    PrintOrder,
    ProcessorFile,
    Record,
    SheetKind,
    User,
    Vehicle,
)
from jobs.models.box.row_lists import ListedRow, WithLists, copied_lists

INSTEAD = "…"
SHORTEST = 4  # letters; what is shorter stands in too many other words
THEIRS: dict[type[Model], dict[str, Any]] = {
    Customer: {"name": "", "phone": "", "email": "", "address": "", "notes": ""},
    # What the customer said and what they would spend; what was made of it is technical.
    Job: {"wishes": "", "listening": "", "budget": None},
    # That there was a word is of the job; what was said is theirs.
    Conversation: {"text": ""},
    # That somebody agreed is of the job; who it was and how they sign is theirs.
    Offer: {"accepted_name": "", "signature": []},
    # That it was signed is of the job; what they said and left in the car is theirs.
    Intake: {
        "signed_name": "",
        "signature": [],
        "belongings": "",
        "works": "",
        "works_not": "",
    },
}
PLATES = {"plate": "", "vin": ""}
# Sheets that print the person by what they are for.
PERSONAL = {
    *(SheetKind.HANDOVER, SheetKind.SPEC, SheetKind.OPTIONS, SheetKind.CUSTOMER),
    SheetKind.INTAKE,
}
# Sheets that say of which car they are, by its number and its plate.
PLATED = {SheetKind.PANELS, SheetKind.GLOVEBOX, SheetKind.BAY}


def erase(
    customer: Customer,
    *,
    by: User | None,
    why: str,
    plates: bool,
    at: dt.datetime | None = None,
) -> list[str]:
    """Erase a person, inside a transaction; returns the files to delete once it is through."""
    at = at or timezone.now()
    words = words_of(customer)
    cars = Vehicle.with_removed.filter(customer=customer)
    jobs = Job.with_removed.filter(vehicle__in=cars)
    job_keys = list(jobs.values_list("pk", flat=True))
    personal = Photo.with_removed.filter(job__in=job_keys, shows_person=True)
    photo_keys = set(personal.values_list("pk", flat=True))
    # Drafts are kept a while. Before the sheets: one that is being issued loses its order and is
    # not kept, or was kept by now and is found below.
    PrintOrder.objects.filter(job__in=job_keys).delete()
    _unwrite_messages(job_keys, at)
    CustomerPage.objects.filter(job__in=job_keys).delete()
    files = [
        name
        for sheet in IssuedSheet.objects.filter(job__in=job_keys)
        for name in _strip(sheet, words, photo_keys, plates=plates, at=at)
    ]
    for copy in OptionCopy.objects.filter(option__job__in=job_keys):
        _blank_copy(copy.data, plates=plates)
        copy.data = _without(words, copy.data)
        copy.save(update_fields=["data"])
    files += [name for photo in personal for name in files_of(photo)]
    _blank(personal, {"image": "", "small": "", "original": "", "caption": ""})
    personal.filter(removed_at=None).update(removed_at=at)
    for photo in Photo.with_removed.filter(pk__in=photo_keys):
        search.write(photo)
    _blank(jobs, THEIRS[Job])
    _blank(Offer.with_removed.filter(job__in=job_keys), THEIRS[Offer])
    for theirs in (Conversation, Intake):
        _blank(theirs.with_removed.filter(job__in=job_keys), THEIRS[theirs])
    files += _intake_pictures(job_keys)
    if plates:
        _blank(cars, PLATES)
        files += _files(CarAnswer, job_keys, report="", report_name="")
    # Nobody looks into a processor's file, and a microphone hears whoever talks.
    files += _files(ProcessorFile, job_keys, kept="", kept_name="")
    files += _files(ChannelCurve, job_keys, take="", take_name="")
    for model in _models():
        of = {"vehicle__in": cars} if model is Job else {"job__in": job_keys}
        rows = cars if model is Vehicle else model._base_manager.filter(**of)
        keys = list(rows.values_list("pk", flat=True))
        _take_out(words, model._base_manager.filter(pk__in=keys))
        _take_out(words, _history(model).filter(id__in=keys))
    for listed in (model for model in apps.get_models() if issubclass(model, ListedRow)):
        of_jobs = {f"{listed.of}__job__in": job_keys}
        _take_out(words, listed._base_manager.filter(**of_jobs))
    vars(customer).update(THEIRS[Customer])
    customer.erased_at, customer.erased_by, customer.erased_why = at, by, why
    customer.version += 1
    customer.save()  # which writes anew by what words they and their jobs are found
    _blank(Customer.with_removed.filter(pk=customer.pk), THEIRS[Customer])
    return files


def words_of(customer: Customer) -> list[str]:
    """Return what a person is known by, now and in earlier entries: name, telephone, e-mail."""
    rows = [customer, *Customer.history.filter(id=customer.pk)]
    texts = {text.strip() for row in rows for text in (row.name, row.phone, row.email)}
    return sorted((text for text in texts if len(text) >= SHORTEST), key=len, reverse=True)


def typed_elsewhere(customer: Customer) -> list[tuple[Job, str]]:
    """Return where a person's name, telephone or e-mail was typed outside their own row."""
    words = words_of(customer)
    places: dict[tuple[Job, str], None] = {}
    jobs = Job.with_removed.filter(vehicle__customer=customer)
    for model in _models():
        if model is Vehicle:
            continue
        rows: Iterable[Any] = (
            jobs if model is Job else model.with_removed.filter(job__in=jobs).select_related("job")
        )
        for row in rows:
            texts = [getattr(row, field.attname) for field in _texts(model)]
            texts.append(copied_lists(row) if isinstance(row, WithLists) else None)
            if _without(words, texts) != texts:
                job = row if isinstance(row, Job) else row.job
                places[job, str(model._meta.verbose_name)] = None
    return list(places)


def replay(listed: Iterable[Erased]) -> tuple[int, list[str]]:
    """Erase again whom an older database still knows; returns how many, and the files to delete."""
    count, files = 0, []
    for erased in listed:
        customer = Customer.with_removed.filter(pk=erased.customer, erased_at=None).first()
        # Not somebody who took the key later.
        if customer is not None and erased.began in ("", erased_list.began(customer)):
            at = dt.datetime.fromisoformat(erased.at)
            files += erase(customer, by=None, why="", plates=erased.plates, at=at)
            count += 1
    return count, files


def _models() -> Iterator[Any]:
    yield from (Job, Vehicle)
    yield from (model for model in apps.get_models() if issubclass(model, JobPart))


def _history(model: Any) -> QuerySet[Any]:
    entries: QuerySet[Any] = model.history.all()
    return entries


def _files(model: Any, jobs: list[int], **empty: str) -> list[str]:
    """Take files out that may name the person or the car; returns those to delete."""
    field = next(iter(empty))
    every = _history(model).filter(job__in=jobs).exclude(**{field: ""})
    files = list(every.values_list(field, flat=True).distinct())
    _blank(model.with_removed.filter(job__in=jobs), empty)
    return files


def _intake_pictures(jobs: list[int]) -> list[str]:
    """Take the pictures of the walk round a car out: whoever stands by it is on them too."""
    rows = IntakeMark.with_removed.filter(job__in=jobs)
    files = [name for row in rows for name in files_of(row)]
    _blank(rows, {"image": "", "small": ""})
    return files


def _unwrite_messages(jobs: list[int], at: dt.datetime) -> None:
    """That something was written stays; to whom and what does not, and nothing goes out."""
    messages = Message.objects.filter(job__in=jobs)
    ended = {"state": Message.State.FAILED, "trouble": Message.Trouble.ERASED}
    messages.filter(state=Message.State.WAITING).update(**ended, ended_at=at, next_at=None)
    messages.update(to="", subject="", text="")


def _blank(rows: QuerySet[Any], values: dict[str, Any]) -> None:
    """Empty fields of rows and of every entry of their history, and what they are found by."""
    keys = list(rows.values_list("pk", flat=True))
    _history(rows.model).filter(id__in=keys).update(**values)
    emptied = rows.model._base_manager.filter(pk__in=keys)
    emptied.update(**values)
    for row in emptied:
        search.write(row)


def _texts(model: Any) -> list[Any]:
    """The fields somebody types free text into."""
    return [
        field
        for field in model._meta.concrete_fields
        if isinstance(field, CharField | TextField | JSONField) and not field.choices
    ]


def _take_out(words: list[str], rows: QuerySet[Any]) -> None:
    """Replace the words wherever somebody typed them into a text or a list."""
    fields = _texts(rows.model)
    # Read and not asked of the database: its lists write some letters otherwise, and it takes
    # capitals of the plain alphabet alone for the same letter.
    for row in rows.iterator() if words else ():
        changed = {}
        for field in fields:
            kept = getattr(row, field.attname)
            without = _without(words, kept)
            if without != kept:
                changed[field.attname] = without
        if changed:
            rows.model._base_manager.filter(pk=row.pk).update(**changed)
            if isinstance(row, Record):
                vars(row).update(changed)
                search.write(row)


def _without(words: list[str], value: Any) -> Any:
    """Return a text, or plain data, without these words."""
    if isinstance(value, str):
        for word in words:
            value = re.sub(re.escape(word), INSTEAD, value, flags=re.IGNORECASE)
        return value
    if isinstance(value, list | tuple):
        return [_without(words, part) for part in value]
    if isinstance(value, dict):
        return {name: _without(words, part) for name, part in value.items()}
    return value


def _blank_copy(data: dict[str, Any], *, plates: bool) -> None:
    """Empty what is theirs in the rows of a copy of a job."""
    blank = {model.__name__: values for model, values in THEIRS.items()}
    blank |= {"Vehicle": PLATES} if plates else {}
    for name, values in blank.items():
        for row in data.get("rows", {}).get(name, ()):
            row.update(values)


def _strip(
    sheet: IssuedSheet,
    words: list[str],
    photos: set[int],
    *,
    plates: bool,
    at: dt.datetime,
) -> list[str]:
    """Take the person out of the archive of a sheet, and the bytes away if they are on it.

    Returns the file it had, to be deleted.
    """
    _blank_copy(sheet.data, plates=plates)
    shown = photos & {row["id"] for row in sheet.data.get("rows", {}).get("Photo", ())}
    data = _without(words, sheet.data)
    # A name somebody typed into a title or a note may have been printed on any sheet.
    typed = data != sheet.data
    sheet.data = data
    plated = plates and sheet.kind in PLATED
    files: list[str] = []
    if sheet.kind in PERSONAL or plated or sheet.holds_whole_job or typed or shown:
        files = files_of(sheet)
        sheet.pdf, sheet.file, sheet.erased_at = b"", "", at
    sheet.save(update_fields=["data", "pdf", "file", "erased_at"])
    return files
