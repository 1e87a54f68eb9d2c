"""What every record of a job shares: it can be taken back, and two editors are told apart."""

from __future__ import annotations

from typing import ClassVar, Self

from django.db import models
from django.utils import timezone
from simple_history.models import HistoricalRecords


class RecordManager(models.Manager["Record"]):
    """Hides removed records, which stay in the table so that a removal can be undone."""

    def get_queryset(self) -> models.QuerySet[Record]:
        return super().get_queryset().filter(removed_at__isnull=True)


class Record(models.Model):
    """A row a person edits: versioned, removable with undo, with its history kept."""

    # Compared on save: a form that was opened at an older version is refused and shown both.
    version = models.PositiveIntegerField(default=1, editable=False)
    # Given by the form that made the record, so that a form sent twice makes one record.
    entry_token = models.UUIDField(null=True, unique=True, editable=False)
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects: ClassVar[models.Manager[Self]] = RecordManager()  # type: ignore[assignment]
    with_removed: ClassVar[models.Manager[Self]] = models.Manager()
    history = HistoricalRecords(inherit=True)

    class Meta:
        abstract = True
        base_manager_name = "with_removed"

    def remove(self) -> None:
        """Hide the record; `restore` brings it back whole."""
        self.removed_at = timezone.now()
        self.save()

    def restore(self) -> None:
        """Bring a removed record back."""
        self.removed_at = None
        self.save()
