"""What every answer carries, and what a stranger may do before signing in."""

from __future__ import annotations

from hashlib import sha256

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import IssuedSheet, SheetKind
from jobs.pages.middleware import POLICY

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    "path", ["/", "/jobs/J-0417/", "/jobs/J-0417/boxes/", "/nowhere/", "/style/"]
)
def test_every_answer_carries_the_policy_and_is_kept_by_nobody(hatchback, browse, path):
    """Pages, errors included, allow no script or style of their own and stay in no cache."""
    answer = browse("manager").get(path)
    assert answer.headers["Content-Security-Policy"] == POLICY
    assert answer.headers["Cache-Control"] == "private, no-store"


def test_the_policy_allows_nothing_within_a_page_and_nothing_from_elsewhere():
    """Neither inline script nor style, nor eval, nor another host."""
    assert "unsafe" not in POLICY
    assert "http" not in POLICY
    assert "default-src 'self'" in POLICY


def test_a_sheet_is_kept_by_nobody_on_the_way(hatchback, cast, browse):
    """A printed sheet is private too, draft or issued."""
    issued = IssuedSheet.objects.create(
        job=hatchback.job, kind=SheetKind.BUILD, revision=1, paper="a4", language="en", data={},
        pdf=b"%PDF-", sha256=sha256(b"%PDF-").hexdigest(), issued_by=cast.manager,
        issued_at="2026-11-28T10:00Z",
    )  # fmt: skip
    answer = browse("manager").get(reverse("sheet-issued", args=[hatchback.code, issued.pk]))
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "private, no-store"
    assert answer.headers["Content-Security-Policy"] == POLICY


def test_a_file_of_the_house_may_be_kept(client):
    """Style and script belong to nobody and need not be sent twice."""
    answer = client.get("/static/jobs/css/page.css")
    assert answer.status_code == 200
    assert b"".join(answer.streaming_content)  # read to its end, it closes itself
    assert "no-store" not in answer.headers["Cache-Control"]
    assert answer.headers["Content-Security-Policy"] == POLICY


def test_a_stranger_chooses_the_language(db):
    """The language of the sign-in page can be chosen on it."""
    client = Client()
    answer = client.post(
        reverse("set_language"), {"language": "de", "next": "/sign-in/"}, follow=True
    )
    assert answer.redirect_chain == [("/sign-in/", 302)]
    assert 'lang="de"' in answer.content.decode()


@pytest.mark.parametrize("elsewhere", ["https://example.org/", "//example.org/", "javascript:1"])
def test_choosing_a_language_leads_nowhere_else(db, elsewhere):
    """The way back after choosing a language stays in this app."""
    answer = Client().post(reverse("set_language"), {"language": "de", "next": elsewhere})
    assert answer.headers["Location"] == "/"
