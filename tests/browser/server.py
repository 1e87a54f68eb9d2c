"""The app as `make demo` starts it, on a free port, with a database of its own."""

from __future__ import annotations

import os
import shutil
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, Playwright

ROOT = Path(__file__).resolve().parents[2]
DATABASE = "undertrim.sqlite3"

# What the browser tests know of the demo; whoever changes the demo changes this table and no test.
JOB = "J-0001"  # a row of every kind, a tree with branches, no stop of the wiring
OTHER_JOB = "J-0002"
VENTED_JOB = "J-0003"  # a vented box, and another to hold it against; looks nobody accepted yet
BRANCH = "P02"  # a fused branch of JOB, for an amplifier
SPARE = "P04"  # a branch of JOB that may be removed
ROUTED = "S01"  # a run of JOB that passes four places
TOO_LARGE = "150 A"  # a fuse no branch cable bears
STEP = "Mount the board."  # still to be done in the bay of JOB

# Addresses name rows in braces, such as `/box/{box}/`: the first row of that kind of JOB, the
# first box of VENTED_JOB, the first part, or a run by its label. Filled in once the demo is loaded.
ROWS: dict[str, int] = {}


def at(address: str) -> str:
    """Return an address with the numbers of the rows it names."""
    return address.format(**ROWS)


def full_name(who: str) -> str:
    """Return the name under which one of the demo's people signs."""
    from jobs.demo.people import PEOPLE  # here, because it needs Django set up

    return " ".join(PEOPLE[who][:2])


# The second half keeps the browser itself from calling home, the resolver rule everything else.
BROWSER_ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
]


def crowded() -> float:
    """How much longer a plain loop takes than it costs; one on a machine that does nothing else."""
    began, cost = time.perf_counter(), time.process_time()
    while time.process_time() - cost < 0.1:
        pass
    return (time.perf_counter() - began) / (time.process_time() - cost)


# The one without a window first: it takes a fifth less of the processor for the same pages.
CHROMIUM = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")


def chromium_path() -> str | None:
    """Return the Chromium of this machine, or none."""
    named = os.environ.get("UNDERTRIM_CHROMIUM")
    if named:
        return named
    return next((path for name in CHROMIUM if (path := shutil.which(name))), None)


def launch(playwright: Playwright, path: str) -> Browser:
    """Start a browser that can reach this machine and nothing else."""
    return playwright.chromium.launch(executable_path=path, args=BROWSER_ARGS)


def wait_until(page: Page, condition: str) -> None:
    """Wait until something holds in the page; its policy forbids what the library waits with."""
    page.evaluate(
        f"""async () => {{
            const until = performance.now() + 30000;
            while (!({condition})) {{
                if (performance.now() > until) throw new Error("waited too long");
                await new Promise(requestAnimationFrame);
            }}
        }}"""
    )


def _environment(var: Path) -> dict[str, str]:
    return {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "config.settings",
        "UNDERTRIM_VAR": str(var),
        "DATABASE_URL": f"sqlite:///{var / DATABASE}",
    }


@contextmanager
def demo_server(var: Path) -> Iterator[str]:
    """Serve the demo from a folder, which it fills first; yields the address once it answers."""
    (var / "static").mkdir(exist_ok=True)  # the file server warns when there is none
    with closing(socket.socket()) as door:
        door.bind(("127.0.0.1", 0))
        port = str(door.getsockname()[1])
    command = [sys.executable, "manage.py", "demo", "--serve", "--port", port]
    server = subprocess.Popen(
        command, env=_environment(var), cwd=ROOT, stdout=subprocess.DEVNULL, process_group=0
    )
    try:
        _wait_for(int(port), server)
        ROWS.update(_rows(var / DATABASE))
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(timeout=60)


def _wait_for(port: int, server: subprocess.Popen[bytes]) -> None:
    """Wait until the port is open; an empty folder is filled first, slowly on a busy machine."""
    until = time.monotonic() + 300
    while time.monotonic() < until and server.poll() is None:
        with closing(socket.socket()) as visitor:
            if visitor.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    message = "the demo did not start"
    raise RuntimeError(message)


def _rows(database: Path) -> dict[str, int]:
    """Look the rows up that addresses name."""
    from tests.jobs.pages.kinds import KINDS  # here, because it needs Django set up

    with closing(sqlite3.connect(database)) as loaded:

        def first(table: str, where: str, *values: object) -> int:
            ask = f"SELECT id FROM {table} WHERE {where} ORDER BY id LIMIT 1"
            return int(loaded.execute(ask, values).fetchone()[0])

        def job(code: str) -> int:
            return first("jobs_job", "number = ?", int(code[2:]))

        rows = {
            kind.slug: first(kind.model._meta.db_table, "job_id = ?", job(JOB)) for kind in KINDS
        }
        for label in (BRANCH, SPARE, ROUTED):
            which = (job(JOB), label[0], int(label[1:]))
            rows[label] = first("jobs_run", "job_id = ? AND kind = ? AND number = ?", *which)
        rows["battery"] = first("jobs_powernode", "job_id = ? AND kind = 'battery'", job(JOB))
        rows["vented"] = first("jobs_box", "job_id = ? AND kind = 'vented'", job(VENTED_JOB))
        rows["part"] = first("jobs_part", "removed_at IS NULL")
    return rows


def copy_database(start: Path, end: Path) -> None:
    """Copy one database over another while both may be in use."""
    with closing(sqlite3.connect(start)) as here, closing(sqlite3.connect(end)) as there:
        here.backup(there)


def sign_in(page: Page, who: str) -> None:
    """Sign in as one of the demo's people."""
    from jobs.demo.people import PASSWORD  # here, because it needs Django set up

    page.goto("/sign-in/")
    page.fill("#id_username", who)
    page.fill("#id_password", PASSWORD)
    page.click("main button")
    page.wait_for_url(lambda url: "sign-in" not in url)


def signed_in(browser: Browser, address: str) -> dict[str, Any]:
    """Let each of the demo's people sign in once; returns their cookies."""
    from jobs.demo.people import PEOPLE  # here, because it needs Django set up

    found = {}
    for who in PEOPLE:
        context = browser.new_context(base_url=address)
        sign_in(context.new_page(), who)
        found[who] = context.storage_state()
        context.close()
    return found
