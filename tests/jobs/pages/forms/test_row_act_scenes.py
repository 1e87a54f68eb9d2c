"""What becomes of several rows at once, and what is said of it, is what was let stand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.http import HttpResponse, QueryDict
from django.urls import resolve, reverse

from jobs.models import Job, Panel
from jobs.pages.forms.route_field import RouteField
from jobs.pages.forms.row_acts import _next, _route, _token
from tests.approval import figures, hold
from tests.told import row

pytestmark = pytest.mark.django_db

KINDS = ("run", "channel", "ground", "node", "panel", "step", "item", "fixing")
# Each act is asked for by a page of its own.
TOKEN = "6f0b8f9e-0d58-4b1c-9f5f-3d0f3d0f3d0f"
TOKENS = {"copy": TOKEN, "other-side": TOKEN[::-1]} | dict.fromkeys(("remove", "restore"), "")
KEYS = re.compile(r"\d+(?=[,/]|$)")


def said(answer: HttpResponse) -> Iterator[str]:
    """Yield what a page that follows will say of what was done just now, and how it is undone."""
    for message in answer.wsgi_request._messages._queued_messages:
        undo = KEYS.sub("#", message.extra_tags or "").replace("#,", "")
        yield f"{message.level_tag}: {message} {undo}".strip()


def _rows(job: Job, slug: str) -> list[Any]:
    kind = resolve(reverse(f"{slug}-rows", args=[job.code])).func.keywords["kind"]
    return list(kind.model.objects.filter(job=job).order_by("pk"))


@pytest.mark.parametrize("slug", KINDS)
def test_rows_are_copied_mirrored_removed_and_brought_back_as_was_let_stand(
    slug, hatchback, browse
):
    """Every row of a kind at once; asked twice from the same page it is made once."""
    client, job = browse("manager"), hatchback.job
    url, before = reverse(f"{slug}-rows", args=[job.code]), _rows(job, slug)
    keys = [str(kept.pk) for kept in before]
    told: dict[str, Any] = {"rows": row(*map(str, before))}
    for name in ("copy", "other-side", "other-side", "remove", "remove", "restore", "restore"):
        number = f"{len(told)} {name}"
        answer = client.post(url, {"act": name, "rows": keys, "token": TOKENS[name]})
        assert answer.status_code == 302
        new = [kept for kept in _rows(job, slug) if kept not in before]
        told[number] = {"said": list(said(answer)), "new": row(*map(str, new))}
    few = client.post(f"{url}?act=remove&rows={','.join(keys[:2])}", {"act": "copy"})
    told["two by the address"] = list(said(few))
    told["none"] = list(said(client.post(url, {"act": "copy", "rows": ["", "x"]})))
    told["of nowhere"] = list(said(client.post(url, {"act": "copy", "rows": "999999"})))
    assert client.post(url, {"act": "dance", "rows": keys}).status_code == 404
    hold(f"row-acts/{slug}", figures(told))


def test_a_copy_counts_on_from_the_highest(hatchback):
    """The next number of its device, of the whole job, or none where the row has none."""
    job = hatchback.job
    kind = resolve(reverse("channel-rows", args=[job.code])).func.keywords["kind"]
    bass = hatchback.bass
    of = {name: _next(kind, job, bass, name, within) for name, within in kind.counted.items()}
    channels = job.channels.all()
    assert of == {
        "position": str(max(c.position for c in channels) + 1),
        "processor_output": str(
            max(c.processor_output for c in channels if c.processor == bass.processor) + 1
        ),
        "amplifier_channel": str(
            max(c.amplifier_channel for c in channels if c.amplifier == bass.amplifier) + 1
        ),
    }
    bass.amplifier_channel = None
    assert _next(kind, job, bass, "amplifier_channel", "amplifier") == ""


def test_the_same_page_asks_for_the_same_row(hatchback):
    """One token and one row make one key; without a token each time is another."""
    bass, tweeter = hatchback.bass, hatchback.tweeter_left
    assert _token(TOKEN, bass) == _token(TOKEN, bass) != _token(TOKEN, tweeter)
    assert _token("", bass) != _token("", bass)


def test_a_route_crosses_the_car_as_was_let_stand():
    """A panel for its counterpart, or its name in words where nobody entered that."""
    field = RouteField()
    names = {1: "Sill, left", 2: "Sill, right", 3: "Left door", 4: "Boot floor"}
    field.offer([Panel(pk=key, name=name) for key, name in names.items()])
    sent = QueryDict(
        "r-panel=1&r-panel=2&r-panel=3&r-panel=4&r-panel=&r-panel=3"
        "&r-place=&r-place=front&r-place=&r-place=left+corner&r-place=under+the+right+seat"
        "&r-place=left+edge"
    )
    over = _route(field, "r", {name: sent.getlist(name) for name in sent})
    hold("row-acts/route", figures({name: row(cells) for name, cells in over.items()}))
