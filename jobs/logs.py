"""Log lines a machine can read: one JSON object each, and nothing in it that is about a person.

Not the address (it holds numbers of jobs and what was searched for), not what was typed, not the
words of an error (a database quotes the row it refuses): the name of the route, the kind of the
error and where in the code it arose. Who asked is a number only the database turns into a name.
"""

from __future__ import annotations

import datetime as dt
import json
import logging
import secrets
import time
import traceback
from collections.abc import Callable
from contextvars import ContextVar
from pathlib import Path
from typing import Any

from django.http import HttpRequest, HttpResponse

HOUSE = str(Path(__file__).resolve().parent.parent) + "/"
MOST_FRAMES = 12
# Whose words are known to be about nobody.
OURS = ("jobs", "config")
METHODS = {"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"}
request_id: ContextVar[str] = ContextVar("request_id", default="")
logger = logging.getLogger(__name__)


class JsonLines(logging.Formatter):
    """Write a record as one line of JSON."""

    def format(self, record: logging.LogRecord) -> str:
        """Leave out what others put into a message: it may be about a person."""
        at = dt.datetime.fromtimestamp(record.created, dt.UTC)
        line: dict[str, Any] = {
            "time": at.isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
        }
        if identity := request_id.get():
            line["request"] = identity
        if record.name == __name__:
            line |= record.__dict__["answer"]
        elif record.name.startswith(OURS):
            line["says"] = record.getMessage()
        elif record.args:
            line["says"] = str(record.msg)  # what others say, without what they put into it
        if record.exc_info and record.exc_info[1] is not None:
            error = record.exc_info[1]
            line["error"] = f"{type(error).__module__}.{type(error).__qualname__}"
            line["at"] = _places(error)
        return json.dumps(line, ensure_ascii=False)


def _places(error: BaseException) -> list[str]:
    """Return where an error arose, innermost last: file, line and function, no values."""
    frames = traceback.extract_tb(error.__traceback__)[-MOST_FRAMES:]
    return [f"{frame.filename.removeprefix(HOUSE)}:{frame.lineno} {frame.name}" for frame in frames]


def logged(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """Give each request a number to find its lines by, and write one line when it is answered."""

    def answer(request: HttpRequest) -> HttpResponse:
        known = request_id.set(secrets.token_hex(8))
        began = time.perf_counter()
        try:
            response = get_response(request)
            response.headers["X-Request-Id"] = request_id.get()
            match = request.resolver_match
            says = {
                "method": request.method if request.method in METHODS else "other",
                "route": match.view_name if match else "",
                "status": response.status_code,
                "ms": round((time.perf_counter() - began) * 1000, 1),
                # As far as somebody asked already: to ask now may need a database that is gone.
                "user": getattr(getattr(request, "_cached_user", None), "pk", None),
            }
            level = logging.ERROR if response.status_code >= 500 else logging.INFO
            logger.log(level, "answered", extra={"answer": says})
            return response
        finally:
            request_id.reset(known)

    return answer
