"""Log lines: one for each answer, JSON, and nothing in them that is about a person."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import IntegrityError
from django.test import Client
from django.urls import reverse

from jobs.logs import JsonLines
from jobs.models import Customer

PERSONAL = (
    "Zacharias",
    "zacharias@example.org",
    "000 555 0199",
    "XY-Z 123",
    "wrongpassword",
    "Cora Sell",
)


@pytest.fixture
def lines() -> Iterator[Any]:
    """What is written to the log, as it is written where the app runs."""
    written = io.StringIO()
    handler = logging.StreamHandler(written)
    handler.setFormatter(JsonLines())
    root, house = logging.getLogger(), logging.getLogger("jobs.logs")
    levels = root.level, house.level
    root.addHandler(handler)
    root.setLevel("INFO")
    house.setLevel("INFO")
    yield lambda: [json.loads(line) for line in written.getvalue().splitlines()]
    root.removeHandler(handler)
    root.setLevel(levels[0])
    house.setLevel(levels[1])


def _answers(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [line for line in lines if line["logger"] == "jobs.logs"]


def test_each_answer_is_one_line(hatchback, cast, browse, lines):
    """Time, level, number of the request, method, route, status, milliseconds, key of who asked."""
    answer = browse("designer").get(reverse("boxes", args=[hatchback.code]))
    (line,) = _answers(lines())
    assert set(line) == {
        *("time", "level", "logger", "request", "method", "route", "status", "ms", "user"),
    }
    assert line["request"] == answer.headers["X-Request-Id"]
    assert (line["method"], line["route"], line["status"]) == ("GET", "boxes", 200)
    assert line["user"] == cast.designer.pk
    assert line["ms"] > 0
    assert line["level"] == "info"


def test_a_stranger_has_no_key_and_an_unknown_address_no_route(db, lines):
    """What is not known is not made up."""
    Client().get("/nowhere/Zacharias/")
    Client().get("/sign-in/")
    nowhere, sign_in = _answers(lines())
    assert (nowhere["route"], nowhere["status"]) == ("", 404) or nowhere["status"] == 302
    assert (sign_in["route"], sign_in["user"]) == ("login", None)


def test_nothing_personal_is_written(hatchback, cast, browse, lines, monkeypatch):
    """Searched, typed, refused, guessed at the door, broken: no name, no number, no address."""
    client = browse("consultant")
    Customer.objects.create(name="Zacharias", email="zacharias@example.org", phone="000 555 0199")
    client.get(reverse("search"), {"q": "Zacharias"})
    client.get(reverse("customers"), {"known_customer": "Zacharias"})
    client.get("/jobs/Zacharias/")
    client.get("/catalogue/\0Zacharias")
    client.post(reverse("new-job"), {"new_customer": "Zacharias", "plate": "XY-Z 123"})
    door = Client(raise_request_exception=False, HTTP_USER_AGENT="Zacharias")
    for _guess in range(12):
        door.post(reverse("login"), {"username": "zacharias", "password": "wrongpassword"})
    door.get("/sign-in/", headers={"Host": "zacharias.example.org"})
    Client(enforce_csrf_checks=True).post(reverse("login"), {"username": "Zacharias"})

    def broken(*_given: object) -> None:
        message = "DETAIL: Key (name)=(Zacharias, zacharias@example.org) already exists."
        raise IntegrityError(message)

    monkeypatch.setattr("jobs.pages.job.job_page.strip.steps", broken)
    client.raise_request_exception = False
    assert client.get(reverse("job", args=[hatchback.code])).status_code == 500
    written = lines()
    assert len(_answers(written)) >= 17
    failed = [line for line in written if "error" in line]
    assert [line["error"] for line in failed if "IntegrityError" in line["error"]]
    assert any("jobs/pages/job/job_page.py" in place for line in failed for place in line["at"])
    text = json.dumps(written, ensure_ascii=False)
    assert [word for word in PERSONAL if word.lower() in text.lower()] == []


def test_lines_of_one_request_carry_its_number(db, lines, monkeypatch):
    """An error is found by the number its answer carries."""

    def wrong() -> None:
        message = "a bug"
        raise ValueError(message)

    monkeypatch.setattr("jobs.pages.middleware.Workshop.read", wrong)
    answer = Client(raise_request_exception=False).get("/sign-in/")
    written = lines()
    assert {line["request"] for line in written} == {answer.headers["X-Request-Id"]}
    assert [line["level"] for line in _answers(written)] == ["error"]
    assert [line["error"] for line in written if "error" in line] == ["builtins.ValueError"]
