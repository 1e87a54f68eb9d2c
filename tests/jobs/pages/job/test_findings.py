"""Who may let a finding stand, for how long, and that the page prints it."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import Decision, Run

pytestmark = pytest.mark.django_db
REASON = "Measured twice on the bench; the customer agreed in writing."


def _findings(saloon):
    return work_out(load(saloon.job)).findings


def _open(saloon, severity):
    return next(one for one in _findings(saloon) if one.severity == severity and one.is_open)


def _decide(saloon, finding, **changed):
    url = reverse("decide", args=[saloon.code, finding.key])
    return url, {"fingerprint": finding.fingerprint, "reason": REASON} | changed


def _make_a_stop(saloon):
    """Take the length from the power run: unknown is a stop."""
    Run.objects.filter(pk=saloon.main_run.pk).update(length=None)
    return _open(saloon, "stop")


def test_a_look_is_accepted_by_name_with_a_reason(saloon, browse, cast):
    """A consultant accepts; name and reason stand on the page; an installer may not."""
    look = _open(saloon, "look")
    url, sent = _decide(saloon, look)
    assert browse("stranger").get(url).status_code == 404
    assert browse("installer").get(url).status_code == 403
    assert browse("installer").post(url, sent).status_code == 403
    client = browse("consultant")
    assert client.put(url).status_code == 405
    assert client.get(url).status_code == 200
    short = client.post(url, sent | {"reason": "fine"})
    assert short.status_code == 422
    assert ">\nfine</textarea>" in short.content.decode()
    assert 'id="id_reason_error"' in short.content.decode()
    word = client.post(url, sent | {"reason": "okokokok okokokok"})
    assert word.status_code == 422
    page = client.post(url, sent, follow=True).content.decode()
    assert REASON in page
    assert cast.consultant.full_name in page
    assert f">{look.code}<" not in page
    assert look.key not in {one.key for one in _findings(saloon) if one.is_open}


def test_a_stop_is_released_by_the_manager_only(saloon, browse, cast):
    """Consultant and designer are refused; the manager's reason is printed."""
    url, sent = _decide(saloon, _make_a_stop(saloon))
    for name in ("consultant", "designer", "installer"):
        assert browse(name).get(url).status_code == 403
        assert browse(name).post(url, sent).status_code == 403
    assert not Decision.objects.filter(severity="stop").exists()
    page = browse("manager").post(url, sent, follow=True).content.decode()
    assert REASON in page
    assert cast.manager.full_name in page
    assert "released stop" in page
    decision = Decision.objects.get(severity="stop")
    withdraw = reverse("decision-withdraw", args=[saloon.code, decision.pk])
    assert browse("consultant").post(withdraw).status_code == 403
    assert browse("manager").get(withdraw).status_code == 405
    assert browse("manager").post(withdraw).status_code == 302
    restore = reverse("decision-restore", args=[saloon.code, decision.pk])
    assert browse("designer").post(restore).status_code == 403
    assert not Decision.objects.filter(severity="stop").exists()


def test_a_decision_dies_with_its_figures(saloon, browse):
    """The accepted look asks again once the figure it was accepted for has changed."""
    look = next(one for one in _findings(saloon) if one.code == "port-noisy")
    url, sent = _decide(saloon, look)
    browse("consultant").post(url, sent)
    (accepted,) = (one for one in _findings(saloon) if one.decision)
    assert accepted.key == look.key
    saloon.job.boxes.update(test_voltage=14.0)
    saloon.job.channels.update(level=-1.0)
    saloon.job.boxes.update(port_diameter=0.06)
    again = [one for one in _findings(saloon) if one.code == accepted.code]
    assert again
    assert all(one.is_open for one in again)


def test_a_decision_on_old_figures_is_not_taken(saloon, browse):
    """Whoever read other figures than stand now is told to read again, and the reason is kept."""
    url, sent = _decide(saloon, _open(saloon, "look"), fingerprint="0" * 64)
    answer = browse("consultant").post(url, sent)
    assert answer.status_code == 422
    assert "The figures changed while you were reading" in answer.content.decode()
    assert REASON in answer.content.decode()
    gone = browse("consultant").get(reverse("decide", args=[saloon.code, "0" * 16]))
    assert gone.status_code == 302


def test_one_decision_stands_at_a_time(saloon, browse):
    """A withdrawn decision does not stand up beside a newer one, to be left when that goes."""
    client = browse("consultant")
    look = next(one for one in _findings(saloon) if one.code == "port-noisy")
    url, sent = _decide(saloon, look)
    client.post(url, sent)
    first = Decision.objects.get(job=saloon.job)
    client.post(reverse("decision-withdraw", args=[saloon.code, first.pk]))
    client.post(url, sent)
    newer = Decision.objects.get(job=saloon.job)
    client.post(reverse("decision-restore", args=[saloon.code, first.pk]))
    assert Decision.objects.get(job=saloon.job) == newer
    client.post(reverse("decision-withdraw", args=[saloon.code, newer.pk]))
    assert next(one for one in _findings(saloon) if one.key == look.key).is_open
    client.post(reverse("decision-restore", args=[saloon.code, newer.pk]))
    assert not next(one for one in _findings(saloon) if one.key == look.key).is_open
