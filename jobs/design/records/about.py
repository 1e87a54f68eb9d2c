"""What a finding is about: a record, and a place on it. Names are for people and tell nothing."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Model

# The key of a row that is being typed: no saved row has it.
UNSAVED = "new"


@dataclass(frozen=True)
class About:
    """The kind of a record, its key, and which end, face or part of it."""

    kind: str
    key: str
    detail: str = ""

    @property
    def id(self) -> str:
        """What a calculator knows the record by, and hands back."""
        return f"{self.kind} {self.key}"

    def at(self, *detail: str) -> About:
        """The same record at a place on it."""
        return About(self.kind, self.key, _joined(self.detail, *detail))

    def is_of(self, other: About) -> bool:
        """Whether both are about one record, wherever on it."""
        return (self.kind, self.key) == (other.kind, other.key)


def about(record: Model, *detail: str) -> About:
    """What a finding about this record is about."""
    key = UNSAVED if record.pk is None else str(record.pk)
    return About(str(record._meta.model_name), key, _joined(*detail))


def _joined(*detail: str) -> str:
    return "/".join(filter(None, detail))
