"""`manage.py job export|import|schema`: a job as one file, for another installation or for good."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import override

from jobs.models import Job
from jobs.pages.portable.published import job_schema
from jobs.portable.making import make
from jobs.portable.matching import Plan, plan
from jobs.portable.reading import opened
from jobs.portable.refusal import RefusedFileError
from jobs.portable.writing import write


class Command(BaseCommand):
    """Write a job's file whole or not at all; take one in whole or not at all."""

    help = "Write a job as one file, take one in, or print the schema such a file keeps to."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take what to do, and with what."""
        acts = parser.add_subparsers(dest="act", required=True)
        out = acts.add_parser("export", help="write a job as one file")
        out.add_argument("job", help="number of the job, such as J-0001")
        out.add_argument("file", type=Path, help="the file to write, such as J-0001.zip")
        out.add_argument("--replace", action="store_true", help="although the file is there")
        taken = acts.add_parser("import", help="make a job of a file")
        taken.add_argument("file", type=Path)
        taken.add_argument("--dry-run", action="store_true", help="only say what would be made")
        acts.add_parser("schema", help="print the JSON Schema of job.json")

    def handle(self, *args: Any, **options: Any) -> None:
        """Do it in English, as every command."""
        with override("en"):
            if options["act"] == "schema":
                self.stdout.write(json.dumps(job_schema(), ensure_ascii=False, indent=1))
            elif options["act"] == "export":
                self._export(options["job"], options["file"], replace=options["replace"])
            else:
                self._import(options["file"], dry_run=options["dry_run"])

    def _export(self, code: str, file: Path, *, replace: bool) -> None:
        number = code.upper().removeprefix("J-")
        jobs = Job.objects.select_related("vehicle__customer", "consultant")
        job = jobs.filter(number=int(number)).first() if number.isdecimal() else None
        if job is None:
            message = f"There is no job {code}."
            raise CommandError(message)
        beside = file.with_name(f".{file.name}-begun")
        try:
            if file.exists() and not replace:
                message = f"{file} is there already: give another name, or say --replace."
                raise CommandError(message)
            with beside.open("xb") as written:
                contents = write(job, written, job_schema())
            beside.replace(file)
        except OSError as error:
            message = f"Nothing was written: {error}."
            raise CommandError(message) from error
        finally:
            beside.unlink(missing_ok=True)
        for photo in contents.lost:
            self.stderr.write(f"The file of a photo is lost, and it is left out: {photo}")
        count = f"{len(contents.sheets)} issued sheets, {len(contents.files)} files of photos"
        self.stdout.write(f"{file}: {job.code}, {count}")

    def _import(self, file: Path, *, dry_run: bool) -> None:
        try:
            with file.open("rb") as read, opened(read, job_schema()) as arrival:
                if dry_run:
                    self._say(plan(arrival))
                    self.stdout.write("Nothing was changed.")
                    return
                job, planned = make(arrival)
        except OSError as error:
            raise CommandError(str(error)) from error
        except RefusedFileError as error:
            message = f"{error} Nothing was changed."
            raise CommandError(message) from error
        self._say(planned)
        self.stdout.write(f"Made: {job.code}.")

    def _say(self, planned: Plan) -> None:
        """Say what is here, what is made, and what a person should know."""
        says = [f"{planned.written_as} becomes {planned.code}" + ": that number is taken here"
                * planned.number_is_taken]  # fmt: skip
        for noun, row in (("customer", planned.customer), ("car", planned.car)):
            says.append(f"{noun} {row.name}: {_how(row)}")
        for noun, rows in (("part", planned.parts), ("person", planned.people)):
            here = sum(row.is_here for row in rows.values())
            says.append(f"{len(rows)} × {noun}: {here} here, {len(rows) - here} made anew")
            says += [f"  {row.name}: {_how(row)}" for row in rows.values() if not row.is_here]
        kinds = sorted((str(m._meta.verbose_name), n) for m, n in planned.counts.items())
        says.append(", ".join(f"{n} × {name}" for name, n in kinds))
        for what, names in (
            ("not as it was issued", planned.damaged),
            ("worked out otherwise by this version", planned.different),
            ("its file was lost where it comes from", planned.lost),
        ):
            says += [f"{name}: {what}" for name in names]
        self.stdout.write("\n".join(says))


def _how(row: Any) -> str:
    if row.is_here:
        return "is here"
    return f"made anew, beside {row.other}, which is not the same" if row.other else "made anew"
