"""How sign-ins are kept: as Django keeps them, with whose they are, on what and from where."""

from __future__ import annotations

import datetime as dt
from typing import Any, cast

from django.contrib.auth import SESSION_KEY
from django.contrib.sessions.backends.base import UpdateError
from django.contrib.sessions.backends.db import SessionStore as TableStore
from django.db import OperationalError
from django.http import HttpRequest
from django.utils import timezone

from jobs.models import Session
from jobs.room import is_out_of_room

# What the session itself carries; `seen` is renewed at most this often, for it is a write.
DEVICE, ADDRESS, BEGAN, SEEN = "device", "address", "began", "seen"
SEEN_EVERY = dt.timedelta(minutes=10)


class SessionStore(TableStore):
    """Django's sessions in a table of our own."""

    @classmethod
    def get_model_class(cls) -> type[Session]:
        """Return the table."""
        return Session

    def save(self, must_create: bool = False) -> None:
        """Keep it; where the disk is full a page is read all the same, and seen is not noted."""
        try:
            super().save(must_create)
        except UpdateError as error:
            why = error.__context__
            if isinstance(why, OperationalError) and not is_out_of_room(why):
                raise why from why.__cause__
            if not is_out_of_room(why):
                raise

    def create_model_instance(self, data: dict[str, Any]) -> Session:
        """Write beside the session what its owner wants to know of it."""
        row = cast(Session, super().create_model_instance(data))
        row.user_id = int(data[SESSION_KEY]) if SESSION_KEY in data else None
        row.device, row.address = data.get(DEVICE, ""), data.get(ADDRESS)
        row.began_at = _moment(data.get(BEGAN))
        row.seen_at = timezone.now()
        return row


def _moment(seconds: float | None) -> dt.datetime | None:
    return None if seconds is None else dt.datetime.fromtimestamp(seconds, dt.UTC)


def begin(request: HttpRequest) -> None:
    """Note where a session began, once somebody has signed in."""
    now = timezone.now().timestamp()
    request.session.update(
        {
            DEVICE: device(request.headers.get("User-Agent", "")),
            ADDRESS: request.META.get("REMOTE_ADDR") or None,
            BEGAN: now,
            SEEN: now,
        }
    )
    Session.objects.filter(expire_date__lt=timezone.now()).delete()


def renew(request: HttpRequest) -> None:
    """Note that the session is in use, unless that was noted a moment ago."""
    now, seen = timezone.now().timestamp(), request.session.get(SEEN)
    if seen is not None and now - seen > SEEN_EVERY.total_seconds():
        request.session[ADDRESS] = request.META.get("REMOTE_ADDR") or None
        request.session[SEEN] = now


def device(agent: str) -> Session.Device:
    """Tell a phone from a tablet and a computer, as far as browsers say so.

    Source: MDN, Browser detection using the user agent: "Mobi" marks what is held in a hand.
    """
    if "Mobi" in agent:
        return Session.Device.PHONE
    return (
        Session.Device.TABLET
        if "Android" in agent or "Tablet" in agent
        else Session.Device.COMPUTER
    )
