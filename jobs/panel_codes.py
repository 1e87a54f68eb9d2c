"""The codes of panels: what is printed on the record and opens the page behind it.

A token is made when it is first needed and cannot be guessed. Withdrawn it stays known, so that
whoever scans an old print is told so; nobody else's page ever answers to it.
"""

from __future__ import annotations

import secrets

from django.utils import timezone

from jobs.locks import held
from jobs.models import Job, Panel, User, WithdrawnCode

BYTES = 16  # 128 bits


def give_codes(job: Job) -> None:
    """Give every panel a code that never had one; where it was withdrawn, a person decides."""
    with held(job):
        for panel in job.panels.filter(token=None, withdrawn_codes=None):
            _give(panel)


def renew_code(panel: Panel, by: User) -> None:
    """Give a panel a new code; the old one is withdrawn."""
    with held(panel.job):
        panel.refresh_from_db()
        _withdraw(panel, by)
        _give(panel)


def withdraw_code(panel: Panel, by: User) -> None:
    """Let the code of a panel open nothing any more."""
    with held(panel.job):
        panel.refresh_from_db()
        _withdraw(panel, by)
        panel.save(update_fields=["token"])


def _give(panel: Panel) -> None:
    panel.token = secrets.token_urlsafe(BYTES)
    panel.save(update_fields=["token"])


def _withdraw(panel: Panel, by: User) -> None:
    if panel.token:
        WithdrawnCode.objects.create(
            token=panel.token, panel=panel, withdrawn_at=timezone.now(), withdrawn_by=by
        )
        panel.token = None
