"""Open the file of a job: bounded, held to its hashes and its schema before a row is made of it.

Nothing is unpacked to the disk: what is in it is read by name, so that no name leads anywhere.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import IO, Any

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db.models import Model
from django.utils.translation import gettext as _

from jobs import photos
from jobs.backup.archive import BROKEN, PIECE, Member
from jobs.design.job.whole import JobDesign, work_out
from jobs.design.records.data import MODELS, from_data
from jobs.design.records.keys import rekeyed_past, space
from jobs.models import CarAnswer, IssuedSheet, Part, Photo
from jobs.portable.past import past_fields, read_past
from jobs.portable.refusal import RefusedFileError
from jobs.portable.schema import FORMAT, VERSION, Shape, row_fields, row_models
from jobs.portable.writing import JOB, MANIFEST, READ_ME, RESULTS, SCHEMA, sheet_name
from jobs.tester_files import LARGEST as LARGEST_REPORT

MB = 1024 * 1024
MOST_MEMBERS, MOST_BYTES = 6000, 2048 * MB
# What each kind of file may be at most, told by the list in the file before it is read.
LARGEST = {
    re.compile(re.escape(MANIFEST)): 4 * MB,
    re.compile(re.escape(READ_ME)): MB,
    re.compile(re.escape(JOB)): 64 * MB,
    re.compile(re.escape(SCHEMA)): 8 * MB,
    re.compile(re.escape(RESULTS)): 256 * MB,
    re.compile(r"photos/\d{1,9}(-small)?\.jpg"): photos.LARGEST_FILE,
    re.compile(r"reports/\d{1,9}"): LARGEST_REPORT,
    re.compile(r"sheets/\d{1,9}\.(pdf|json)"): 64 * MB,
}
MOST_COMPLAINTS = 3


@dataclass(frozen=True, kw_only=True)
class Arrival:
    """A job's file that was looked over."""

    packed: zipfile.ZipFile
    members: Mapping[str, Member]
    document: dict[str, Any]  # job.json
    design: JobDesign  # worked out from it, here

    @property
    def data(self) -> dict[str, Any]:
        """Its records as plain data."""
        data: dict[str, Any] = self.document["records"]
        return data

    def rows(self, model: type[Any]) -> list[dict[str, Any]]:
        """Return its rows of a model."""
        rows: list[dict[str, Any]] = self.data["rows"].get(model.__name__, [])
        return rows

    def read(self, name: str) -> bytes:
        """Read one of its files, which was held to its hash."""
        return self.packed.read(name)

    def sheet_data(self, key: int) -> dict[str, Any]:
        """Read what an issued sheet was made from."""
        data: dict[str, Any] = _parsed(self.read(sheet_name(key, "json")))
        return data


@contextmanager
def opened(file: IO[bytes], schema: Shape) -> Iterator[Arrival]:
    """Open a file and look it over; refuse it with the reason."""
    try:
        with zipfile.ZipFile(file) as packed:
            members = _members(packed)
            document = _parsed(packed.read(JOB))
            _check(document, schema)
            arrival = Arrival(
                packed=packed, members=members, document=document, design=_worked_out(document)
            )
            _check_files(arrival)
            yield arrival
    except BROKEN as error:
        raise RefusedFileError(_("This file is no job, or it is damaged.")) from error


