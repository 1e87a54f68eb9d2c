"""`manage.py demo`; the browser tests start it with `--serve`, as `make demo` does."""

from __future__ import annotations

from django.core.management import call_command

from jobs.models import Job


def test_a_second_start_keeps_what_was_entered(demo, capsys) -> None:
    """The demo is loaded into an empty installation only; how to sign in is said each time."""
    job = demo["J-0001"]
    job.title = "Typed by a person"
    job.save()
    call_command("demo", port="8123")
    job.refresh_from_db()
    assert (job.title, Job.objects.count()) == ("Typed by a person", len(demo))
    said = capsys.readouterr().out
    assert "http://127.0.0.1:8123/" in said
    assert "consultant" in said
