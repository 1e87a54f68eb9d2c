"""Make a job of a file: every row in one transaction, its photos last, or nothing at all."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from graphlib import TopologicalSorter
from typing import Any

from django.apps import apps
from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction
from django.db.models import Model
from django.utils.translation import gettext as _

from jobs.design.job.whole import work_out
from jobs.design.records.data import CHILDREN, carried, from_data
from jobs.design.records.keys import Prints, prints_between, rekeyed, rekeyed_past, space
from jobs.models import (
    CarAnswer,
    Customer,
    Decision,
    EquipmentItem,
    GateSign,
    IssuedSheet,
    Job,
    JobPart,
    Offer,
    Origin,
    Panel,
    Part,
    Photo,
    Run,
    RunAsBuilt,
    StageRelease,
    User,
    Vehicle,
    WithdrawnCode,
    Workshop,
)
from jobs.models.bay import report_path
from jobs.models.panels import photo_path
from jobs.models.sheets import sheet_path, token_of
from jobs.portable.contents import FILES
from jobs.portable.matching import Plan, plan
from jobs.portable.numbering import PART_OF, Row
from jobs.portable.past import write_past
from jobs.portable.reading import Arrival
from jobs.portable.refusal import RefusedFileError
from jobs.portable.writing import sheet_name

# These hold keys of any row in a text or a list: they are made when every row has its key.
_LAST: tuple[type[Model], ...] = (RunAsBuilt, GateSign, StageRelease, Decision)


def make(arrival: Arrival) -> tuple[Job, Plan]:
    """Make the job; returns it and what was made of what."""
    stored: list[str] = []
    try:
        with transaction.atomic():
            # Whoever else starts a job waits: the number stays free, and so does what is matched.
            Job.next_number()
            planned = plan(arrival)
            making = _Making(arrival, planned)
            making.rows()
            making.files(stored)
            return making.job, planned
    except IntegrityError as error:
        _take_back(stored)
        message = _("Two of its rows are of one name or number, and only one may be.")
        raise RefusedFileError(message) from error
    except BaseException:
        _take_back(stored)
        raise


def _take_back(stored: list[str]) -> None:
    for name in stored:
        default_storage.delete(name)


class _Making:
    """The keys given so far, and what is still to be written."""

    def __init__(self, arrival: Arrival, planned: Plan) -> None:
        self.arrival, self.plan = arrival, planned
        self.keys: dict[type[Model], dict[int, Any]] = {
            Workshop: dict.fromkeys((row["id"] for row in arrival.rows(Workshop)), 1),
            Customer: _here({arrival.rows(Customer)[0]["id"]: planned.customer}),
            Vehicle: _here({arrival.rows(Vehicle)[0]["id"]: planned.car}),
            User: _here(planned.people),
            Part: _here(planned.parts),
        }
        self.matched = {model: {*keys} for model, keys in self.keys.items()}
        self.origins: list[Origin] = []
        # Where a file goes -> which it is in the archive.
        self.to_store: dict[str, str] = {}
        self.prints: Prints = {}
        # Whether it tells the history of its rows.
        self.tells = "history" in arrival.data

    @property
    def job(self) -> Job:
        """The job, once it has a row."""
        return Job.objects.get(pk=next(iter(self.keys[Job].values())))

    def key_of(self, model: type[Model], key: int) -> Any:
        """Return the key a row has here."""
        return self.keys.get(model, {}).get(key)

    def rows(self) -> None:
        """Write every row, what another points at before it."""
        data = self.arrival.data
        for model in _in_order(data["rows"]):
            for row in self.arrival.rows(model):
                if not self._is_there(model, row):
                    self._write(model, row)
        job = self.job
        origins = self.arrival.document["origins"]
        self.origins = [Origin.objects.create(job=job, keys={}) for _there in origins]
        for model in (IssuedSheet, Offer):
            for row in self.arrival.rows(model):
                self._write(model, row)
        self._write_last()
        self._note_origins()
        self._write_history()

    def _is_there(self, model: type[Model], row: Row) -> bool:
        """Whether it is here already, or is part of something that is."""
        parent, back = PART_OF.get(model, (None, ""))
        if parent and row[back] in self.matched.get(parent, ()):
            # Under a key no table gives: it is only read along.
            self.keys.setdefault(model, {})[row["id"]] = -row["id"]
            return True
        return row["id"] in (
            self.keys[Part] if model is Part else self.matched.get(space(model), ())
        )

    def _write(self, model: type[Model], row: Row) -> Any:
        new = model(**self._values(model, row))
        if (prepare := _PREPARED.get(model)) is not None:
            prepare(new, row, self)
        if self.tells and isinstance(new, JobPart):
            # What the file tells of it takes the place of its being made here.
            new.skip_history_when_saving = True  # type: ignore[attr-defined]
        new.save(force_insert=True)
        moments = {
            name: getattr(new, name)
            for name, column in carried(model).items()
            if getattr(column, "auto_now_add", False) and name in row
        }
        if moments:  # the moment it was made, not the one it came
            parsed = {name: carried(model)[name].to_python(row[name]) for name in moments}
            model._base_manager.filter(pk=new.pk).update(**parsed)
        self.keys.setdefault(space(model), {})[row["id"]] = new.pk
        if isinstance(new, Run):
            new.wakes.set([self.key_of(EquipmentItem, key) for key in row.get("wakes", ())])
        elif isinstance(new, Offer):
            new.photos.set([self.key_of(Photo, key) for key in row.get("photos", ())])
        return new

    def _values(self, model: type[Model], row: Row) -> dict[str, Any]:
        values: dict[str, Any] = {}
        for column in model._meta.concrete_fields:
            name = column.attname
            if name not in row or column.primary_key or name in FILES.get(model, ()):
                continue
            if column.is_relation:
                if not getattr(column.remote_field, "parent_link", False):
                    of = space(column.related_model)  # type: ignore[arg-type]
                    values[name] = None if row[name] is None else self.key_of(of, row[name])
            else:
                values[name] = column.to_python(row[name])
        return values

    def _note_origins(self) -> None:
        """Keep the keys of every row where it was before, now that each has one here."""
        for origin, there in zip(self.origins, self.arrival.document["origins"], strict=True):
            for name, of_it in there.items():
                here = self.keys.get(apps.get_model("jobs", name), {})
                origin.keys[name] = {old: here[key] for old, key in of_it.items() if key in here}
            origin.save()

    def _write_last(self) -> None:
        """Write what names other rows in its words; decisions hold for what they held for."""
        data = self.arrival.data
        for model in _LAST:  # under keys no table gives, until they have their own
            keys = self.keys.setdefault(model, {})
            keys |= {row["id"]: -row["id"] for row in self.arrival.rows(model)}
        if self.arrival.rows(Decision) or self.arrival.rows(StageRelease):
            after = work_out(from_data(rekeyed(data, self.key_of, {})))
            self.prints = prints_between(self.arrival.design.findings, after.findings, self.key_of)
        named = rekeyed(data, self.key_of, self.prints)["rows"]
        for model in _LAST:
            names = ("route", "subject", "left_open", "about_key", "about_detail", "fingerprint")
            rows = zip(self.arrival.rows(model), named.get(model.__name__, ()), strict=True)
            for row, other in list(rows):
                self._write(model, row | {name: other[name] for name in names if name in other})

    def _write_history(self) -> None:
        """Write what was before; of a file that tells nothing keep what hangs on each row now."""
        if self.tells:
            write_past(rekeyed_past(self.arrival.data["history"], self.key_of, self.prints))
            return
        for parent in CHILDREN:
            for row in self.arrival.rows(parent):
                if row["id"] not in self.matched.get(space(parent), ()):
                    key = self.key_of(space(parent), row["id"])
                    record: Any = parent._base_manager.get(pk=key)
                    record.note_what_hangs()

    def files(self, stored: list[str]) -> None:
        """Put the photos where their rows say; what was stored is noted, to be taken back."""
        for name, member in self.to_store.items():
            stored.append(default_storage.save(name, ContentFile(self.arrival.read(member))))


def _here(shared: Mapping[int, Any]) -> dict[int, Any]:
    return {key: row.key for key, row in shared.items() if row.is_here}


def _in_order(rows: Mapping[str, Any]) -> list[type[Model]]:
    """Return the models in an order in which each finds what it points at."""
    models = {apps.get_model("jobs", name) for name in rows}
    special: set[type[Model]] = {m for m in models if issubclass(m, Part) and m is not Part}
    graph: dict[type[Model], set[type[Model]]] = {}
    for model in models:
        links = {column.related_model for column in model._meta.concrete_fields}
        graph[model] = (links & models) - {model} - ({Part} if model in special else set())
    # A part is made with the figures of its kind; its general half is there then.
    graph[Part] = special
    later = {Workshop, IssuedSheet, Offer, *_LAST}
    return [model for model in TopologicalSorter(graph).static_order() if model not in later]


def _number(job: Job, _row: Row, making: _Making) -> None:
    job.number = making.plan.number


def _name_person(user: User, row: Row, _making: _Making) -> None:
    """Somebody who never worked here: a name on what they did, and no way in."""
    taken = {*User.objects.values_list("username", flat=True)}
    count = 1
    while (name := f"from-elsewhere-{count}") in taken:
        count += 1
    user.username, user.is_active, user.roles = name, False, []
    user.last_name = row.get("last_name", "")
    user.set_unusable_password()


def _give_token(panel: Panel, _row: Row, _making: _Making) -> None:
    """Keep the code that is printed, unless it leads somewhere already."""
    codes = (Panel.with_removed, WithdrawnCode.objects)
    if panel.token and any(rows.filter(token=panel.token).exists() for rows in codes):
        panel.token = None


def _complete_sheet(sheet: IssuedSheet, row: Row, making: _Making) -> None:
    arrival = making.arrival
    sheet.data = arrival.sheet_data(row["id"])
    member = sheet_name(row["id"], "pdf")
    if settings.BUCKET and not row.get("erased_at"):
        sheet.file = path = sheet_path(sheet, "")
        making.to_store[path] = member
    else:
        sheet.pdf = b"" if row.get("erased_at") else arrival.read(member)
    sheet.origin = making.origins[row["origin"] - 1]
    if IssuedSheet.objects.filter(token=sheet.token).exists():
        sheet.token = token_of(sheet.job_id, sheet.kind, sheet.revision)


def _place_photo(photo: Photo, row: Row, making: _Making) -> None:
    for name, member in (("image", "image"), ("small", "small"), ("original", "image")):
        path = photo_path(photo, "")
        setattr(photo, name, path)
        making.to_store[path] = row[member]


def _place_report(answer: CarAnswer, row: Row, making: _Making) -> None:
    if row.get("report"):
        path = report_path(answer, "")
        answer.report = path
        making.to_store[path] = row["report"]


_PREPARED: dict[type[Model], Callable[[Any, Row, _Making], None]] = {
    Job: _number,
    User: _name_person,
    Panel: _give_token,
    IssuedSheet: _complete_sheet,
    Photo: _place_photo,
    CarAnswer: _place_report,
}
