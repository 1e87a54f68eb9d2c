"""`manage.py verify [J-0001]`: whether every issued sheet and its photos are as issued."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from jobs.models import IssuedSheet, Job
from jobs.sheets.chain import faults


class Command(BaseCommand):
    """Look at all issued sheets, or at those of one job."""

    help = "Find issued sheets, what they were made from, and photos that were changed or are lost."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take a job."""
        parser.add_argument("job", nargs="?", help="number of a job, such as J-0001; all when left")

    def handle(self, *args: Any, **options: Any) -> None:
        """Say what is wrong, line by line; the exit is not zero where anything is."""
        jobs = Job.with_removed.order_by("number")
        if options["job"]:
            number = options["job"].upper().removeprefix("J-")
            jobs = jobs.filter(number=int(number)) if number.isdecimal() else jobs.none()
            if not jobs:
                message = f"There is no job {options['job']}."
                raise CommandError(message)
        else:
            jobs = jobs.exclude(issued_sheets=None, last_link="")
        wrong = [fault for job in jobs.iterator() for fault in faults(job)]
        for fault in wrong:
            self.stderr.write(f"{fault.sheet}: {fault.what}")
        if wrong:
            message = f"{len(wrong)} not as issued."
            raise CommandError(message)
        count = IssuedSheet.objects.filter(job__in=jobs).count()
        self.stdout.write(f"{count} issued sheets are as they were issued.")
