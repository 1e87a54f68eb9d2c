"""The server of an installation: two processes that share one door, so that both cores work,
and one beside them that prints.

It reads a request to its end before a thread takes it up: whoever is silent, slow or sends half
a request costs a socket and keeps nobody else waiting.
"""

from __future__ import annotations

import logging
import multiprocessing
import os
import signal
import socket
import threading
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from multiprocessing.connection import wait
from multiprocessing.context import ForkProcess
from typing import TYPE_CHECKING

from django.conf import settings
from django.core.management import call_command

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

PROCESSES = 2
# Threads of each process: one computes while others wait for the database.
THREADS = 4
# Connections of each process; half of what a process may usually hold open, for a large body
# takes a file beside its socket.
CONNECTIONS = 500
# Seconds after which a connection that says nothing is closed.
SILENCE = 60
# A photo of 25 MB is refused in words and so is a text of 24 MB; what is longer is not read.
LARGEST_BODY = 32 * 1024 * 1024
# Files that libraries ship and no page asks for; some name others that are not there.
NOT_SERVED = ["ext", "django_otp", "otp_totp"]
# A print gives way to whoever waits for a page.
YIELDING = 5
# Seconds between the end of a process and the start of the next: one that cannot start must not
# keep the machine busy.
PAUSE = 1.0
# Seconds in which what is being answered may end after the server was told to stop.
FAREWELL = 10.0

logger = logging.getLogger(__name__)


def serve(host: str, port: int) -> None:
    """Answer at this address, and print, until told to stop; a process that ends is replaced."""
    call_command("collectstatic", interactive=False, verbosity=0, ignore_patterns=NOT_SERVED)
    workers: dict[int, ForkProcess] = {}
    with socket.create_server((host, port), backlog=1024) as door, _told_to_stop() as told:
        duties = [partial(_answer, door)] * PROCESSES
        duties += [partial(_print, door)] if settings.PRINTS else []
        try:
            _keep_running(duties, workers, told)
        except KeyboardInterrupt:
            pass  # Ctrl-C; the processes heard it too
        finally:
            _end(workers)


def headed(application: WSGIApplication) -> WSGIApplication:
    """Answer HEAD without a body: on a connection that stays open it would be the next answer.

    Source: RFC 9110, HTTP Semantics (2022), 9.3.2
    """

    def answer(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        body = application(environ, start_response)
        if environ["REQUEST_METHOD"] != "HEAD":
            return body
        if (close := getattr(body, "close", None)) is not None:
            close()
        return []

    return answer


@contextmanager
def _told_to_stop() -> Iterator[socket.socket]:
    """Yield what becomes readable when the process is told to stop.

    A handler that raises would be forgotten where Python is inside a callback of its own.
    """
    told, signals = socket.socketpair()
    with told, signals:
        signals.setblocking(False)
        signal.set_wakeup_fd(signals.fileno())
        signal.signal(signal.SIGTERM, lambda *_: None)
        yield told
        signal.set_wakeup_fd(-1)


def _keep_running(
    duties: Sequence[Callable[[], None]], workers: dict[int, ForkProcess], told: socket.socket
) -> None:
    """Have one process for each duty until told to stop."""
    fork = multiprocessing.get_context("fork")
    while True:
        for number, duty in enumerate(duties):
            if number not in workers:
                workers[number] = fork.Process(target=duty, daemon=True)
                workers[number].start()
        wait([told, *(worker.sentinel for worker in workers.values())])
        if wait([told], timeout=0):
            return
        for number, worker in list(workers.items()):
            if not worker.is_alive():
                logger.error("A process ended (%s); the next starts.", worker.exitcode)
                del workers[number]
        if wait([told], timeout=PAUSE):
            return


def _end(workers: dict[int, ForkProcess]) -> None:
    """Tell every process to end, and end what does not listen."""
    for worker in workers.values():
        worker.terminate()
    until = time.monotonic() + FAREWELL
    for worker in workers.values():
        worker.join(max(0.0, until - time.monotonic()))
        worker.kill()


def end_when_told(farewell: Callable[[], object]) -> None:
    """Let a signal to stop end this process after a farewell, which may wait for others.

    In a thread of its own: a handler runs in the middle of anything, locks held or not.
    """
    signal.set_wakeup_fd(-1)  # the parent's, where this process is a fork of it

    def end() -> None:
        try:
            farewell()
        finally:
            os._exit(0)

    ending = threading.Thread(target=end, daemon=True)

    def tell(*_signal: object) -> None:
        if ending.ident is None:
            ending.start()

    signal.signal(signal.SIGTERM, tell)


def _print(door: socket.socket) -> None:
    """Be the process that prints."""
    _begin()
    door.close()
    from jobs.sheets.printing.worker import Worker

    worker = Worker()
    end_when_told(worker.leave)
    os.nice(YIELDING)
    worker.run()


def _answer(door: socket.socket) -> None:
    """Be one of the processes that answer."""
    _begin()
    import waitress

    from config.wsgi import application

    # Four phones at once are no news, and a phone that walks out of reach is not either.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    server = waitress.create_server(
        headed(application),
        sockets=[door],
        threads=THREADS,
        connection_limit=CONNECTIONS,
        asyncore_use_poll=True,
        channel_timeout=SILENCE,
        cleanup_interval=10,
        max_request_body_size=LARGEST_BODY,
        log_socket_errors=False,
        ident="",
        # Which proxy is believed is decided once, in jobs/pages/proxy.py; without one nobody is.
        clear_untrusted_proxy_headers=not settings.PROXIES,
    )
    end_when_told(partial(server.task_dispatcher.shutdown, timeout=FAREWELL / 2))
    server.run()


def _begin() -> None:
    """Leave the parent's way with signals, and end when it does."""
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """End with the process that started this one, even when that was killed."""
    parent = multiprocessing.parent_process()
    assert parent is not None
    parent.join()
    os._exit(1)
