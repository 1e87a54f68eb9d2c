"""The chain of a job's issued sheets: each holds a hash of itself and of the one before.

Nothing here is secret. What is changed or taken out by hand, by a failing disk or by a careless
restore is found; whoever writes the whole chain anew has to meet the sheets already on paper too.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from jobs.design.records.data import photo_hashes
from jobs.models import IssuedSheet, Job, Photo


@dataclass(frozen=True, kw_only=True)
class Fault:
    """What is no longer as it was issued."""

    sheet: str
    what: str


def is_as_issued(issued: IssuedSheet, pdf: bytes) -> bool:
    """Whether these are the bytes a sheet was issued with."""
    return hashlib.sha256(pdf).hexdigest() == issued.sha256


def digest(data: Any) -> str:
    """Return the hash of data, the same from whichever database they were read."""
    text = json.dumps(_plain(data), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    """Write every number one way: a database may return 1 for 1.0, and has no minus zero."""
    if isinstance(value, dict):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value) + 0.0
    return value


def link(sheet: IssuedSheet, before: str) -> str:
    """Return the hash over everything a sheet says of itself, and over the one before."""
    return digest(
        [
            before,
            sheet.kind,
            sheet.revision,
            sheet.paper,
            sheet.language,
            sheet.reason,
            sheet.issued_at.isoformat(),
            sheet.issued_by_id if sheet.issuer_there is None else sheet.issuer_there,
            sheet.fingerprint,
            sheet.sha256,
            sheet.data_sha256,
        ]
    )


def faults(job: Job) -> Iterator[Fault]:
    """Find every sheet of a job that is not as it was issued, and photos changed since.

    Of one that was erased with its person, what was kept is looked at. A photo that was removed
    since is no fault.
    """
    before, photos = "", {str(photo.pk): photo for photo in Photo.objects.filter(job=job)}
    for sheet in (
        IssuedSheet.objects.filter(job=job)
        .select_related("origin")
        .order_by("pk")
        .iterator(chunk_size=1)
    ):
        name = f"{job.code} {sheet.kind} {sheet.revision}"
        if sheet.link != link(sheet, before):
            yield Fault(sheet=name, what="its row was changed, or a sheet before it is missing")
        before = sheet.link
        if sheet.erased_at is None:
            yield from (Fault(sheet=name, what=what) for what in _inside(sheet, photos))
    if before != job.last_link:
        yield Fault(sheet=job.code, what="the sheet issued last is missing")


def _inside(sheet: IssuedSheet, photos: dict[str, Photo]) -> Iterator[str]:
    pdf = sheet.content()
    if pdf is None:
        yield "its PDF is missing from the store"
    elif not is_as_issued(sheet, pdf):
        yield "its PDF was changed"
    if digest(sheet.data) != sheet.data_sha256:
        yield "what it was made from was changed"
    then = sheet.data.get("photos", {})
    here = sheet.origin.keys.get("Photo", {}) if sheet.origin else {}
    there = {str(here.get(key, "" if sheet.origin else key)): key for key in then}
    for key, now in photo_hashes([photos[key] for key in there if key in photos]).items():
        for form, was in then[there[key]].items():
            if was and now[form] != was:
                yield f"photo {key} ({form}) was changed or is lost"
