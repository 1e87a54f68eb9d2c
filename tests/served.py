"""The app served as an installation serves it, on the kind of database these tests run on."""

from __future__ import annotations

import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from html.parser import HTMLParser
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import psycopg
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart

from jobs.demo.people import PASSWORD
from tests.postgres.server import MISSING, Cluster, is_installed, running

ROOT = Path(__file__).resolve().parents[1]
NAME = "postgres"  # of the database on a server that has no other
JOB = "J-0002"  # of the demo, the one that is quickly worked out
BROKEN = (OSError, HTTPException)


class _Form(HTMLParser):
    """What a browser would send of the form that holds a field of this name."""

    def __init__(self, holds: str) -> None:
        super().__init__()
        self._holds, self._here, self.values = holds, {}, {}  # type: ignore[var-annotated]
        self._select = self._text = ""
        self._first = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        name = given.get("name", "")
        if tag == "form":
            self._here = {}
        elif tag == "input" and name and given.get("type") not in ("submit", "file"):
            if given.get("type") not in ("checkbox", "radio") or "checked" in given:
                self._here[name] = given.get("value", "")
        elif tag in ("select", "textarea") and name:
            self._select, self._text = (name, "") if tag == "select" else ("", name)
            self._here[name], self._first = "", True
        elif tag == "option" and self._select:
            if self._first or "selected" in given:
                self._here[self._select] = given.get("value", "")
            self._first = False

    def handle_data(self, data: str) -> None:
        if self._text:
            self._here[self._text] += data

    def handle_endtag(self, tag: str) -> None:
        if tag in ("select", "textarea"):
            self._select = self._text = ""
        elif tag == "form" and self._holds in self._here and not self.values:
            self.values = self._here


class Person:
    """Somebody with a browser that keeps cookies and follows nothing."""

    def __init__(self, port: int) -> None:
        self.port, self.cookies = port, {"sessionid": "", "csrftoken": ""}

    def again(self) -> Person:
        """The same person at another window."""
        other = Person(self.port)
        other.cookies = dict(self.cookies)
        return other

    def ask(
        self,
        method: str,
        path: str,
        sent: dict[str, Any] | None = None,
        photo: bytes = b"",
        **headers: str,
    ) -> tuple[int, dict[str, str], str]:
        """Return status, headers and text of the answer; a photo may go along with a form."""
        line = HTTPConnection("127.0.0.1", self.port, timeout=120)
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items() if value)
        headers |= {"Cookie": cookies} if cookies else {}
        body: bytes | str | None = None
        if sent is not None:
            sent = sent | {"csrfmiddlewaretoken": self.cookies["csrftoken"]}
            body, kind = urlencode(sent, doseq=True), "application/x-www-form-urlencoded"
            if photo:
                body = encode_multipart(
                    BOUNDARY, sent | {"photo": SimpleUploadedFile("p.jpg", photo)}
                )
                kind = MULTIPART_CONTENT
            headers |= {"Content-Type": kind}
        with closing(line):
            line.request(method, path, body, headers)
            answer = line.getresponse()
            text = answer.read().decode(errors="replace")
            for set_cookie in answer.headers.get_all("Set-Cookie") or []:
                name, _is, value = set_cookie.split(";")[0].partition("=")
                self.cookies[name] = value
            return answer.status, dict(answer.headers), text

    def get(self, path: str, **headers: str) -> tuple[int, dict[str, str], str]:
        """Read a page."""
        return self.ask("GET", path, **headers)

    def read(self, path: str) -> bytes:
        """Read a file."""
        line = HTTPConnection("127.0.0.1", self.port, timeout=120)
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items() if value)
        with closing(line):
            line.request("GET", path, headers={"Cookie": cookies})
            answer = line.getresponse()
            assert answer.status == 200, (path, answer.status)
            return answer.read()

    def form(self, path: str, holds: str) -> dict[str, str]:
        """Read the form on a page that has this field."""
        status, _headers, text = self.get(path)
        assert status == 200, (path, status)
        form = _Form(holds)
        form.feed(text)
        assert form.values, path
        return {k: v for k, v in form.values.items() if k != "csrfmiddlewaretoken"}

    def post(self, path: str, sent: dict[str, Any]) -> tuple[int, str]:
        """Send a form; returns the status and where it leads."""
        status, headers, _text = self.ask("POST", path, sent)
        return status, headers.get("Location", "")

    def sign_in(self, who: str) -> Person:
        """Sign in as one of the demo's people, or as whoever has their password."""
        self.get("/sign-in/")
        status, _where = self.post("/sign-in/", {"username": who, "password": PASSWORD})
        assert status == 302
        return self


