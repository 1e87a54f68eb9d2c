"""`manage.py move_sheets bucket|database`: put what was issued where it is to lie from now on."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Iterator
from typing import Any

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.management.base import BaseCommand, CommandError
from django.db.models import QuerySet

from jobs.models import IssuedSheet

NO_BUCKET = "No bucket is named (UNDERTRIM_S3_BUCKET)."


def _each(sheets: QuerySet[IssuedSheet]) -> Iterator[IssuedSheet]:
    """Read a row at a time: each holds a file."""
    for pk in list(sheets.order_by("pk").values_list("pk", flat=True)):
        yield from sheets.defer("data").filter(pk=pk)


def to_the_bucket(sheets: QuerySet[IssuedSheet]) -> int:
    """Put away the bytes of every sheet that has any; return of how many."""
    count = 0
    for sheet in _each(sheets.filter(file="")):
        sheet.file.save("", ContentFile(bytes(sheet.pdf)), save=False)
        # Whose person is erased meanwhile keeps nothing, in neither place.
        name = str(sheet.file.name)
        if sheets.filter(pk=sheet.pk).update(pdf=b"", file=name):
            count += 1
        else:
            sheet.file.storage.delete(name)
    return count


def to_the_database(sheets: QuerySet[IssuedSheet]) -> int:
    """Fetch them again; one that is lost stays without, which `verify` says."""
    count = 0
    for sheet in _each(sheets.exclude(file="")):
        pdf = sheet.content()
        if pdf is None:
            continue
        name, store = str(sheet.file.name), sheet.file.storage
        count += sheets.filter(pk=sheet.pk).update(pdf=pdf, file="")
        store.delete(name)
    return count


class Command(BaseCommand):
    """Move issued sheets; what is printed meanwhile goes where the settings say."""

    help = "Move issued sheets from the database into the bucket, or back."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take where they go."""
        parser.add_argument("to", choices=["bucket", "database"])

    def handle(self, *args: Any, **options: Any) -> None:
        """Move each, and say how many it were."""
        if not settings.BUCKET:
            raise CommandError(NO_BUCKET)
        move = to_the_bucket if options["to"] == "bucket" else to_the_database
        count = move(IssuedSheet.objects.filter(erased_at=None))
        self.stdout.write(f"{count} issued sheets were moved to the {options['to']}.")
