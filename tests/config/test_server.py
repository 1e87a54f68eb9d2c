"""Whoever is silent, slow or sends half a request keeps nobody else waiting."""

from __future__ import annotations

import io
import random
import re
import socket
import threading
import time
import urllib.request
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import pytest
from PIL import Image

from jobs.demo.people import PASSWORD
from tests.browser.server import JOB, OTHER_JOB, crowded, demo_server

pytestmark = pytest.mark.served

SILENT, HALF, PHONES = 40, 20, 8
PATIENCE = 1.0  # seconds, for a page of anybody else
PAGES = ("/sign-in/", "/", f"/jobs/{OTHER_JOB}/", f"/jobs/{JOB}/panels/")


class Visitor:
    """A person at the running server, with the cookies a browser would keep."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.jar = CookieJar()
        keeps_cookies = urllib.request.HTTPCookieProcessor(self.jar)
        self._opener = urllib.request.build_opener(keeps_cookies)

    def get(self, path: str) -> str:
        with self._opener.open(self.address + path, timeout=60) as answer:
            return str(answer.read().decode())

    @property
    def cookies(self) -> dict[str, str]:
        return {cookie.name: cookie.value or "" for cookie in self.jar}

    def sign_in(self, who: str) -> Visitor:
        self.get("/sign-in/")
        typed = {"username": who, "password": PASSWORD, "csrfmiddlewaretoken": self.token}
        with self._opener.open(self.address + "/sign-in/", urlencode(typed).encode(), timeout=60):
            return self

    @property
    def token(self) -> str:
        return self.cookies["csrftoken"]

    def calm(self) -> float:
        """Return how long the slowest page takes beside nothing else."""
        self.waited()  # what is made once is made here
        return max(self.waited() for _ in range(3))

    def waited(self) -> float:
        """Return how long the slowest of a few pages took."""
        slowest = 0.0
        for path in PAGES:
            began = time.perf_counter()
            assert "<html" in self.get(path)
            slowest = max(slowest, time.perf_counter() - began)
        return slowest


@pytest.fixture(scope="module")
def folder(new_demo) -> Path:
    """Where the served demo keeps everything."""
    return new_demo()


@pytest.fixture(scope="module")
def address(folder) -> Iterator[str]:
    """The demo, served as `make demo` serves it."""
    with demo_server(folder) as served:
        yield served


def _photo(weight: int) -> bytes:
    """A JPEG of at least this many bytes: noise does not compress."""
    side = int((weight / 0.8) ** 0.5)
    picture = Image.frombytes("RGB", (side, side), random.Random(1).randbytes(3 * side * side))
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=90)
    assert written.tell() >= weight
    return written.getvalue()


def _head(visitor: Visitor, path: str, **more: str) -> bytes:
    host = urlsplit(visitor.address).netloc
    cookies = "; ".join(f"{name}={value}" for name, value in visitor.cookies.items())
    lines = {"Host": host, "Cookie": cookies, "Connection": "close"}
    lines |= {name.replace("_", "-"): value for name, value in more.items()}
    return "\r\n".join([path, *(f"{k}: {v}" for k, v in lines.items()), "", ""]).encode()


def _send_photo(visitor: Visitor, path: str, photo: bytes, rate: float) -> int:
    """Send a photo at so many bytes a second; returns the status of the answer."""
    fence = "fence"
    parts = [
        f'--{fence}\r\nContent-Disposition: form-data; name="csrfmiddlewaretoken"\r\n\r\n'
        f"{visitor.token}\r\n".encode(),
        f'--{fence}\r\nContent-Disposition: form-data; name="photo"; filename="a.jpg"\r\n'
        "Content-Type: image/jpeg\r\n\r\n".encode(),
        photo,
        f"\r\n--{fence}--\r\n".encode(),
    ]
    body = b"".join(parts)
    head = _head(
        visitor,
        f"POST {path} HTTP/1.1",
        Content_Type=f"multipart/form-data; boundary={fence}",
        Content_Length=str(len(body)),
    )
    url = urlsplit(visitor.address)
    assert url.hostname is not None
    assert url.port is not None
    with socket.create_connection((url.hostname, url.port), timeout=120) as line:
        line.sendall(head)
        step, pause = max(int(rate / 10), 1), threading.Event()
        for start in range(0, len(body), step):
            line.sendall(body[start : start + step])
            pause.wait(step / rate)  # this is what a slow line is
        return int(line.recv(64).split()[1])


def _bad_lines(address: str, stack: ExitStack) -> None:
    """Open connections that say nothing, and some that stop in the middle of a request."""
    url = urlsplit(address)
    assert url.hostname is not None
    assert url.port is not None
    begun = b"POST /sign-in/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 5000\r\n\r\nhalf"
    for number in range(SILENT + HALF):
        line = stack.enter_context(socket.create_connection((url.hostname, url.port)))
        if number >= SILENT:
            # Half of these stop in the head, half in the body.
            line.sendall(begun[: 40 if number % 2 else len(begun)])


def _others_wait(address: str, *, weight: int, rate: float) -> tuple[float, list[int]]:
    """Return the longest wait of somebody else, and what the phones were answered."""
    installer = Visitor(address).sign_in("installer")
    reader = Visitor(address).sign_in("designer")
    path = re.findall(rf"/jobs/{JOB}/panel/\d+/photo/", installer.get(f"/jobs/{JOB}/panels/"))[0]
    reader.waited()  # each process learns the pages first
    reader.waited()
    reader.get(f"/jobs/{JOB}/sheets/build/?paper=a4&language=en")  # printed meanwhile
    photo, slowest, seen = _photo(weight), 0.0, 0
    with ExitStack() as stack, ThreadPoolExecutor(PHONES) as phones:
        _bad_lines(address, stack)
        sent = [phones.submit(_send_photo, installer, path, photo, rate) for _ in range(PHONES)]
        while not all(one.done() for one in sent):
            slowest, seen = max(slowest, reader.waited()), seen + 1
        assert seen > 1
        return slowest, [one.result() for one in sent]


def test_silent_and_slow_connections_keep_nobody_waiting(address):
    """40 silent sockets, 20 half requests, 8 slow phones, a print: a page under 1 s or 5 calm ones.

    Whoever is held by a silent one waits for as long as it may be silent: ten times that.
    """
    calm = Visitor(address).sign_in("designer").calm()
    slowest, answers = _others_wait(address, weight=50_000, rate=25_000)
    assert answers == [302] * PHONES
    assert slowest < max(PATIENCE, 5 * calm) * max(crowded(), 1)


def test_a_head_is_answered_without_a_body(address):
    """RFC 9110, 9.3.2: what follows on the same connection is the next answer, not a body."""
    where = urlsplit(address)
    ask = "{} /sign-in/ HTTP/1.1\r\nHost: {}\r\n{}\r\n"
    with socket.create_connection((where.hostname, where.port), timeout=10) as line:
        line.sendall(ask.format("HEAD", where.netloc, "").encode())
        line.sendall(ask.format("GET", where.netloc, "Connection: close\r\n").encode())
        answers = b"".join(iter(lambda: line.recv(65536), b""))
    head, _gap, rest = answers.partition(b"\r\n\r\n")
    assert re.search(rb"Content-Length: [1-9]", head)
    assert rest.startswith(b"HTTP/1.1 200 ")
    assert b"<html" in rest


def test_nobody_else_on_the_machine_reads_the_data(address, folder):
    """The data folder and the database are open to their owner only."""
    assert folder.stat().st_mode & 0o077 == 0
    kept = [file for file in folder.iterdir() if file.is_file()]
    assert {"undertrim.sqlite3", "secret_key"} <= {file.name for file in kept}
    assert [file.name for file in kept if file.stat().st_mode & 0o077] == []


@pytest.mark.long
def test_photos_of_a_megabyte_over_a_poor_line_arrive(address):
    """The same with 1 MB at 0.2 Mbit/s each: 40 s, longer than a server may think."""
    slowest, answers = _others_wait(address, weight=1_000_000, rate=25_000)
    assert answers == [302] * PHONES
    assert slowest < PATIENCE * max(crowded(), 1)
