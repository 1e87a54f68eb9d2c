"""`manage.py nightly` and `serve`: what the services of an installation call."""

from __future__ import annotations

import datetime as dt

import pytest
from django.core.management import CommandError, call_command
from django.test import override_settings

from jobs.management.commands.nightly import superseded
from jobs.models import Workshop


def _nights(folder, first: dt.date, last: dt.date) -> None:
    for n in range((last - first).days + 1):
        (folder / f"undertrim-{first + dt.timedelta(days=n)}.zip").touch()


def test_a_fortnight_and_the_firsts_of_a_year_stay(tmp_path):
    """After two years there are fourteen nights and the first of each of twelve months."""
    today = dt.date(2026, 11, 28)
    _nights(tmp_path, dt.date(2024, 12, 1), today)
    (tmp_path / "before-upgrade-2024-12-01-101010.zip").touch()
    for file in superseded(tmp_path, today):
        file.unlink()
    left = sorted(file.name for file in tmp_path.iterdir())
    assert len(left) == 14 + 12 + 1
    assert "undertrim-2025-12-01.zip" in left
    assert "undertrim-2025-11-01.zip" not in left
    assert "undertrim-2026-11-15.zip" in left
    assert "before-upgrade-2024-12-01-101010.zip" in left


def test_a_machine_that_was_off_loses_no_last_back_up(tmp_path):
    """However old the only back-ups are, none is let go of."""
    _nights(tmp_path, dt.date(2026, 1, 5), dt.date(2026, 1, 5))
    _nights(tmp_path, dt.date(2026, 11, 28), dt.date(2026, 11, 28))
    assert superseded(tmp_path, dt.date(2026, 11, 28)) == []


def test_a_clock_that_is_wrong_for_a_night_loses_no_back_up(tmp_path):
    """Years ahead or back: the nights of before stay, and so does the one just made."""
    nights = [dt.date(2026, 11, 2) + dt.timedelta(days=n) for n in range(13)]
    for night in nights:
        (tmp_path / f"undertrim-{night}.zip").touch()
    for wrong in (dt.date(2038, 1, 19), dt.date(1970, 1, 1)):
        made = tmp_path / f"undertrim-{wrong}.zip"
        made.touch()
        assert superseded(tmp_path, wrong) == []
        made.unlink()


def test_without_a_folder_it_says_what_to_set():
    """A back-up that nobody told where to go is a fault in words."""
    with override_settings(BACKUPS=None), pytest.raises(CommandError, match="UNDERTRIM_BACKUPS"):
        call_command("nightly")


def test_what_was_removed_long_ago_goes_after_the_back_up(tmp_path, monkeypatch):
    """Backed up once more, then deleted: never the other way round."""
    done: list[str] = []
    monkeypatch.setattr(
        "jobs.management.commands.nightly.call_command", lambda name, *a, **k: done.append(name)
    )
    with override_settings(BACKUPS=tmp_path):
        call_command("nightly")
    assert done == ["backup", "clear_removed"]


def test_the_demo_is_not_served_for_real(db):
    """Its passwords are printed: it answers on its own machine alone."""
    Workshop.objects.create(name="Invented", is_demo=True)
    with pytest.raises(CommandError, match="make demo"):
        call_command("serve")
