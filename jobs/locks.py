"""Who writes waits for whoever writes the same: the check and the write are one step.

SQLite lets one transaction write at a time (`transaction_mode` in the settings) and ignores these
locks; PostgreSQL locks the rows named here. A job is held before anything else, so that two who
need the same things take them in the same order.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.contrib.contenttypes.models import ContentType
from django.db import models, transaction


@contextmanager
def held(*rows: models.Model) -> Iterator[None]:
    """Begin a transaction; until its end nobody else holds these rows or one of them.

    What belongs to a job is written while the job is held; rows that are not stored yet are free.
    """
    with transaction.atomic():
        for row in rows:
            if row.pk is not None:
                stored = row._meta.model._base_manager.select_for_update(no_key=True)
                stored.filter(pk=row.pk).first()
        yield


def hold_table(model: type[models.Model]) -> None:
    """Within a transaction, let nobody else add to what is counted or named once in a table.

    Held is the row that stands for the table: it is always there.
    """
    tables = ContentType.objects.select_for_update(no_key=True)
    tables.get(app_label=model._meta.app_label, model=model._meta.model_name)