def _members(packed: zipfile.ZipFile) -> dict[str, Member]:
    """Hold everything in the file to the list in it."""
    entries = packed.infolist()
    names = [entry.filename for entry in entries]
    if MANIFEST not in names:
        raise RefusedFileError(_("This file is no job: it has no list of what is in it."))
    for entry in entries:
        most = next((n for kind, n in LARGEST.items() if kind.fullmatch(entry.filename)), None)
        if most is None:
            message = _("What is called “%(name)s” has no place in the file of a job.")
            raise RefusedFileError(message % {"name": entry.filename[:60]})
        if entry.file_size > most:
            message = _("“%(name)s” would be %(size)d MB: more than it may be.")
            raise RefusedFileError(
                message % {"name": entry.filename, "size": entry.file_size // MB}
            )
    if len(names) > MOST_MEMBERS or sum(entry.file_size for entry in entries) > MOST_BYTES:
        raise RefusedFileError(_("There is more in this file than one job may hold."))
    manifest = _parsed(packed.read(MANIFEST))
    if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
        raise RefusedFileError(_("This file is no job."))
    _check_version(manifest)
    members = {name: Member(**member) for name, member in manifest["members"].items()}
    if sorted(names) != sorted([*members, MANIFEST]):
        missing = sorted({*members} - {*names})
        message = _("What is in the file is not what its list says, such as “%(name)s”.")
        raise RefusedFileError(message % {"name": (missing or sorted(names))[0]})
    for name, member in members.items():
        if _held(packed, name) != (member.sha256, member.size):
            raise RefusedFileError(
                _("“%(name)s” is not what was packed: its hash differs.") % {"name": name}
            )
    return members


def _held(packed: zipfile.ZipFile, name: str) -> tuple[str, int]:
    digest, size = hashlib.sha256(), 0
    with packed.open(name) as source:
        while piece := source.read(PIECE):
            digest.update(piece)
            size += len(piece)
    return digest.hexdigest(), size


def _check_version(said_of_it: Mapping[str, Any]) -> None:
    written_as = said_of_it.get("format_version")
    if not isinstance(written_as, int) or written_as > VERSION:
        raise _newer(said_of_it)


def _newer(document: Mapping[str, Any]) -> RefusedFileError:
    message = _("It was written by a newer Undertrim (%(app)s): bring this one up to date first.")
    return RefusedFileError(message % {"app": str(document.get("app"))[:40]})


def _parsed(raw: bytes) -> Any:
    try:
        return json.loads(raw, parse_constant=_no_number)
    except RecursionError as error:
        raise ValueError from error


def _no_number(word: str) -> float:
    raise ValueError(word)


def _check(document: Any, schema: Shape) -> None:
    """Hold job.json to the schema; a field from later is a matter of an upgrade."""
    # Read when a file comes: no page and no other command needs it.
    from jsonschema import Draft202012Validator

    if isinstance(document, dict):
        _check_version(document)
        if any(True for _ in _unknown(document)):
            raise _newer(document)
    wrong = []
    for error in Draft202012Validator(schema).iter_errors(document):
        place = "/".join(str(part) for part in error.absolute_path)
        wrong.append(f"{place}: {error.message[:120]}")
        if len(wrong) == MOST_COMPLAINTS:
            break
    if wrong:
        message = _("It does not keep to its schema: %(what)s")
        raise RefusedFileError(message % {"what": "; ".join(wrong)})
    text = json.dumps(document, ensure_ascii=False)
    if "\\u0000" in text or not _is_written(text):
        raise RefusedFileError(_("A text in it holds a letter that cannot be written."))


def _is_written(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _unknown(document: dict[str, Any]) -> Iterator[str]:
    """Yield the names of rows, lists and fields that nobody here knows."""
    known = {model.__name__: model for model in row_models()}
    records = document.get("records")
    rows = records.get("rows") if isinstance(records, dict) else None
    lists = records.get("lists") if isinstance(records, dict) else None
    history = records.get("history") if isinstance(records, dict) else None
    if isinstance(lists, dict):
        yield from lists.keys() - MODELS.keys()
    for name, plain in rows.items() if isinstance(rows, dict) else ():
        if name not in known:
            yield name
            continue
        fields = {*row_fields(known[name])}
        for row in plain if isinstance(plain, list) else ():
            if isinstance(row, dict):
                yield from row.keys() - fields
    for name, entries in history.items() if isinstance(history, dict) else ():
        if name not in known:
            yield name
            continue
        for entry in entries if isinstance(entries, list) else ():
            if isinstance(entry, dict) and isinstance(entry.get("row"), dict):
                yield from entry["row"].keys() - past_fields(known[name]).keys()


def _worked_out(document: dict[str, Any]) -> JobDesign:
    """Work the job out from the file alone; what does not hang together is refused."""
    data = document["records"]
    if wrong := next(_loose(data, len(document["origins"])), None):
        message = _("Its rows do not hang together: %(what)s.")
        raise RefusedFileError(message % {"what": wrong})
    try:
        past = data.get("history", {})
        for _entry in read_past(rekeyed_past(past, lambda _model, key: key, {})):
            pass
        return work_out(from_data(data))
    except (
        LookupError,
        ValueError,
        TypeError,
        AttributeError,
        ArithmeticError,
        ValidationError,
    ) as error:
        message = _("Its rows do not hang together: %(what)s.")
        raise RefusedFileError(message % {"what": str(error)[:80]}) from error


def _loose(data: Mapping[str, Any], origins: int) -> Iterator[str]:
    """Yield what points at nothing, is there twice, or is of no job."""
    rows = {apps.get_model("jobs", name): plain for name, plain in data["rows"].items()}
    there = {model: {row["id"] for row in plain} for model, plain in rows.items()}
    parts = [keys for model, keys in there.items() if issubclass(model, Part)]
    general: dict[Any, set[int]] = {**there, Part: set().union(*parts)}
    yield from (f"{m.__name__} twice" for m, keys in there.items() if len(keys) < len(rows[m]))
    if any(len(there.get(MODELS[name], ())) != 1 for name in ("job", "workshop")):
        yield "Job"
    yield from _parts_apart(rows)
    for model, plain in rows.items():
        for row in plain:
            for column in model._meta.concrete_fields:
                if not column.is_relation:
                    continue
                key, of = row.get(column.attname), general.get(column.related_model, ())
                if (key is None and not column.null) or (key is not None and key not in of):
                    yield f"{model.__name__} {row['id']}, {column.attname}"
            if model is IssuedSheet and not 1 <= row.get("origin", 0) <= origins:
                yield f"{model.__name__} {row['id']}, origin"
    for name, entries in data.get("history", {}).items():
        known = there.get(apps.get_model("jobs", name), set())
        yield from (f"history of {name}" for entry in entries if entry["row"]["id"] not in known)
    for name, keys in data["lists"].items():
        listed = keys if isinstance(keys, list) else [keys]
        if not set(listed) <= general.get(space(MODELS[name]), set()):
            yield name


def _parts_apart(rows: Mapping[type[Model], list[dict[str, Any]]]) -> Iterator[str]:
    """Yield parts that lack the figures of their kind, or have those of another."""
    kinds: dict[int, str] = {}
    for model, plain in rows.items():
        if issubclass(model, Part) and model is not Part:
            for row in plain:
                kind = str(row.get("kind", ""))
                if kind.replace("_", "") != model._meta.model_name or row["id"] in kinds:
                    yield f"{model.__name__} {row['id']}"
                kinds[row["id"]] = kind
    for row in rows.get(Part, ()):
        if kinds.get(row["id"], Part.Kind.OTHER) != row.get("kind"):
            yield f"Part {row['id']}"


def _check_files(arrival: Arrival) -> None:
    """Hold every file that a row names to what it must be."""
    named: set[str] = {READ_ME, JOB, SCHEMA, RESULTS}
    for row in arrival.rows(Photo):
        for form in ("image", "small"):
            _need(arrival, name := str(row.get(form, "")), named)
            if not photos.is_kept(arrival.packed.open(name)):
                raise RefusedFileError(_("“%(name)s” is no photo.") % {"name": name})
    for row in arrival.rows(CarAnswer):
        if row.get("report"):
            _need(arrival, row["report"], named)
    for row in arrival.rows(IssuedSheet):
        _need(arrival, sheet_name(row["id"], "json"), named)
        if not isinstance(arrival.sheet_data(row["id"]), dict):
            raise RefusedFileError(_("“%(name)s” is no sheet.") % {"name": row["id"]})
        if row.get("erased_at") is None:
            _need(arrival, name := sheet_name(row["id"], "pdf"), named)
            if not arrival.read(name).startswith(b"%PDF"):
                raise RefusedFileError(_("“%(name)s” is no PDF.") % {"name": name})
    if spare := arrival.members.keys() - named:
        message = _("Nothing in the job names “%(name)s”.")
        raise RefusedFileError(message % {"name": min(spare)})


def _need(arrival: Arrival, name: str, named: set[str]) -> None:
    if name not in arrival.members:
        message = _("“%(name)s” is missing from the file.")
        raise RefusedFileError(message % {"name": name or "photo"})
    named.add(name)
