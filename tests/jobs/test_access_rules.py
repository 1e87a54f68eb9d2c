"""Who may open and who may send to every address of the app; an address without a rule fails."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from django.db import transaction
from django.template import Template
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse
from django.utils import timezone

from jobs import models
from jobs.design.job import board_counts
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import Job
from jobs.options import keep
from jobs.pages.forms import strip
from jobs.sheets.printing import orders as print_orders
from tests.jobs import factories
from tests.jobs.access_rules import (
    APART,
    EVERY,
    INSTALLER,
    MANAGER,
    MANAGES,
    PUBLIC,
    RULES,
    Rule,
)
from tests.jobs.addressed import a_session, somebody
from tests.jobs.offers import make_offer
from tests.jobs.pages.kinds import KINDS
from tests.jobs.shelf import Shelf

pytestmark = pytest.mark.django_db


def _set_job(shelf: Shelf) -> Job:
    new = factories.make_job()
    item = models.EquipmentItem.objects.create(job=new, part=shelf["sub"], place="door")
    models.FactoryPart.objects.create(job=new, kind="speaker", place="door")
    models.Channel.objects.create(job=new, name="way", source="radio")
    for named in (models.Box, models.Ring, models.TrimPanel, models.GroundPoint):
        named.objects.create(job=new, name="invented")
    models.Offcut.objects.create(material=shelf["birch"], length=0.5, width=0.4)
    models.PartPicture.objects.create(part=models.Part.objects.first(), image=b"x")
    models.CarTemplate.objects.create(job=new, name="invented")
    models.WoodStep.objects.create(job=new, box=new.boxes.get(), kind="cut")
    models.PowerNode.objects.create(job=new, kind="load", name="fan")
    models.Run.objects.create(job=new, kind="P", number=1)
    models.LoomJoin.objects.create(job=new, connector="radio")
    panel = models.Panel.objects.create(job=new, name="door card")
    models.PanelStep.objects.create(job=new, panel=panel, text="look")
    factories.make_fixing(panel, "clip")
    by = somebody(INSTALLER)
    factories.make_run_as_built(new.runs.get(), by)
    factories.make_part_as_built(new.factory_parts.get(), by)
    factories.make_item_as_built(item, by)
    models.DampingLayer.objects.create(job=new, panel=panel, part=shelf["damping"], where="skin")
    models.PanelContent.objects.create(job=new, panel=panel, description="felt")
    models.Measurement.objects.create(job=new, name="volts", kind="voltage")
    models.ServiceVisit.objects.create(
        job=new, day=dt.date(2026, 11, 20), reason="service", person=by
    )
    models.CableLot.objects.create(
        job=new, conductor=models.Conductor.objects.first(), number="L-1"
    )
    models.BayNote.objects.create(job=new, panel=panel, text="a scratch", written_by=by)
    read = {"measured_on": dt.date(2026, 11, 20), "measured_by": "somebody"}
    models.DriverSweep.objects.create(job=new, item=item, content="20 4 0", **read)
    models.BoxSweep.objects.create(job=new, box=new.boxes.first(), content="20 4 0", **read)
    models.BoxAsBuilt.objects.create(
        job=new, box=new.boxes.first(), measured_on=read["measured_on"], measured_by="somebody"
    )
    models.PriceLine.objects.create(job=new, text="delivery", each=40)
    keep(new, "as it is")
    models.Payment.objects.create(job=new, amount=10)
    models.WorkTime.objects.create(job=new, minutes=30)
    models.Conversation.objects.create(job=new, text="invented")
    models.Booking.objects.create(job=new, first_day=read["measured_on"])
    models.Bay.objects.create(name="invented")
    models.Intake.objects.create(job=new, body="estate")
    models.IntakeMark.objects.create(job=new, place="roof", noted_by=by, noted_at=timezone.now())
    models.Absence.objects.create(person=somebody(MANAGER), first_day=read["measured_on"])
    models.PartList.objects.create(name="invented", head=["name"], kind="other", sent_by=by)
    make_offer(new, somebody(MANAGER))
    models.ChannelSetting.objects.create(
        job=new, channel=new.channels.first(), set_on=read["measured_on"], set_by="somebody"
    )
    models.ChannelCurve.objects.create(job=new, place="seat", content="20 0 0", **read)
    models.TargetCurve.objects.create(job=new, name="ours", content="20 0 0")
    models.ProcessorFile.objects.create(
        job=new, processor=new.equipmentitems.first(), saved_on=read["measured_on"],
        saved_by="somebody", kept="processors/none", kept_name="a.bin", size=1,
    )  # fmt: skip
    models.CabinCurve.objects.create(job=new, place="boot", content="20 0 0", **read)
    return new


@pytest.fixture(scope="module")
def _job(_building, _shelf, _people) -> Job:
    _worked_out.cache_clear()  # a job of the same number may have been here before
    return _building(_set_job, _shelf)


@cache
def _worked_out(job: Job) -> JobDesign:
    return work_out(load(job))


@pytest.fixture
def job(db, _job, monkeypatch) -> Job:
    """A job with one plain row of each kind; nothing is printed or counted, which others test.

    Every request is taken back, so that the job need be worked out but once for all of them.
    """
    monkeypatch.setattr(print_orders, "carry_out", lambda order: None)
    monkeypatch.setattr(board_counts, "refresh", lambda job: None)
    monkeypatch.setattr(strip, "worked_out", lambda request, job: _worked_out(job))
    monkeypatch.setattr(Template, "render", lambda self, context: "")
    return Job.objects.get(pk=_job.pk)


def _names(patterns: Any) -> Iterator[str]:
    for one in patterns:
        if isinstance(one, URLPattern):
            yield str(one.name)
        else:
            yield from _names(one.url_patterns)


def _url(name: str, rule: Rule, job: Job, code: str) -> str:
    args = rule.args(job)
    return reverse(name.split(" ")[0], args=[code, *args] if rule.of_a_job else args)


def _status(client: Client, method: str, url: str, sent: dict[str, str]) -> int:
    """What is answered; whatever it wrote is taken back, so that the next one finds it so too."""
    with transaction.atomic():
        answer = client.get(url) if method == "get" else client.post(url, sent)
        if answer.streaming:
            b"".join(answer)  # read to its end, a file is closed
        transaction.set_rollback(True)
    return answer.status_code


def test_every_address_has_a_rule():
    """Whoever adds an address says here who may open it and who may send to it."""
    ruled = {name.split(" ")[0] for name in RULES} | APART | set(PUBLIC)
    assert set(_names(get_resolver().url_patterns)) == ruled
    assert {kind.slug for kind in KINDS} == {
        name.removesuffix("-add") for name in RULES if f"{name.removesuffix('-add')}-edit" in RULES
        and name.endswith("-add") and RULES[name].of_a_job
    }  # fmt: skip


@pytest.mark.parametrize("name", RULES)
def test_an_address_is_open_to_its_roles_only(job, browse, name):
    """Each role by each method: answered, or 403, 404, 405, or asked to sign in."""
    rule = RULES[name]
    url = _url(name, rule, job, job.code)
    wrong = {}
    members, strangers = {role: browse(role) for role in sorted(EVERY)}, browse("stranger")
    for method, may in (("get", rule.get), ("post", rule.post)):
        for role, client in members.items():
            status = _status(client, method, url, rule.sent)
            refused = {403, 404, 405} if role in may else {403} if may else {405}
            if (status in refused) == (role in may):
                wrong[method, role] = status
        status = _status(strangers, method, url, rule.sent)
        if status != (404 if may else 405):
            wrong[method, "stranger"] = status
        if (status := _status(Client(), method, url, rule.sent)) != 302:
            wrong[method, "signed out"] = status
    assert wrong == {}


@pytest.mark.parametrize("name", [name for name, rule in RULES.items() if rule.of_a_job])
def test_a_record_opens_through_its_own_job_only(job, browse, name):
    """A job that is not there is not found, nor is another job's record under this one.

    Asked by one of those who may: which job a record is in, no role decides.
    """
    rule = RULES[name]
    args = rule.args(job)
    codes = ["J-9999"]
    if args and isinstance(args[0], int):
        codes.append(factories.make_job().code)
    wrong, asked = {}, 0
    for code in codes:
        url = reverse(name.split(" ")[0], args=[code, *args])
        for method, may in (("get", rule.get), ("post", rule.post)):
            for role in sorted(may)[-1:]:
                status = _status(browse(role), method, url, rule.sent)
                asked += 1
                if status != 404:
                    wrong[method, role, code] = status
    assert wrong == {}
    assert asked


def test_nobody_ends_anothers_session(job, browse):
    """A session is found by its owner alone."""
    url = reverse("account-session-end", args=a_session(job))
    for role in [*sorted(EVERY - MANAGES), "stranger"]:
        assert browse(role).post(url).status_code == 404
    assert browse(MANAGER).get(url).status_code == 405
    assert browse(MANAGER).post(url).status_code == 302
    assert browse(MANAGER).post(url).status_code == 404
