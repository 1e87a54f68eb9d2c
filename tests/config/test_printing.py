"""Prints at the running server: nobody waits for them, and none is lost with its process."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from config.server import YIELDING
from jobs import sheets
from jobs.sheets.printing.worker import SILENT
from tests.browser.server import DATABASE, JOB, ROOT, crowded, demo_server
from tests.config.test_server import PATIENCE, Visitor

pytestmark = pytest.mark.served

needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())
KINDS = ("cables", "labels", "handover", "panels")
PAPERS = ("a4", "letter")


@pytest.fixture(scope="module")
def folder(new_demo) -> Path:
    """Where the served demo keeps everything."""
    return new_demo()


@pytest.fixture(scope="module")
def address(folder) -> Iterator[str]:
    """The demo, served as `make demo` serves it."""
    with demo_server(folder) as served:
        yield served


def _orders(folder: Path, columns: str) -> list[Any]:
    with closing(sqlite3.connect(folder / DATABASE, timeout=20)) as database:
        return database.execute(f"SELECT {columns} FROM jobs_printorder ORDER BY id").fetchall()


def _wait(until: Callable[[], bool], seconds: float) -> None:
    """Wait for something another process does."""
    end = time.monotonic() + seconds * max(crowded(), 1)
    while not until():
        assert time.monotonic() < end, "waited too long"
        threading.Event().wait(0.05)


def _all_printed(folder: Path) -> bool:
    states = {state for (state,) in _orders(folder, "state")}
    assert "failed" not in states
    return states == {"printed"}


def _print_process(address: str) -> int:
    """The process of this server that prints: the one that gives way to the others."""
    port = address.rpartition(":")[2]
    for process in Path("/proc").glob("[0-9]*"):
        try:
            command = (process / "cmdline").read_bytes().split(b"\0")
            nice = int((process / "stat").read_text().rpartition(")")[2].split()[16])
        except (FileNotFoundError, ProcessLookupError):
            continue  # it ended meanwhile
        if port.encode() in command and nice == YIELDING:
            return int(process.name)
    message = "nothing prints"
    raise AssertionError(message)


@needs_pdf
def test_eight_prints_at_once_keep_nobody_waiting(address, folder):
    """Each is answered at once, every other page too; then all are there, each printed once."""
    reader, asker = (Visitor(address).sign_in(who) for who in ("designer", "installer"))
    calm = reader.calm()
    pages = [
        f"/jobs/{JOB}/sheets/{kind}/?paper={paper}&language=en"
        for kind in KINDS
        for paper in PAPERS
    ]
    slowest = 0.0
    for page in pages:
        began = time.perf_counter()
        assert "data-print=" in asker.get(page)
        slowest = max(slowest, time.perf_counter() - began)
    seen, busy = 0, 1.0
    while not _all_printed(folder):
        slowest, seen = max(slowest, reader.waited()), seen + 1
        busy = max(busy, crowded())
    assert seen > 1
    print(f"slowest page beside eight prints: {slowest:.2f} s, crowded {busy:.1f}")  # noqa: T201
    assert slowest < max(PATIENCE, 5 * calm) * busy
    assert _orders(folder, "tries") == [(1,)] * len(pages)


@needs_pdf
def test_a_second_process_prints_beside_and_none_is_printed_twice(address, folder):
    """Two processes share the orders; told to stop, the second one gives back what it had."""
    asker = Visitor(address).sign_in("designer")
    before = len(_orders(folder, "id"))
    environment = {
        **os.environ, "UNDERTRIM_VAR": str(folder),
        "DATABASE_URL": f"sqlite:///{folder / DATABASE}",
    }  # fmt: skip
    second = subprocess.Popen(
        [sys.executable, "manage.py", "print_worker"], cwd=ROOT, env=environment
    )
    try:
        for kind in KINDS:
            for paper in PAPERS:
                asker.get(f"/jobs/{JOB}/sheets/{kind}/?paper={paper}&language=de")
        _wait(lambda: _all_printed(folder), 60)
    finally:
        second.terminate()
        assert second.wait(timeout=60) == 0
    assert _orders(folder, "tries")[before:] == [(1,)] * len(KINDS) * len(PAPERS)


@needs_pdf
@pytest.mark.long
def test_a_killed_process_loses_no_print(address, folder):
    """Another starts by itself; after a while it takes what the killed one had, and prints it."""
    asker = Visitor(address).sign_in("designer")
    asker.get(f"/jobs/{JOB}/sheets/build/?paper=letter&language=de")
    _wait(lambda: _orders(folder, "state")[-1] == ("printing",), 30)
    killed = _print_process(address)
    os.kill(killed, signal.SIGKILL)
    _wait(lambda: _all_printed(folder), SILENT.total_seconds() + 60)
    assert _orders(folder, "tries")[-1] == (2,)
    assert _print_process(address) != killed
