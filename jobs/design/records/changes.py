"""What has changed in a job since its records were written down, by the names people know."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.db.models import Model
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.design.records.data import CHILDREN, Rows, gathered, read_rows, with_rows, written
from jobs.design.records.records import JobRecords
from jobs.models import (
    Customer,
    Decision,
    IssuedSheet,
    Job,
    JobPart,
    Offer,
    Part,
    Payment,
    Run,
    ServiceVisit,
    User,
    Vehicle,
    Workshop,
    WorkTime,
)

MOST = 6  # changes named; the rest are counted
MOST_FIELDS = 3
# What follows from other fields, or says how far a job has got and not what it is.
# What the app counts for itself, and where the job stands.
IGNORED = {
    *("version", "removed_at", "open_stops", "open_looks", "edition"),
    *("stage", "created_at", "left_on"),
}
IGNORED |= {"proportion"}
# So does whether it rests.
IGNORED |= {"halt", "halt_why", "look_again_on"}
# What is said, printed and paid about a job, and is not the job.
OF_THE_OFFICE = (User, IssuedSheet, Offer, Payment, WorkTime, ServiceVisit)
NOUNS = {
    Job: gettext_lazy("job"),
    Vehicle: gettext_lazy("car"),
    Customer: gettext_lazy("customer"),
    Workshop: gettext_lazy("workshop"),
    Decision: gettext_lazy("decision"),
}
# Key the workshop will have when its settings are saved for the first time.
FIRST = 1
CHILD_WORDS = {
    "stretches": gettext_lazy("route"),
    "ratings": gettext_lazy("rated power"),
    "corners": gettext_lazy("outline"),
    "obstacles": gettext_lazy("what stands in the cavity"),
    "braces": gettext_lazy("shelves, uprights, plates, struts"),
    "sides": gettext_lazy("sides of another thickness"),
    "drawn": gettext_lazy("marks"),
    "cut_outs": gettext_lazy("other openings"),
    "offsets": gettext_lazy("edges measured from a batten"),
    "props": gettext_lazy("battens and blocks"),
    "lids": gettext_lazy("hatches"),
    "mounted": gettext_lazy("what is screwed to it"),
    "lying_under": gettext_lazy("fuses and terminals under it"),
}

Table = dict[type[Model], dict[Any, dict[str, Any]]]


@dataclass(frozen=True, kw_only=True)
class Change:
    """One record that is new, gone, or another in some of its fields."""

    row: Model
    fields: tuple[str, ...] = ()
    is_new: bool = False
    is_gone: bool = False

    @property
    def says(self) -> str:
        """The record by its plain name, and what of it changed."""
        name = f"{_noun(self.row)} {self.row}"
        if self.is_new:
            return _("new: %(record)s") % {"record": name}
        if self.is_gone:
            return _("gone: %(record)s") % {"record": name}
        words = [_word(type(self.row), field) for field in self.fields[:MOST_FIELDS]]
        if len(self.fields) > MOST_FIELDS:
            words.append("…")
        return f"{name} ({', '.join(words)})"


@dataclass(frozen=True, kw_only=True)
class Present:
    """A job as it is now, to hold any number of written copies against."""

    rows: Rows
    table: Table

    @property
    def fingerprint(self) -> str:
        """The same for as long as nothing that counts has changed."""
        plain = {model.__name__: of_it for model, of_it in self.table.items()}
        return hashlib.sha256(json.dumps(plain, sort_keys=True).encode()).hexdigest()

    @classmethod
    def of(cls, records: JobRecords) -> Present:
        """Write the records of a job down, once for all comparisons."""
        rows = {
            model: {key or FIRST: row for key, row in of_it.items()}
            for model, of_it in gathered(records).items()
        }
        plain = {model: [written(row) for row in of_it.values()] for model, of_it in rows.items()}
        return cls(rows=rows, table=_table(plain, records.job.pk))

    def words_since(self, data: Mapping[str, Any]) -> str | None:
        """Name what has changed since; "" where nothing has, None where that cannot be told."""
        if "rows" not in data:  # an offer keeps what the customer reads, not the job
            return None
        return in_words(self.changes_since(data))

    def changes_since(self, data: Mapping[str, Any]) -> list[Change]:
        """Compare with what `to_data` wrote earlier."""
        rows = with_rows(data["rows"])
        plain = {apps.get_model("jobs", name): of_it for name, of_it in rows.items()}
        then = _table(plain, data["lists"]["job"])
        changes: list[Change] = []
        gone: list[tuple[type[Model], Any]] = []
        for model in {**self.table, **then}:
            before, now = then.get(model, {}), self.table.get(model, {})
            for key in now:
                if key not in before:
                    # A part that is new to the job came with the record that uses it.
                    if issubclass(model, JobPart):
                        changes.append(Change(row=self.rows[model][key], is_new=True))
                elif fields := _differing(before[key], now[key]):
                    changes.append(Change(row=self.rows[model][key], fields=fields))
            if issubclass(model, JobPart):
                gone += [(model, key) for key in before.keys() - now.keys()]
        if gone:
            old = read_rows(dict(data))
            changes += [Change(row=old[model][key], is_gone=True) for model, key in gone]
        # What is gone or new explains what changed with it.
        return sorted(changes, key=lambda change: (not change.is_gone, not change.is_new))


def in_words(changes: list[Change]) -> str:
    """Name the first few changes and count the rest."""
    words = [change.says for change in changes[:MOST]]
    if len(changes) > MOST:
        words.append(_("and %(n)d more") % {"n": len(changes) - MOST})
    return ", ".join(words)


def _table(plain: Mapping[type[Model], list[dict[str, Any]]], job: Any) -> Table:
    """Return the rows that tell one state of a job from another; children stand in their parent."""
    special = {
        row["id"]
        for model, of_it in plain.items()
        if issubclass(model, Part) and model is not Part
        for row in of_it
    }
    children = {child for lists in CHILDREN.values() for _name, child, _back in lists}
    table: Table = {}
    for model, of_it in plain.items():
        if model in children or model in OF_THE_OFFICE:
            continue
        table[model] = {
            row["id"] or FIRST: {name: value for name, value in row.items() if name not in IGNORED}
            for row in of_it
            # Other jobs of the same car only lend their curves; a part stands with its figures;
            # what was removed may still be pointed at.
            if not (model is Job and row["id"] != job)
            and not (issubclass(model, JobPart) and row["removed_at"])
            and not (model is Part and row["id"] in special)
        }
    for parent, lists in CHILDREN.items():
        for name, child, back in lists:
            for row in table.get(parent, {}).values():
                row[name] = []
            for row in plain.get(child, ()):
                if (of_parent := table.get(parent, {}).get(row[back])) is not None:
                    bare = {
                        column: row[column]
                        for column in row
                        if column not in IGNORED and column != "id"
                    }
                    of_parent[name].append(bare)
    for row in table.get(Run, {}).values():
        row["wakes"] = sorted(row["wakes"])
    return table


def _differing(before: dict[str, Any], now: dict[str, Any]) -> tuple[str, ...]:
    """Name the fields that differ, of those both know: a field may be younger than the copy."""
    if before == now:
        return ()
    return tuple(
        name for name in now if name in before and before[name] != now[name] and name != "id"
    )


def _noun(row: Model) -> str:
    if isinstance(row, Part):
        return row.get_kind_display()
    return str(NOUNS.get(type(row), row._meta.verbose_name))


def _word(model: type[Model], attname: str) -> str:
    if attname in CHILD_WORDS:
        return str(CHILD_WORDS[attname])
    named = [*model._meta.concrete_fields, *model._meta.many_to_many]
    for field in named:
        if attname in (field.name, getattr(field, "attname", "")):
            return str(field.verbose_name)
    raise LookupError(attname)
