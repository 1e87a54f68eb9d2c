"""Draft and issued sheets: what is printed, what is frozen with it, and under which revision."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from django.db import IntegrityError
from django.db.models import Max
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.safestring import SafeString

from jobs import version
from jobs.design.job.whole import JobDesign
from jobs.design.records.changes import Present
from jobs.design.records.data import photo_hashes, to_data
from jobs.locks import held
from jobs.models import IssuedSheet, Job, SheetKind, User
from jobs.models.sheets import token_of
from jobs.sheets import codes, engine
from jobs.sheets.attached import attachment
from jobs.sheets.chain import digest, link
from jobs.sheets.registry import SHEETS, Options, Sheet
from jobs.sheets.speaking import spoken

Tell = Callable[[int], None]
# Somebody else took the revision while this one was printing; more often than this is no accident.
TRIES = 5


def draft(
    design: JobDesign, kind: SheetKind, options: Options, *, tell: Tell = lambda page: None
) -> bytes:
    """Print a sheet as the job stands, marked as a draft."""
    html, _attached = printed(design, SHEETS[kind], options, revision=None, at=timezone.now())
    return engine.render(html, tell=tell)


def issue(
    design: JobDesign,
    kind: SheetKind,
    options: Options,
    user: User,
    *,
    tell: Tell = lambda page: None,
    kept: Callable[[IssuedSheet], None] = lambda sheet: None,
) -> IssuedSheet:
    """Freeze a sheet with its inputs, results and decisions under the next revision.

    Nothing is locked while it prints: others go on writing. The table holds every revision once;
    whoever comes second prints again under the next. `kept` is called with it in the transaction
    that keeps it: what it raises takes the sheet back.
    """
    data = frozen(design, options)
    data_sha256 = digest(data)
    fingerprint = Present.of(design.records).fingerprint
    for attempt in range(1, TRIES + 1):
        before = IssuedSheet.objects.filter(job=design.job, kind=kind)
        revision = (before.aggregate(top=Max("revision"))["top"] or 0) + 1
        at = timezone.now()
        html, attached = printed(design, SHEETS[kind], options, revision=revision, at=at)
        text = json.dumps(attached, ensure_ascii=False, indent=1, sort_keys=True).encode()
        name = f"{design.job.code}-{kind}-{revision}.json"
        pdf = engine.render(html, attachments=[(name, text, "data of the sheet", at)], tell=tell)
        issued = IssuedSheet(
            job=design.job,
            kind=kind,
            revision=revision,
            paper=options.paper,
            language=options.language,
            data=data,
            fingerprint=fingerprint,
            sha256=hashlib.sha256(pdf).hexdigest(),
            data_sha256=data_sha256,
            reason=options.reason,
            issued_by=user,
            issued_at=at,
        )
        try:
            with _put(issued, pdf), held(design.job):
                _chain(issued)
                SHEETS[kind].kept_with(design, issued)
                kept(issued)
                return issued
        except IntegrityError:
            if attempt == TRIES:
                raise
    raise AssertionError  # the last try returned or raised


@contextmanager
def _put(issued: IssuedSheet, pdf: bytes) -> Iterator[None]:
    """Keep the bytes of a sheet before its row, outside any lock; a row that fails leaves none."""
    issued.put(pdf)
    try:
        yield
    except BaseException:
        if issued.file:
            issued.file.delete(save=False)
        raise


def _chain(issued: IssuedSheet) -> None:
    """Keep a sheet behind the one its job issued last; the job is held meanwhile.

    The job says which that was: one taken out of the table since stays missed.
    """
    job = Job.objects.filter(pk=issued.job_id)
    issued.link = link(issued, job.values_list("last_link", flat=True).get())
    issued.save(force_insert=True)
    job.update(last_link=issued.link)


def printed(
    design: JobDesign, sheet: Sheet, options: Options, *, revision: int | None, at: datetime
) -> tuple[str, dict[str, Any]]:
    """Return a sheet as a document, and the data that go with it when it is issued."""
    workshop = design.records.workshop
    with spoken(options.language, workshop.units):
        shared = {
            "job": design.job,
            "design": design,
            "workshop": workshop,
            "paper": options.paper,
            "language": options.language,
            "car": str(design.job.vehicle),
            "revision": revision,
            "draft": revision is None,
            "reason": options.reason,
            "issued_at": at,
            "cautions": design.cautions,
        }
        chapters = [
            _chapter(design, SHEETS[kind], options, shared | {"pack": _title(sheet)})
            for kind in sheet.kind.chapters
        ]
        context = shared | {
            "title": _title(sheet),
            "stands": _stands(design, sheet, revision),
            "decided": [finding for finding in design.findings if finding.decision],
            "open": [*design.open_stops, *design.open_looks],
            "chapters": chapters,
            **sheet.gathered(design, options),
        }
        data = attachment(design, sheet.attached, context)
        if chapters:
            data["chapters"] = {chapter.kind: chapter.data for chapter in chapters}
        return render_to_string(sheet.template, context), data


@dataclass(frozen=True, kw_only=True)
class Chapter:
    """A sheet within a pack."""

    kind: SheetKind
    title: str
    html: SafeString
    data: dict[str, Any]


def _chapter(design: JobDesign, sheet: Sheet, options: Options, shared: dict[str, Any]) -> Chapter:
    """Print a sheet within a pack, whose cover says once what is open and decided."""
    context = shared | {
        "within": "sheets/chapter.html",
        "anchor": sheet.kind,
        "title": _title(sheet),
        **sheet.gathered(design, options),
        "decided": [],
        "open": [],
    }
    return Chapter(
        kind=sheet.kind,
        title=_title(sheet),
        html=render_to_string(sheet.template, context),
        data=attachment(design, replace(sheet.attached, findings=False), context),
    )


def _title(sheet: Sheet) -> str:
    label = str(sheet.kind.label)
    return label[:1].upper() + label[1:]


def _stands(design: JobDesign, sheet: Sheet, revision: int | None) -> str:
    """Draw the code that says whether there is a newer one; a draft has none."""
    if revision is None:
        return ""
    token = token_of(design.job.pk, sheet.kind, revision)
    return codes.standing_uri(design.records.workshop, token)


def frozen(design: JobDesign, options: Options) -> dict[str, Any]:
    """Return what a sheet was made from, whole, and what came out: the archive in the database."""
    return to_data(design.records) | {
        "app": f"{version.number()} {version.commit()}".strip(),
        "options": asdict(options),
        "photos": photo_hashes(design.records.photos),
        "results": {
            "boxes": {
                str(box.box.pk): {figure.name: figure.value for figure in box.figures}
                for box in design.boxes
            },
            "runs": {
                row.run.label: {"current": row.worst.current, "drop": row.worst.drop}
                for row in design.power.runs
                if row.worst is not None
            },
        },
        "findings": [
            {
                "code": finding.code,
                "severity": finding.severity,
                "about": [finding.about.kind, finding.about.key, finding.about.detail],
                "where": finding.where,
                "value": finding.value,
                "limit": finding.limit,
                "unit": finding.unit,
                "source": finding.source,
                "decision": finding.decision and finding.decision.pk,
            }
            for finding in design.findings
        ],
    }
