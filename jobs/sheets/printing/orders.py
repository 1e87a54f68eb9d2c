"""Sheets that are asked for: what is asked, what came of it, and the one way one is printed."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import logging
import time
import uuid
from dataclasses import asdict, replace
from functools import partial
from typing import Any

from django.conf import settings
from django.db import DatabaseError, InterfaceError
from django.db.models import F
from django.utils import timezone

from jobs import version
from jobs.design.job.whole import work_out
from jobs.design.records.data import to_data
from jobs.design.records.records import JobRecords, load
from jobs.models import IssuedSheet, Job, PrintOrder, SheetKind, User, Workshop
from jobs.sheets import engine
from jobs.sheets.issue import draft, issue
from jobs.sheets.registry import SHEETS, Options
from jobs.sheets.speaking import spoken

State, Trouble = PrintOrder.State, PrintOrder.Trouble
# How long what is done is kept: a draft printed again costs seconds, a failure is to be seen.
PRINTED_KEPT, FAILED_KEPT = dt.timedelta(days=1), dt.timedelta(days=7)
TELL_EVERY = 0.5  # seconds between two notes of the page being laid out

logger = logging.getLogger(__name__)


class LostOrderError(Exception):
    """Another process took the order over meanwhile: what was printed here counts for nothing."""


def rests_on(records: JobRecords, kind: SheetKind, options: Options) -> str:
    """Return a hash of all a draft says: records, options, its date and the code that prints."""
    data = to_data(replace(records, issued=[]))  # what was issued stands on no draft
    rests_on = [version.stamp(), str(timezone.localdate()), kind, asdict(options), data]
    return hashlib.sha256(json.dumps(rests_on, sort_keys=True).encode()).hexdigest()


def ask_for_draft(records: JobRecords, kind: SheetKind, options: Options, user: User) -> PrintOrder:
    """Return the order of a draft; the same one for as long as the draft would say the same."""
    key = rests_on(records, kind, options)
    orders = PrintOrder.objects.filter(job=records.job, to_issue=False, rests_on=key)
    order = orders.last() or PrintOrder.objects.create(
        **_asked(records.job, kind, options, user), to_issue=False, rests_on=key
    )
    return _at_once(order)


def ask_to_issue(
    job: Job, kind: SheetKind, options: Options, user: User, token: uuid.UUID
) -> PrintOrder:
    """Return the order of a sheet to be issued; a button pressed twice makes one."""
    asked = _asked(job, kind, options, user) | {"to_issue": True}
    order, _new = PrintOrder.objects.get_or_create(entry_token=token, defaults=asked)
    return _at_once(order)


def _asked(job: Job, kind: SheetKind, options: Options, user: User) -> dict[str, Any]:
    how = {"job": job, "kind": kind, "options": asdict(options)}
    return how | {"asked_by": user, "asked_at": timezone.now()}


def ask_again(order: PrintOrder, user: User) -> None:
    """Put an order that failed back among those that wait, in the name of whoever asks now."""
    PrintOrder.objects.filter(pk=order.pk, state=State.FAILED).update(
        state=State.WAITING, trouble="", detail="", tries=0, page=0, worker="",
        asked_by=user, asked_at=timezone.now(), finished_at=None,
    )  # fmt: skip
    order.refresh_from_db()
    _at_once(order)


def _at_once(order: PrintOrder) -> PrintOrder:
    """Where nobody prints beside, print it here and now, as that process would."""
    if settings.PRINT_IN_REQUEST and order.state == State.WAITING:
        taken = take("request", order.pk)
        if taken is not None:
            carry_out(taken)
        order.refresh_from_db()
    return order


def options_of(order: PrintOrder) -> Options:
    """Return how the sheet is to be printed."""
    lists = {name: tuple(order.options.get(name, ())) for name in ("boxes", "parts", "options")}
    return Options(**order.options | lists)


def ahead_of(order: PrintOrder) -> int:
    """How many orders are printed before this one."""
    waiting = PrintOrder.objects.filter(state=State.WAITING, pk__lt=order.pk)
    return waiting.count() + PrintOrder.objects.filter(state=State.PRINTING).count()


def pages_last_time(order: PrintOrder) -> int:
    """How many pages the same sheet of this job had when it was last printed; 0: not known."""
    before = PrintOrder.objects.filter(job=order.job_id, kind=order.kind, state=State.PRINTED)
    return before.values_list("page", flat=True).last() or 0


def take(worker: str, pk: int | None = None) -> PrintOrder | None:
    """Take the oldest order that waits, or this one; two that try it never get the same one.

    The state is asked for and changed by one statement, which holds on every database.
    """
    waiting = PrintOrder.objects.filter(state=State.WAITING)
    for key in [pk] if pk else list(waiting.values_list("pk", flat=True)):
        taken = waiting.filter(pk=key).update(
            state=State.PRINTING, worker=worker, tries=F("tries") + 1, started_at=timezone.now()
        )
        if taken:
            related = ("job__vehicle__customer", "job__consultant", "asked_by")
            return PrintOrder.objects.select_related(*related).get(pk=key)
    return None


def carry_out(order: PrintOrder) -> None:
    """Print an order that was taken; whatever goes wrong is written down in words."""
    kind, options = SheetKind(order.kind), options_of(order)
    sheet = SHEETS[kind]
    allowed = sheet.may_issue if order.to_issue else sheet.may_open
    try:
        if engine.unavailable():
            return _settle(order, state=State.FAILED, trouble=Trouble.NO_PDF)
        if not allowed(order.asked_by):
            return _settle(order, state=State.FAILED, trouble=Trouble.NOT_ALLOWED)
        return _print(order, kind, options)
    except LostOrderError:
        logger.warning("Print order %s was taken over by another process.", order.pk)
    except (DatabaseError, InterfaceError):
        raise  # nothing can be written down either; whoever took it gives it back
    except Exception as error:
        logger.exception("Print order %s failed.", order.pk)
        _settle(order, state=State.FAILED, trouble=Trouble.BROKEN, detail=type(error).__name__)


def _print(order: PrintOrder, kind: SheetKind, options: Options) -> None:
    progress = _Progress(order)
    with spoken(options.language, Workshop.current().units):
        records = load(order.job)
        design = work_out(records)
    if order.to_issue:
        issue(
            design, kind, options, order.asked_by,
            tell=progress.tell, kept=partial(_issued, order, progress),
        )  # fmt: skip
        return
    pdf = draft(design, kind, options, tell=progress.tell)
    # The job may have changed since this was asked for: it says what was printed.
    key = rests_on(records, kind, options)
    _settle(order, state=State.PRINTED, pdf=pdf, rests_on=key, page=progress.page)


def _issued(order: PrintOrder, progress: _Progress, issued: IssuedSheet) -> None:
    _settle(order, state=State.PRINTED, issued=issued, page=progress.page)


class _Progress:
    """Notes now and then which page of an order is being laid out."""

    def __init__(self, order: PrintOrder) -> None:
        self.order, self.page, self.told = order, 0, time.monotonic()

    def tell(self, page: int) -> None:
        self.page = max(page, self.page)
        if time.monotonic() - self.told > TELL_EVERY:
            self.told = time.monotonic()
            _write(self.order, page=self.page)


def _settle(order: PrintOrder, **values: Any) -> None:
    _write(order, finished_at=timezone.now(), **values)


def _write(order: PrintOrder, **values: Any) -> None:
    """Write to an order for as long as it is ours."""
    ours = PrintOrder.objects.filter(pk=order.pk, worker=order.worker, state=State.PRINTING)
    if not ours.update(**values):
        raise LostOrderError


def sweep() -> None:
    """Take away what was finished long ago; an issued sheet is kept elsewhere, for ever."""
    now, orders = timezone.now(), PrintOrder.objects
    orders.filter(state=State.PRINTED, finished_at__lt=now - PRINTED_KEPT).delete()
    orders.filter(state=State.FAILED, finished_at__lt=now - FAILED_KEPT).delete()
