"""What of a job goes into its file: its records as plain data, under keys of their own.

The keys count from one, in the order in which the rows were made or are first pointed at, so that
a file says nothing of the tables it came from and two of the same job are the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from django.apps import apps
from django.core.files.storage import default_storage
from django.db.models import Model
from django.db.models.fields.files import FieldFile

from jobs.design.job.whole import JobDesign, work_out
from jobs.design.records.data import Rows, from_data, gathered, to_data, written
from jobs.design.records.findings import decided
from jobs.design.records.keys import prints_between, rekeyed
from jobs.design.records.records import JobRecords
from jobs.design.wood.cutting import SAME_SHEET
from jobs.models import (
    Amplifier,
    AmplifierRating,
    CarAnswer,
    IssuedSheet,
    Job,
    Offer,
    Part,
    Photo,
    SheetMaterial,
    User,
    Workshop,
)
from jobs.models.base import TypedFigures
from jobs.portable.numbering import PART_OF, Numbers, key_of, numbered
from jobs.portable.past import parts_named, past_of
from jobs.portable.staying import stays

# What goes along besides what an issued sheet keeps of each row.
ALSO: dict[type[Model], tuple[str, ...]] = {
    Offer: ("shown", "accepted_name"),
    IssuedSheet: ("data_sha256", "link", "token"),
    Job: ("last_link",),
}


FORMS = ("image", "small")  # of a photo
# Fields that name a file of the archive.
FILES: dict[type[Model], tuple[str, ...]] = {Photo: FORMS, CarAnswer: ("report",)}
Keys = dict[str, dict[str, int]]


@dataclass(frozen=True, kw_only=True)
class Contents:
    """A job as plain data, and where the files it names are now."""

    data: dict[str, Any]
    design: JobDesign  # worked out from that data
    files: Mapping[str, str]  # a name in the file -> a name in the storage
    sheets: Mapping[int, int]  # a key in the file -> the key here
    origins: list[Keys]
    lost: list[str] = field(default_factory=list)


def contents_of(design: JobDesign) -> Contents:
    """Return what goes into the file of a job."""
    records = _of_the_job(design.records)
    files, lost = _files(records)
    data = _plain(records, {photo.pk for photo in lost})
    numbers = numbered(data)
    here = key_of(numbers)
    data = rekeyed(data, here, {})
    data["rows"] = {
        name: sorted(data["rows"][name], key=lambda row: row["id"]) for name in sorted(data["rows"])
    }
    # Undecided: a decision made on an old key would be found at another finding's new one.
    moved = work_out(replace(from_data(data), decisions=()))
    prints = prints_between(design.findings, moved.findings, here)
    data = rekeyed(data, lambda _model, key: key, prints)
    sheets = IssuedSheet.objects.filter(job=records.job).select_related("origin")
    by_key = {numbers[IssuedSheet][sheet.pk]: sheet for sheet in sheets.defer("pdf", "data")}
    origins = _origins(by_key, numbers)
    _chain(data, by_key, origins)
    named = {
        name_of(model, numbers[model][key], form): where
        for (model, key, form), where in files.items()
    }
    _name_files(data, named)
    return Contents(
        data=data,
        # Decisions change no figure: they only find what they were made on again.
        design=replace(moved, findings=decided(moved.findings, from_data(data).decisions)),
        files=named,
        sheets={key: sheet.pk for key, sheet in sorted(by_key.items())},
        origins=[keys for keys, _of_it in origins.values()],
        lost=[str(photo) for photo in lost],
    )


def _of_the_job(records: JobRecords) -> JobRecords:
    """Return a job without what belongs to the workshop or to other jobs of the same car."""
    job = records.job
    alone = replace(
        records,
        offcuts=[],
        tax_rates=[],
        sheet_materials=[],
        cabin_curves=[curve for curve in records.cabin_curves if curve.job_id == job.pk],
        decisions=[decision for decision in records.decisions if decision.job_id == job.pk],
    )
    # Of what the workshop buys: what the job names, and what is as thick as a side of its boxes.
    named = gathered(alone).get(SheetMaterial, {})
    walls = [wall for box in records.boxes for wall in (box.thicknesses or {}).values()]
    sheets = [
        sheet
        for sheet in records.sheet_materials
        if sheet.pk in named or any(abs(sheet.thickness - wall) < SAME_SHEET for wall in walls)
    ]
    return replace(alone, sheet_materials=sheets)


File = tuple[type[Model], Any, str]


def _files(records: JobRecords) -> tuple[dict[File, str], list[Photo]]:
    """Return where each file lies that a row names, and the photos that are lost."""
    files: dict[File, str] = {}
    lost: list[Photo] = []
    for photo in records.photos:
        there = {form: getattr(photo, form) for form in FORMS}
        if all(_is_there(file) for file in there.values()):
            files |= {(Photo, photo.pk, form): str(file.name) for form, file in there.items()}
        else:
            lost.append(photo)
    for answer in records.car_answers:
        if _is_there(answer.report):
            files[CarAnswer, answer.pk, "report"] = str(answer.report.name)
    return files, lost


def _is_there(file: FieldFile) -> bool:
    return bool(file.name) and default_storage.exists(str(file.name))


def name_of(model: type[Model], key: int, form: str) -> str:
    """Return what a file of a row is called."""
    if model is Photo:
        return f"photos/{key}.jpg" if form == "image" else f"photos/{key}-{form}.jpg"
    return f"reports/{key}"


def _name_files(data: dict[str, Any], named: Mapping[str, str]) -> None:
    for model, forms in FILES.items():
        for row in data["rows"].get(model.__name__, ()):
            for form in forms:
                name = name_of(model, row["id"], form)
                row[form] = name if name in named else ""


def _plain(records: JobRecords, lost: set[Any]) -> dict[str, Any]:
    """Return the records as an issued sheet keeps them, less what stays and with what goes too."""
    data = to_data(records)
    by_key = gathered(records)
    past = past_of(data["rows"])
    _add_parts(data, by_key, parts_named(past))
    _add_kinds(data, by_key)
    rows: dict[str, list[dict[str, Any]]] = {}
    for name, plain in data["rows"].items():
        model = apps.get_model("jobs", name)
        kept = [
            row
            for row in plain
            if lost.isdisjoint((model is Photo and row["id"], row.get("photo_id")))
        ]
        rows[name] = [_whole(by_key[model][row["id"]], row, lost) for row in kept]
    lists = data["lists"]
    lists["photos"] = [key for key in lists["photos"] if key not in lost]
    # One of which nobody has saved anything yet has no key.
    lists["workshop"] = rows["Workshop"][0]["id"] = lists["workshop"] or 1
    past["Photo"] = [entry for entry in past.get("Photo", ()) if entry["row"]["id"] not in lost]
    history = {name: entries for name, entries in past.items() if entries}
    return {"schema": data["schema"], "lists": lists, "rows": rows, "history": history}


def _of_kind(part: Any) -> type[Model]:
    plain = part.kind == Part.Kind.OTHER
    return Part if plain else apps.get_model("jobs", part.kind.replace("_", ""))


def _add_parts(data: dict[str, Any], by_key: Rows, named: set[int]) -> None:
    """Add parts that only the history names: what was there before has a name and figures too."""
    known = {key for model, rows in by_key.items() if issubclass(model, Part) for key in rows}
    for key, part in sorted(Part._base_manager.in_bulk(named - known).items()):
        by_key[Part][key] = part
        data["rows"].setdefault("Part", []).append(written(part))


def _add_kinds(data: dict[str, Any], by_key: Rows) -> None:
    """Add the figures of parts that no list reads with them, such as of what is on a board."""
    for row in by_key.get(Part, {}).values():
        model = _of_kind(row)
        if model is Part or row.pk in by_key.get(model, {}):
            continue
        part: Any = model._base_manager.get(pk=row.pk)
        by_key[model][row.pk] = part
        data["rows"].setdefault(model.__name__, []).append(written(part))
        for rating in part.ratings.all() if model is Amplifier else ():
            by_key[AmplifierRating][rating.pk] = rating
            data["rows"].setdefault("AmplifierRating", []).append(written(rating))


def _whole(row: Any, plain: dict[str, Any], lost: set[Any]) -> dict[str, Any]:
    """Return a row without what stays behind, and with what a sheet does not keep."""
    model = type(row)
    kept = {name: value for name, value in plain.items() if not stays(model, name)}
    kept |= {name: getattr(row, name) for name in ALSO.get(model, ())}
    if isinstance(row, TypedFigures):
        kept["as_typed"] = row.as_typed
    if isinstance(row, User):
        kept["last_name"] = row.full_name
    elif isinstance(row, Offer):
        chosen = row.photos.order_by("pk").values_list("pk", flat=True)
        kept["photos"] = [key for key in chosen if key not in lost]
    return kept


def _origins(
    sheets: Mapping[int, IssuedSheet], numbers: Numbers
) -> dict[Any, tuple[Keys, list[int]]]:
    """Return of every place where sheets were issued its keys, and which sheets were."""
    here: Keys = {
        model.__name__: {str(key): number for key, number in of_it.items()}
        for model, of_it in sorted(numbers.items(), key=lambda pair: pair[0].__name__)
        if model is not Workshop and model not in PART_OF
    }
    origins: dict[Any, tuple[Keys, list[int]]] = {}
    for key, sheet in sorted(sheets.items()):
        place = sheet.origin
        if (place and place.pk) not in origins:
            keys = here if place is None else _through(place.keys, here)
            origins[place and place.pk] = (keys, [])
        origins[place and place.pk][1].append(key)
    return origins


def _chain(
    data: dict[str, Any],
    sheets: Mapping[int, IssuedSheet],
    origins: Mapping[Any, tuple[Keys, list[int]]],
) -> None:
    """Say of each sheet where it was issued, and whose key its chain was made with."""
    number = {key: at for at, (_, of_it) in enumerate(origins.values(), start=1) for key in of_it}
    for row in data["rows"].get("IssuedSheet", ()):
        sheet = sheets[row["id"]]
        there = sheet.issuer_there
        row["origin"] = number[row["id"]]
        row["issuer_there"] = sheet.issued_by_id if there is None else there


def _through(there: Keys, here: Keys) -> Keys:
    """Keys of elsewhere -> keys of the file, by way of those they have here."""
    return {
        name: {key: mine[str(between)] for key, between in of_it.items() if str(between) in mine}
        for name, of_it in there.items()
        if (mine := here.get(name, {})) is not None
    }