class Served:
    """The demo on a port, its database, and ways to end both."""

    def __init__(
        self,
        folder: Path,
        cluster: Cluster | None,
        *,
        how: tuple[str, ...] = ("demo", "--serve"),
        **more: str,
    ) -> None:
        self.folder, self.cluster, self._how, self._more = folder, cluster, how, more
        (folder / "static").mkdir(exist_ok=True)
        with closing(socket.socket()) as door:
            door.bind(("127.0.0.1", 0))
            self.port = int(door.getsockname()[1])
        self._server: subprocess.Popen[bytes] | None = None
        self.log = folder / "log"

    @property
    def url(self) -> str:
        """What DATABASE_URL names."""
        return self.cluster.url(NAME) if self.cluster else f"sqlite:///{self._file}"

    @property
    def _file(self) -> Path:
        return self.folder / "undertrim.sqlite3"

    @property
    def environment(self) -> dict[str, str]:
        """What is set where it runs."""
        return {
            **os.environ,
            "UNDERTRIM_VAR": str(self.folder),
            "DATABASE_URL": self.url,
            "UNDERTRIM_LOG_REQUESTS": "1",
            **self._more,
        }

    def start(self) -> None:
        """Serve, and wait until it answers."""
        command = [sys.executable, "manage.py", *self._how, "--port", str(self.port)]
        with self.log.open("ab") as log:
            self._server = subprocess.Popen(
                command, cwd=ROOT, env=self.environment, stdout=subprocess.DEVNULL, stderr=log,
                process_group=0,
            )  # fmt: skip
        until = time.monotonic() + 300
        while time.monotonic() < until and self._server.poll() is None:
            with suppress(*BROKEN):
                Person(self.port).get("/health/")
                return
            time.sleep(0.1)
        message = f"the app did not start: {self.log.read_text()[-2000:]}"
        raise RuntimeError(message)

    def stop(self) -> None:
        """End it politely."""
        assert self._server is not None
        self._server.terminate()
        self._server.wait(timeout=60)

    @property
    def processes(self) -> list[int]:
        """Those that answer, and the one that prints."""
        assert self._server is not None
        pid = self._server.pid
        return [
            int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        ]

    def kill_one(self) -> None:
        """End one of its processes as the kernel does; the next starts by itself."""
        for process in self.processes[:1]:
            with suppress(ProcessLookupError):
                os.kill(process, signal.SIGKILL)

    def kill_all(self) -> None:
        """End all of it at once, and the database's server with it; then start both again."""
        assert self._server is not None
        for process in (self._server.pid, *self.processes):
            with suppress(ProcessLookupError):
                os.kill(process, signal.SIGKILL)
        self._server.wait()
        if self.cluster:
            self.cluster.kill()
            self.cluster.start()
        self.start()

    def rows(self, question: str) -> list[tuple[Any, ...]]:
        """Ask the database itself."""
        if self.cluster:
            where = {"host": str(self.cluster.folder), "user": "postgres", "dbname": NAME}
            with psycopg.connect(**where) as live:
                return live.execute(question.encode()).fetchall()
        with closing(sqlite3.connect(self._file, timeout=60)) as file:
            return file.execute(question).fetchall()

    def is_sound(self) -> bool:
        """Whether the database finds nothing wrong with itself."""
        if self.cluster:  # its rules hold, and every row can be read
            named = "SELECT tablename FROM pg_tables WHERE schemaname = 'public'"
            return all(
                self.rows(f'SELECT count(t::text) FROM "{name}" t') for (name,) in self.rows(named)
            )
        broken = self.rows("PRAGMA foreign_key_check")
        return self.rows("PRAGMA integrity_check") == [("ok",)] and not broken

    def part(self) -> int:
        """The key of a part of the catalogue that has nothing but a name."""
        return int(self.rows("SELECT max(id) FROM jobs_part WHERE kind = 'other'")[0][0])


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    """Serve the demo on the kind of database these tests run on, in a server of its own."""
    with ExitStack() as stack:
        cluster = None
        if connection.vendor == "postgresql":
            if not is_installed():
                pytest.skip(MISSING)
            cluster = stack.enter_context(running(("max_connections = 60",)))
        there = Served(folder, cluster)
        there.start()
        try:
            yield there
        finally:
            there.stop()


def numbers(where: list[str]) -> list[str]:
    """Return the codes of the jobs some addresses lead to."""
    return [found[0] for one in where if (found := re.findall(r"J-\d+", one))]
