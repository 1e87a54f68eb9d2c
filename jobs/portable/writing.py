"""A job's file: its records, the schema they keep to, all results, photos, sheets as issued.

The same job gives the same bytes: no moment and no key of the tables is in it.
"""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from dataclasses import asdict
from typing import IO, Any

from django.core.files.storage import default_storage

from jobs.backup.archive import Member, pack_one
from jobs.design.job.whole import load, work_out
from jobs.models import IssuedSheet, Job
from jobs.portable.contents import Contents, contents_of
from jobs.portable.results import results_of
from jobs.portable.schema import FORMAT, VERSION, Shape
from jobs.version import number

JOB, SCHEMA, RESULTS, MANIFEST = "job.json", "job.schema.json", "results.json", "manifest.json"
READ_ME = "READ ME.txt"
ROW = 4  # how deep a row lies: document, records, rows, its list
_WORDS = """\
{code}: one job of a workshop that builds in-car audio, whole and by itself.

job.json         everything that was planned, decided and recorded. SI units; null is unknown.
job.schema.json  what each field of it means, its unit and its limits (JSON Schema 2020-12).
results.json     what was worked out from it, figure by figure, to be checked by other means.
photos/          as they were shown; the number is the id of the photo in job.json.
sheets/          every sheet as it was issued, and what it was made from.
reports/         files of a fault-code tester, where there are any.
manifest.json    size and SHA-256 of each of these.
"""


def write(job: Job, file: IO[bytes], schema: Shape) -> Contents:
    """Write the file of a job; returns what went into it."""
    contents = contents_of(work_out(load(job)))
    members: dict[str, Member] = {}
    with zipfile.ZipFile(file, "w") as packed:
        for name, source in _sources(job, contents, schema):
            with source:
                members[name] = pack_one(packed, entry(name), source)
        about = {"format": FORMAT, "format_version": VERSION, "app": number()}
        listed = {name: asdict(member) for name, member in members.items()}
        packed.writestr(entry(MANIFEST), _json(about | {"members": listed}).read())
    return contents


def entry(name: str) -> zipfile.ZipInfo:
    """Return how a file is put in: photos and PDFs are packed already."""
    information = zipfile.ZipInfo(name)
    information.external_attr = 0o600 << 16
    is_text = name.endswith((".json", ".txt"))
    information.compress_type = zipfile.ZIP_DEFLATED if is_text else zipfile.ZIP_STORED
    return information


def _sources(job: Job, contents: Contents, schema: Shape) -> Iterator[tuple[str, IO[bytes]]]:
    yield READ_ME, io.BytesIO(_WORDS.format(code=job.code).encode())
    yield (
        JOB,
        _json(
            {
                "$schema": SCHEMA,
                "format": FORMAT,
                "format_version": VERSION,
                "app": number(),
                "job": job.code,
                "lost": contents.lost,
                "origins": contents.origins,
                "records": contents.data,
            }
        ),
    )
    yield SCHEMA, _json(schema)
    yield RESULTS, _json(results_of(contents.design))
    for name, where in contents.files.items():
        yield name, default_storage.open(where)
    for key, pk in contents.sheets.items():
        sheet = IssuedSheet.objects.get(pk=pk)  # one at a time: each holds a PDF
        if sheet.erased_at is None:
            yield sheet_name(key, "pdf"), io.BytesIO(sheet.content() or b"")
        yield sheet_name(key, "json"), _json(sheet.data)


def sheet_name(key: int, kind: str) -> str:
    """Return what an issued sheet is called in the file."""
    return f"sheets/{key}.{kind}"


def _json(data: Any) -> IO[bytes]:
    return io.BytesIO(_lined(data, ROW).encode())


def _lined(data: Any, depth: int) -> str:
    """Write data so that a person finds a row: what lies that deep has a line to itself.

    Each line is written by the fast half of the library, which knows no indents.
    """
    if depth and data and isinstance(data, dict):
        lines = [f"{json.dumps(name)}: {_lined(data[name], depth - 1)}" for name in sorted(data)]
        return "{\n" + ",\n".join(lines) + "\n}"
    if depth and data and isinstance(data, list):
        return "[\n" + ",\n".join(_lined(each, depth - 1) for each in data) + "\n]"
    return json.dumps(data, ensure_ascii=False, sort_keys=True)
