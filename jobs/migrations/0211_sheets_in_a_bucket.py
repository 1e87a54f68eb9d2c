"""Issued sheets lie in the bucket where one is set, as photos do.

One row at a time: each holds a file. Where no bucket is set nothing is moved.
"""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.files.base import ContentFile
from django.db import migrations, models, transaction

import jobs.models.sheets


def _each(apps: Any, **of: Any) -> Any:
    sheets = apps.get_model("jobs", "IssuedSheet").objects.filter(**of)
    for pk in list(sheets.order_by("pk").values_list("pk", flat=True)):
        yield sheets.defer("data").get(pk=pk)


def to_the_bucket(apps: Any, _editor: Any) -> None:
    """Put away the bytes of every sheet that has any."""
    for sheet in _each(apps, erased_at=None, file="") if settings.BUCKET else ():
        sheet.file.save("", ContentFile(bytes(sheet.pdf)), save=False)
        sheet.pdf = b""
        sheet.save(update_fields=["pdf", "file"])


def back_into_the_rows(apps: Any, _editor: Any) -> None:
    """Fetch them again; one that is lost stays without, which `verify` says."""
    for sheet in _each(apps, erased_at=None):
        name, store = sheet.file.name, sheet.file.storage
        if not name or not store.exists(name):
            continue
        with store.open(name) as opened:
            sheet.pdf = opened.read()
        sheet.file = ""
        sheet.save(update_fields=["pdf", "file"])
        transaction.on_commit(lambda name=name, store=store: store.delete(name))


class Migration(migrations.Migration):
    dependencies = [("jobs", "0210_visit_photos")]

    operations = [
        migrations.AddField(
            model_name="issuedsheet",
            name="file",
            field=models.FileField(blank=True, upload_to=jobs.models.sheets.sheet_path),
        ),
        migrations.AlterField(
            model_name="issuedsheet", name="pdf", field=models.BinaryField(default=bytes)
        ),
        migrations.RunPython(to_the_bucket, back_into_the_rows),
    ]
