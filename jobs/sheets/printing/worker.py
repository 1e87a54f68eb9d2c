"""The process that prints, and sends e-mails: one after another, showing that it is alive."""

from __future__ import annotations

import datetime as dt
import logging
import os
import threading
import time
import uuid

from django.db import DatabaseError, InterfaceError, connection
from django.db.models import F, QuerySet
from django.utils import timezone

from jobs.mail.delivery import deliver_on
from jobs.models import PrintOrder, PrintWorker
from jobs.sheets.printing.orders import State, Trouble, carry_out, sweep, take
from jobs.stack import with_room

POLL = 0.25  # seconds between two looks for an order
BEAT = 5.0  # seconds between two signs of life
# After so long without one a process is taken for dead, and what it had is taken by another.
SILENT = dt.timedelta(seconds=30)
MOST_TRIES = 3
OPEN = (State.WAITING, State.PRINTING)
LONGEST = 600.0  # seconds one print may take; a process that hangs ends itself
PATIENCE = 5.0  # seconds until a database that does not answer is asked again
SWEEP_EVERY = 600.0  # seconds

AWAY = (DatabaseError, InterfaceError)  # what a database says that does not answer

logger = logging.getLogger(__name__)


class Worker:
    """One such process."""

    def __init__(self) -> None:
        self.name = uuid.uuid4().hex
        self.began: float | None = None  # when what it prints now was taken

    def run(self) -> None:
        """Print what is asked for until told to stop; what is begun then waits again."""
        threading.Thread(target=self._beat_on, daemon=True).start()
        # Beside the prints: a mail server that hangs keeps no sheet waiting.
        threading.Thread(target=deliver_on, daemon=True).start()
        swept: float | None = None
        try:
            while True:
                try:
                    if swept is None or time.monotonic() - swept > SWEEP_EVERY:
                        self.beat()
                        sweep()
                        swept = time.monotonic()
                    if not self.work():
                        time.sleep(POLL)
                except AWAY:
                    logger.exception("The database does not answer; prints wait.")
                    connection.close()
                    time.sleep(PATIENCE)
        finally:
            self.leave()

    def work(self) -> bool:
        """Print one order; returns whether there was any."""
        orders = list(PrintOrder.objects.filter(state__in=OPEN).only("state", "worker", "tries"))
        if not orders:
            return False
        self._take_back([order for order in orders if order.state == State.PRINTING])
        order = take(self.name)
        if order is None:
            return False
        self.began = time.monotonic()
        try:
            with_room(lambda: carry_out(order))
        finally:
            self.began = None
        return True

    def _take_back(self, printing: list[PrintOrder]) -> None:
        """Let what a dead process had wait again, and what this one has left lying."""
        if not printing:
            return
        at_work = set(_alive().values_list("pk", flat=True)) - {self.name}
        for order in printing:
            if order.worker in at_work:
                continue
            held = PrintOrder.objects.filter(pk=order.pk, worker=order.worker, state=State.PRINTING)
            if order.tries >= MOST_TRIES:
                logger.error("Print order %s was begun %d times.", order.pk, order.tries)
                held.update(state=State.FAILED, trouble=Trouble.ENDED, finished_at=timezone.now())
            else:
                held.update(state=State.WAITING, worker="", page=0)

    def leave(self) -> None:
        """Give back what was begun, as if it had not been tried."""
        mine = PrintOrder.objects.filter(worker=self.name, state=State.PRINTING)
        mine.update(state=State.WAITING, worker="", page=0, tries=F("tries") - 1)
        PrintWorker.objects.filter(pk=self.name).delete()

    def beat(self) -> None:
        """Show that this process is alive."""
        now = timezone.now()
        if not PrintWorker.objects.filter(pk=self.name).update(beat_at=now):
            PrintWorker.objects.filter(beat_at__lt=now - dt.timedelta(days=1)).delete()
            PrintWorker.objects.create(name=self.name, started_at=now, beat_at=now)

    def _beat_on(self) -> None:
        while True:
            time.sleep(BEAT)
            if self.began is not None and time.monotonic() - self.began > LONGEST:
                logger.error("A print took longer than %d s; the process ends.", LONGEST)
                os._exit(1)
            try:
                self.beat()
            except AWAY:
                connection.close()


def _alive() -> QuerySet[PrintWorker]:
    return PrintWorker.objects.filter(beat_at__gt=timezone.now() - SILENT)


def is_alive() -> bool:
    """Whether a process prints."""
    return _alive().exists()
