"""What can hurt behind a panel is unknown until somebody says; nobody ticks before it is read."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.design.job.whole import load, work_out
from jobs.models import CautionRead, Panel
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db
UNKNOWN = {"glass-unknown", "drilling-unknown", "airbag-unknown"}


def _codes(scene) -> set[str]:
    return {finding.code for finding in work_out(load(scene.job)).findings} & UNKNOWN


def test_nobody_looked_is_a_finding_and_a_caution_and_never_a_no(hatchback, browse):
    """It bars nothing by itself, but the panel has to be read about; an answer ends it."""
    panel, client = hatchback.boot_floor, browse("installer")
    bay = reverse("bay", args=[hatchback.code])
    assert not _codes(hatchback)
    Panel.objects.filter(pk=panel.pk).update(**dict.fromkeys(Panel.DANGERS))
    panel.refresh_from_db()
    assert panel.has_cautions
    assert _codes(hatchback) == UNKNOWN
    assert "Nobody has written down whether something is drilled here, or" in read(client, bay)
    there = reverse("bay-looked", args=[hatchback.code, panel.pk])
    for what in Panel.DANGERS:
        client.post(there, {"what": what, "there": "0"})
    panel.refresh_from_db()
    assert not panel.has_cautions
    assert not _codes(hatchback)
    assert panel.history.first().history_user.username == "ina"
    client.post(there, {"what": "glass_near", "there": "1"})
    assert "gloves and eye protection" in read(client, bay)


@pytest.mark.parametrize("sent", [{}, {"what": "name", "there": "1"}, {"what": "drilled"}])
def test_what_is_no_answer_changes_nothing(hatchback, browse, sent):
    """Neither another field of the panel nor an empty answer is taken."""
    client, panel = browse("installer"), hatchback.boot_floor
    answer = client.post(reverse("bay-looked", args=[hatchback.code, panel.pk]), sent, follow=True)
    assert [str(told) for told in answer.context["messages"]] == ["Not known here."]
    before = (panel.name, panel.drilled, panel.version)
    panel.refresh_from_db()
    assert (panel.name, panel.drilled, panel.version) == before


def test_an_answer_comes_without_signal_too(hatchback, browse, cast):
    """It waits on the phone like a tick, and is known as an act."""
    panel, now = hatchback.boot_floor, timezone.now().isoformat()
    Panel.objects.filter(pk=panel.pk).update(glass_near=None)
    act = {"author": cast.installer.pk, "kind": "looked", "sent": now, "at": now}
    act |= {"panel": panel.pk, "what": "glass_near", "there": "1"}
    url, client = reverse("bay-acts", args=[hatchback.code]), browse("installer")
    assert client.post(url, act | {"key": str(uuid.uuid4())}).status_code == 200
    panel.refresh_from_db()
    assert panel.glass_near is True
    wrong = act | {"what": "name", "key": str(uuid.uuid4())}
    assert client.post(url, wrong).status_code == 422


def test_cautions_of_the_car_are_read_once_a_day_by_a_person(hatchback, browse, cast):
    """On another device they are folded; on another day, or for another person, they open."""
    url, bay = (reverse(name, args=[hatchback.code]) for name in ("bay-read", "bay"))
    client = browse("installer")
    assert not client.get(bay).context["cautions_read"]
    for _twice in range(2):
        assert client.post(url).status_code == 302
    assert CautionRead.objects.filter(job=hatchback.job, panel=None).count() == 1
    another_device = Client()
    another_device.force_login(cast.installer)
    assert another_device.get(bay).context["cautions_read"]
    assert not browse("designer").get(bay).context["cautions_read"]
    yesterday = timezone.localdate() - dt.timedelta(days=1)
    CautionRead.objects.filter(panel=None).update(read_on=yesterday)
    assert not client.get(bay).context["cautions_read"]
