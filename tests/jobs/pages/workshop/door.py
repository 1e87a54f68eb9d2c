"""Coming in by the door, with a password, as a browser does."""

from __future__ import annotations

from django.test import Client
from django.urls import reverse

PASSWORD = "trim-panel-19"


def enter(username: str, password: str, *, agent: str = "", address: str = "10.0.0.7") -> Client:
    """Return the browser of somebody who has just given their password."""
    client = Client(headers={"user-agent": agent}, REMOTE_ADDR=address)
    client.post(reverse("login"), {"username": username, "password": password})
    return client
