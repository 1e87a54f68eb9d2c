"""Decisions stored under words are matched once; whatever is not certain asks again."""

from __future__ import annotations

import hashlib

import pytest
from django.core.management import call_command

from jobs.apps import finish_upgrade
from jobs.design.job.whole import load, work_out
from jobs.models import Decision, Job, Panel, PowerNode, User

pytestmark = pytest.mark.django_db


def _job() -> Job:
    return Job.objects.get(number=417)


def _findings():
    return work_out(load(_job())).findings


def _former(code: str, where: str, severity: str, value: str = "None", limit: str = "None"):
    """A decision as it was stored while a finding was known by its words."""
    text = f"{code}|{where}|{value}|{limit}|{severity}"
    user = User.objects.first()
    return Decision.objects.create(
        job=_job(),
        code=code,
        where=where,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        said="as it was said",
        severity=severity,
        reason="a reason that was good enough",
        decided_by=user,
        name=user.full_name,
    )


def _upgrade() -> None:
    """Finish an upgrade, as the last step of `migrate` does."""
    finish_upgrade(using="default")


def _open(code: str):
    return [one for one in _findings() if one.code == code and one.is_open]


def _load(name: str) -> PowerNode:
    return PowerNode.objects.create(job=_job(), kind=PowerNode.Kind.LOAD, name=name)


def test_a_decision_that_fits_one_finding_holds(hatchback):
    """Of a panel, of a power node, and of one whose name held a number that was taken out."""
    panel = Panel.objects.create(job=_job(), name="Door card")
    plain, numbered = _load("Pump"), _load("Fan #2")
    kept = [
        _former("airbag-unknown", "Door card", "look"),
        _former("load-without-source", "Pump", "stop"),
        _former("load-without-source", "Fan", "stop"),
    ]
    call_command("migrate", verbosity=0)
    held = {one.decision.pk: one.about for one in _findings() if one.decision}
    for decision, row in zip(kept, (panel, plain, numbered), strict=True):
        assert held[decision.pk].key == str(row.pk)
        decision.refresh_from_db()
        assert (decision.about_kind, decision.about_key) == (row._meta.model_name, str(row.pk))


def test_figures_are_matched_as_they_were_printed(hatchback):
    """A look with a value and a limit holds for the same figures, and asks again for others."""
    one = next(one for one in _findings() if one.code == "measured-differs-from-catalogue")

    def now():
        return next(finding for finding in _findings() if finding.key == one.key)

    where = f"{one.name} · qms"  # the calculator's own word, as it was kept
    same = _former(one.code, where, "look", f"{one.value:.4g}", f"{one.limit:.4g}")
    _upgrade()
    assert now().decision == same
    Decision.objects.filter(job=_job()).delete()
    _former(one.code, where, "look", "1", f"{one.limit:.4g}")
    _upgrade()
    assert now().is_open


@pytest.mark.parametrize("names", [("Pump", "Pump"), ("Pump #1", "Pump #2")])
def test_a_decision_that_fits_two_findings_asks_again(hatchback, names):
    """Nobody knows which of two equal names was meant: both are open."""
    before = len(_open("load-without-source"))
    decision = _former("load-without-source", "Pump", "stop")
    for name in names:
        _load(name)
    _upgrade()
    assert len(_open("load-without-source")) == before + 2
    decision.refresh_from_db()
    assert (decision.about_kind, decision.fingerprint) == ("", "")


def test_what_was_not_matched_is_never_tried_again(hatchback):
    """A decision that asked again does not come back for a finding that appears later."""
    _former("load-without-source", "Pump", "stop")
    _upgrade()
    before = len(_open("load-without-source"))
    _load("Pump")
    _upgrade()
    assert len(_open("load-without-source")) == before + 1


def test_a_matched_decision_follows_its_record(hatchback):
    """After the match a new name keeps the decision, and an equal name gets none."""
    row = _load("Pump")
    decision = _former("load-without-source", "Pump", "stop")
    _upgrade()
    PowerNode.objects.filter(pk=row.pk).update(name="Water pump")
    _load("Pump")
    decided = [one for one in _findings() if one.decision == decision]
    assert [one.about.key for one in decided] == [str(row.pk)]


def test_the_board_counts_anew(hatchback):
    """What asks again is counted at once."""
    _former("load-without-source", "Pump", "stop")
    _load("Pump")
    _load("Pump")
    _upgrade()
    assert _job().open_stops == len(work_out(load(_job())).open_stops)
