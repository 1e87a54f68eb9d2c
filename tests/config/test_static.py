"""Style, script and fonts are kept by a browser for good, under names that carry their hash."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.core.management import call_command
from django.test import Client, override_settings

from config import settings as ours
from config.server import NOT_SERVED
from jobs.pages.middleware import POLICY

HASHED = re.compile(r"\.[0-9a-f]{12}\.")


@pytest.fixture(scope="module")
def gathered(tmp_path_factory) -> Iterator[Path]:
    """The files as the server gathers them when it starts."""
    folder = tmp_path_factory.mktemp("static")
    with override_settings(STORAGES=ours.STORAGES, STATIC_ROOT=folder):
        call_command("collectstatic", interactive=False, verbosity=0, ignore_patterns=NOT_SERVED)
        yield folder


@pytest.mark.django_db
def test_every_file_a_page_asks_for_carries_its_hash_and_is_kept_a_year(gathered):
    """Style sheets, fonts, scripts, pictures, compressed where the browser takes it; so does what
    they name: a new version of one module is never mixed with an old one of another.
    """
    client = Client()
    html = client.get("/sign-in/").content.decode()
    asked = set(re.findall(r'(?:href|src)="(/static/[^"#]+)', html))
    assert len(asked) > 8
    assert [name for name in asked if not HASHED.search(name)] == []
    for name in asked:
        answer = client.get(name, headers={"Accept-Encoding": "gzip"})
        answer.close()
        assert answer.status_code == 200, name
        assert "no-store" not in answer.headers["Cache-Control"]
        assert answer.headers["Content-Security-Policy"] == POLICY
        assert "immutable" in answer.headers["Cache-Control"], name
        assert int(re.findall(r"max-age=(\d+)", answer.headers["Cache-Control"])[0]) >= 31_536_000
    (script,) = (file for file in gathered.glob("jobs/js/app.*.js"))
    imports = re.findall(r'from "(\./[^"]+)"', script.read_text())
    assert len(imports) > 5
    assert [name for name in imports if not HASHED.search(name)] == []
    (fonts,) = (file for file in gathered.glob("jobs/css/fonts.*.css"))
    named = re.findall(r'url\("([^"]+)"\)', fonts.read_text())
    assert named
    assert [name for name in named if not HASHED.search(name)] == []
    for name in imports:
        assert (script.parent / name).is_file()
