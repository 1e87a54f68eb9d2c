"""What every record of a job shares: it can be taken back, and two editors are told apart."""

from __future__ import annotations

import datetime as dt
import secrets
from collections.abc import Collection
from typing import Any, ClassVar, Self

from django.db import models
from django.dispatch import receiver
from django.utils import timezone
from django.utils.formats import date_format
from simple_history.models import HistoricalRecords
from simple_history.signals import pre_create_historical_record


def written_day(day: dt.date | None) -> str:
    """Return a day as its reader writes it; of a record half typed there may be none yet."""
    return date_format(day, "SHORT_DATE_FORMAT") if day else "–"


def new_token() -> str:
    """Return what opens something to whoever holds it and cannot be guessed: 128 bits."""
    return secrets.token_urlsafe(16)


class Signed:
    """What somebody drew their name under: strokes as flat lists of x and y."""

    signature: Any  # a JSON field of the model

    @property
    def strokes(self) -> list[str]:
        """What was drawn, each stroke as the points of a line."""
        return [" ".join(map(str, stroke)) for stroke in self.signature]


class RecordManager(models.Manager["Record"]):
    """Hides removed records, which stay in the table so that a removal can be undone."""

    def get_queryset(self) -> models.QuerySet[Record]:
        return super().get_queryset().filter(removed_at__isnull=True)


class Entry(models.Model):
    """What an entry of the history holds beside the fields of its record."""

    # Rows that are part of it and have no history of their own, such as the route of a run; None
    # where they were not noted yet.
    hanging = models.JSONField(null=True)

    class Meta:
        abstract = True


class Record(models.Model):
    """A row a person edits: versioned, removable with undo, with its history kept."""

    # Compared on save: a form that was opened at an older version is refused and shown both.
    version = models.PositiveIntegerField(default=1, editable=False)
    # Given by the form that made the record, so that a form sent twice makes one record.
    entry_token = models.UUIDField(null=True, unique=True, editable=False)
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects: ClassVar[models.Manager[Self]] = RecordManager()  # type: ignore[assignment]
    with_removed: ClassVar[models.Manager[Self]] = models.Manager()
    history = HistoricalRecords(inherit=True, bases=[Entry])

    class Meta:
        abstract = True
        base_manager_name = "with_removed"

    def clean_fields(self, exclude: Collection[str] | None = None) -> None:
        """Refuse figures that cannot be; a row that is at hand has been read, and is there."""
        at_hand = {
            field.name
            for field in self._meta.concrete_fields
            if isinstance(field, models.ForeignKey)
            and field.is_cached(self)
            and getattr(self, field.attname)
        }
        super().clean_fields({*(exclude or ()), *at_hand})

    def remove(self) -> None:
        """Hide the record; `restore` brings it back whole."""
        self.removed_at = timezone.now()
        self.save()

    def restore(self) -> None:
        """Bring a removed record back."""
        self.removed_at = None
        self.save()

    def removed_by(self) -> Any:
        """Return who removed it, or None where it was done on the machine itself."""
        return self.history.select_related("history_user").first().history_user

    def what_hangs(self) -> dict[str, Any] | None:
        """Return the rows that are part of this one, as its history keeps them."""
        return None

    def note_what_hangs(self) -> None:
        """Keep with the newest entry of the history what was written after the record was saved."""
        newest = self.history.values_list("pk", flat=True).first()
        type(self).history.filter(pk=newest).update(hanging=self.what_hangs())


class TypedFigures(models.Model):
    """A record whose figures come back as they were written: 0.6 cu ft, not 16.99 L."""

    # Field -> the text it was typed as. Shown while it still reads as the stored figure, so that a
    # figure that is changed by anything else is never hidden behind an old text.
    as_typed = models.JSONField(default=dict, blank=True, editable=False)

    class Meta:
        abstract = True


@receiver(pre_create_historical_record)
def _note(instance: models.Model, history_instance: Any, **_more: Any) -> None:
    if isinstance(instance, Record) and instance.pk:
        history_instance.hanging = instance.what_hangs()
