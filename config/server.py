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
import sys
import threading
import time
from collections.abc import Iterable
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

logger = logging.getLogger(__name__)


def serve(host: str, port: int) -> None:
    """Answer at this address and print until told to stop; a process that ends is replaced."""
    call_command("collectstatic", interactive=False, verbosity=0, ignore_patterns=NOT_SERVED)
    signal.signal(signal.SIGTERM, _stop)
    fork = multiprocessing.get_context("fork")
    with socket.create_server((host, port), backlog=1024) as door:
        duties = [partial(_answer, door)] * PROCESSES + [partial(_print, door)]
        workers: dict[int, ForkProcess] = {}
        try:
            while True:
                for number, duty in enumerate(duties):
                    if number not in workers:
                        workers[number] = fork.Process(target=duty, daemon=True)
                        workers[number].start()
                wait([worker.sentinel for worker in workers.values()])
                for number, worker in list(workers.items()):
                    if not worker.is_alive():
                        logger.error("A process ended (%s); the next starts.", worker.exitcode)
                        del workers[number]
                time.sleep(PAUSE)
        except KeyboardInterrupt:
            pass  # Ctrl-C; the processes heard it too and are ended with this one


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


def _stop(*_signal: object) -> None:
    sys.exit(0)


def _print(door: socket.socket) -> None:
    """Be the process that prints."""
    door.close()
    from jobs.sheets.print_worker import Worker

    threading.Thread(target=_end_with_parent, daemon=True).start()
    os.nice(YIELDING)
    Worker().run()


def _answer(door: socket.socket) -> None:
    """Be one of the processes."""
    import waitress

    from config.wsgi import application

    threading.Thread(target=_end_with_parent, daemon=True).start()
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
    server.run()


def _end_with_parent() -> None:
    """End with the process that started this one, even when that was killed."""
    parent = multiprocessing.parent_process()
    assert parent is not None
    parent.join()
    os._exit(1)
