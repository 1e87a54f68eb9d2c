"""What people sent and what was issued, moved between a disk and a bucket, a file at a time.

A file is copied, read back and held to its hash before the old one goes, so that whoever stops it
anywhere begins again with the same command.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from django.apps import apps
from django.core.files.base import ContentFile
from django.core.files.storage import Storage, default_storage
from django.db import models

from jobs.models.sheets import IssuedSheet, sheet_path

# missing: neither here nor there. another: another file bears its name there. changed: a sheet that
# is not as it was issued. unread: what was read back was not what was written.
Outcome = Literal["moved", "there", "missing", "another", "changed", "unread"]
CHUNK = 1024 * 1024


@dataclass(frozen=True, kw_only=True)
class Step:
    """What became of one file."""

    name: str
    outcome: Outcome
    size: int = 0


def named() -> set[str]:
    """Every file a row names, or named once; a row that was removed comes back with its own."""
    names: set[str] = set()
    for model in apps.get_app_config("jobs").get_models():
        files = [f.attname for f in model._meta.local_fields if isinstance(f, models.FileField)]
        for field in files:
            rows = [model._base_manager, *([model.history] if hasattr(model, "history") else ())]
            for manager in rows:
                names.update(manager.exclude(**{field: ""}).values_list(field, flat=True))
    return names


def of_sheets() -> set[str]:
    """The files of issued sheets, which lie in their rows where there is no bucket."""
    return set(IssuedSheet.objects.exclude(file="").values_list("file", flat=True))


def lying_in(store: Storage, folder: str = "") -> Iterator[str]:
    """Every file below a folder of a store."""
    try:
        folders, files = store.listdir(folder)
    except FileNotFoundError:
        return
    inside = f"{folder}/" if folder else ""
    yield from (f"{inside}{name}" for name in files if name)
    for name in filter(None, folders):
        yield from lying_in(store, f"{inside}{name}")


def move(names: Iterable[str], source: Storage, target: Storage, *, dry: bool) -> Iterator[Step]:
    """Move files by name; `dry` looks only."""
    for name in sorted(names):
        yield _move(name, source, target, dry=dry)


def _move(name: str, source: Storage, target: Storage, *, dry: bool) -> Step:
    there = target.exists(name)
    if not source.exists(name):
        return Step(name=name, outcome="there" if there else "missing")
    size = source.size(name)
    wanted = _hash(source, name)
    if there and _hash(target, name) != wanted:
        if not _is_begun(name, source, target):
            return Step(name=name, outcome="another", size=size)
        if not dry:
            target.delete(name)
        there = False
    if dry:
        return Step(name=name, outcome="moved", size=size)
    if not there:
        with source.open(name, "rb") as content:
            kept = target.save(name, content)
        if kept != name or _hash(target, name) != wanted:
            target.delete(kept)
            return Step(name=name, outcome="another" if kept != name else "unread", size=size)
    source.delete(name)
    return Step(name=name, outcome="moved", size=size)


def _is_begun(name: str, source: Storage, target: Storage) -> bool:
    """Whether what lies there is the beginning of the file: a copy that was cut off."""
    size = target.size(name)
    return size < source.size(name) and _hash(target, name) == _hash(source, name, size)


def _hash(store: Storage, name: str, first: int | None = None) -> str:
    """SHA-256 of a file as it is read from its store, or of its first bytes."""
    digest, left = hashlib.sha256(), first
    with store.open(name, "rb") as opened:
        while left != 0 and (piece := opened.read(CHUNK if left is None else min(CHUNK, left))):
            digest.update(piece)
            left = None if left is None else left - len(piece)
    return digest.hexdigest()


def sheets_into_the_bucket(*, dry: bool) -> Iterator[Step]:
    """Put away the bytes of every sheet that lie in its row."""
    for sheet in _sheets(IssuedSheet.objects.filter(file="", erased_at=None)):
        pdf = bytes(sheet.pdf)
        if hashlib.sha256(pdf).hexdigest() != sheet.sha256:
            yield Step(name=str(sheet), outcome="changed")
            continue
        name = sheet_path(sheet, "")
        if not dry:
            try:
                kept = default_storage.save(name, ContentFile(pdf))
                if _hash(default_storage, kept) != sheet.sha256:
                    default_storage.delete(kept)
                    yield Step(name=str(sheet), outcome="unread")
                    continue
                # Whose person is erased meanwhile keeps nothing, in neither place.
                unerased = IssuedSheet.objects.filter(pk=sheet.pk, erased_at=None)
                if not unerased.update(file=kept, pdf=b""):
                    default_storage.delete(kept)
                    continue
            except BaseException:
                default_storage.delete(name)  # no row names it
                raise
        yield Step(name=str(sheet), outcome="moved", size=len(pdf))


def sheets_into_the_rows(*, dry: bool) -> Iterator[Step]:
    """Fetch the bytes of every sheet that lie in the bucket."""
    for sheet in _sheets(IssuedSheet.objects.exclude(file="")):
        pdf = sheet.content()
        if pdf is None or hashlib.sha256(pdf).hexdigest() != sheet.sha256:
            yield Step(name=str(sheet), outcome="missing" if pdf is None else "changed")
            continue
        if not dry:
            rows = IssuedSheet.objects.filter(pk=sheet.pk, erased_at=None)
            if not rows.update(pdf=pdf, file=""):
                continue
            kept = bytes(rows.values_list("pdf", flat=True).get())
            if kept != pdf:
                rows.update(pdf=b"", file=sheet.file.name)
                yield Step(name=str(sheet), outcome="unread")
                continue
            default_storage.delete(str(sheet.file.name))
        yield Step(name=str(sheet), outcome="moved", size=len(pdf))


def _sheets(rows: models.QuerySet[IssuedSheet]) -> Iterator[IssuedSheet]:
    """One row at a time: each may hold a file."""
    for pk in list(rows.order_by("pk").values_list("pk", flat=True)):
        yield from rows.select_related("job").defer("data").filter(pk=pk)
