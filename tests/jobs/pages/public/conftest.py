"""An installation with a public address, and somebody who comes by it."""

from __future__ import annotations

import pytest
from django.test import Client

HOST = "panels.example"


@pytest.fixture
def public(settings) -> str:
    """An installation with a public address."""
    settings.PUBLIC, settings.PUBLIC_HOST = f"https://{HOST}", HOST
    settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, HOST]
    return settings.PUBLIC


@pytest.fixture
def outside() -> Client:
    """Somebody who comes by the public name."""
    return Client(headers={"host": HOST})
