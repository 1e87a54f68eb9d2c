"""`manage.py sheets J-0001 --out DIR`: write every sheet of a job as PDF."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Workshop


class Command(BaseCommand):
    """Write drafts; issuing a sheet is done by a named person on the page."""

    help = "Write every sheet of a job."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take the job's number and where the files go."""
        parser.add_argument("job", help="number of the job, such as J-0001")
        parser.add_argument("--out", required=True, type=Path, help="folder to write to")
        parser.add_argument("--paper", choices=Workshop.Paper.values, default=Workshop.Paper.A4)
        parser.add_argument("--language", choices=sorted(sheets.LANGUAGES), default="en")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the files and print their names."""
        if reason := sheets.unavailable():
            raise CommandError(reason)
        number = options["job"].upper().removeprefix("J-")
        jobs = Job.objects.select_related("vehicle__customer")
        job = jobs.filter(number=int(number)).first() if number.isdigit() else None
        if job is None:
            message = f"There is no job {options['job']}."
            raise CommandError(message)
        folder: Path = options["out"]
        folder.mkdir(parents=True, exist_ok=True)
        records = load(job)
        with sheets.spoken(options["language"], records.workshop.units):
            design = work_out(records)
        how = sheets.Options(paper=options["paper"], language=options["language"])
        for kind in sheets.KINDS:
            file = folder / f"{job.code}-{kind}.pdf"
            file.write_bytes(sheets.draft(design, kind, how))
            self.stdout.write(str(file))
