"""Nothing personal in logs, addresses or printed codes; files are their owner's alone."""

from __future__ import annotations

import logging
import re
import stat
from urllib.parse import unquote

import pytest
from django.core.files.base import ContentFile
from django.urls import URLPattern, get_resolver, reverse

from jobs.models import Photo, Workshop
from jobs.sheets import codes

pytestmark = pytest.mark.django_db
NAME, PHONE, PLATE = "Hanna Lind", "000 555 0100", "ZQ 417 X"
# What an address may hold: numbers, the code of a job, and words of the app's own.
OF_ADDRESSES = {
    *("code", "pk", "version", "label", "token", "kind", "key", "handle", "number"),
    *("section", "finding"),
    "slug",  # which test signal
}


def _parts(patterns) -> set[str]:
    found: set[str] = set()
    for one in patterns:
        if isinstance(one, URLPattern):
            found |= set(one.pattern.converters)
        else:
            found |= _parts(one.url_patterns)
    return found


def test_no_address_is_made_of_a_persons_words():
    """Jobs, records and people are named by numbers."""
    parts = _parts(get_resolver().url_patterns)
    assert parts
    assert parts <= OF_ADDRESSES


def test_links_of_a_jobs_pages_name_nobody(hatchback, browse):
    """Neither name, telephone nor plate stands in an address on any page."""
    hatchback.job.vehicle.plate = PLATE
    hatchback.job.vehicle.save()
    client, seen = browse("manager"), 0
    for name in ("board", "job", "brief", "customer", "customer-data", "history", "bay", "sheets"):
        url = reverse(name, args=[] if name == "board" else [hatchback.code])
        html = client.get(url).content.decode()
        links = re.findall(r'(?:href|src|action|hx-(?:get|post))="([^"]*)"', html)
        seen += len(links)
        for link in map(unquote, links):
            assert not [word for word in ("Hanna", "Lind", PHONE, PLATE) if word in link], link
    assert seen > 100


def test_the_log_names_nobody(hatchback, browse, caplog):
    """What is not found, not allowed or looked for is logged without what was typed."""
    client = browse("installer")
    with caplog.at_level(logging.DEBUG):
        assert client.get(reverse("search"), {"q": NAME}).status_code == 200
        assert client.get("/nowhere/", {"q": NAME}).status_code == 404
        assert client.get(reverse("customer-data", args=[hatchback.code])).status_code == 403
        assert client.get(reverse("customer", args=[hatchback.code])).status_code == 200
        sent = {"name": NAME, "phone": PHONE}
        assert client.post(reverse("customer", args=[hatchback.code]), sent).status_code == 403
    of_requests = [one.getMessage() for one in caplog.records if one.name.startswith("django.req")]
    assert len(of_requests) == 3
    # What the database is asked is not logged outside a test.
    said = [one.getMessage() for one in caplog.records if not one.name.startswith("django.db")]
    assert not [line for line in said if "Hanna" in line or PHONE in line]


def test_a_printed_code_holds_the_address_of_a_run_and_nothing_else(hatchback):
    """The code on a cable names workshop, job and run."""
    run = hatchback.main_run
    path = reverse("run", args=[hatchback.code, run.label])
    address = codes.address(Workshop.current(), path)
    assert address == f"http://workshop.invalid/jobs/{hatchback.code}/cable/{run.label}/"


def test_what_a_person_sends_is_kept_for_its_owner_alone(hatchback, cast, tmp_path, settings):
    """Files 0600, folders 0700."""
    settings.MEDIA_ROOT = tmp_path / "media"
    files = {name: ContentFile(b"x", "x.jpg") for name in ("image", "small", "original")}
    Photo.objects.create(job=hatchback.job, panel=hatchback.sill, taken_by=cast.installer, **files)
    kept = list((tmp_path / "media").rglob("*"))
    assert len([path for path in kept if path.is_file()]) == 3
    for path in [tmp_path / "media", *kept]:
        mode = stat.S_IMODE(path.stat().st_mode)
        assert mode == (0o700 if path.is_dir() else 0o600), path
