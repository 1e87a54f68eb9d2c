"""Who may open and who may send to every address of the app; an address without a rule fails."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache
from hashlib import sha256
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.db import transaction
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse
from django.utils import timezone

from jobs import models
from jobs.design.job import board_counts
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import Job, User
from jobs.pages.forms import strip
from jobs.sheets import print_orders
from tests.jobs import factories
from tests.jobs.pages.kinds import KINDS
from tests.jobs.shelf import Shelf

pytestmark = pytest.mark.django_db

CONSULTANT, DESIGNER, INSTALLER, MANAGER = "consultant", "designer", "installer", "manager"
EVERY = {CONSULTANT, DESIGNER, INSTALLER, MANAGER}
DECIDES = EVERY - {INSTALLER}
PRICES = {CONSULTANT, MANAGER}
MANAGES = {MANAGER}


@dataclass(frozen=True, kw_only=True)
class Rule:
    """Which roles read an address and which send to it; none: there is no such method (405)."""

    get: set[str] = field(default_factory=set)
    post: set[str] = field(default_factory=set)
    # What stands in the address besides the code of a job.
    args: Callable[[Job], list[Any]] = lambda job: []
    of_a_job: bool = True
    sent: dict[str, str] = field(default_factory=dict)


def somebody(role: str) -> User:
    """Whoever has this role."""
    return next(one for one in User.objects.all() if one.roles == [role])


def first(model: Any) -> Callable[[Job], list[Any]]:
    """The number of the job's first record of a kind."""
    return lambda job: [model.objects.filter(job=job).first().pk]


def given(*args: Any) -> Callable[[Job], list[Any]]:
    """Fixed words in the address."""
    return lambda job: list(args)


def a_finding(severity: str) -> Callable[[Job], list[Any]]:
    """The key of a finding of this severity."""
    return lambda job: [
        next(one.key for one in work_out(load(job)).findings if one.severity == severity)
    ]


def a_photo(job: Job) -> list[Any]:
    """A photo of the job's first panel."""
    files = {name: ContentFile(b"\xff\xd8", "x.jpg") for name in ("image", "small", "original")}
    by = somebody(MANAGER)
    return [models.Photo.objects.create(job=job, panel=job.panels.first(), taken_by=by, **files).pk]


def a_decision(severity: str) -> Callable[[Job], list[Any]]:
    """A decision about a finding of this severity."""

    def make(job: Job) -> list[Any]:
        by = somebody(MANAGER)
        made = models.Decision.objects.create(
            job=job, code="x", where="x", fingerprint="x", said="x", severity=severity,
            reason="x", decided_by=by, name="x",
        )  # fmt: skip
        return [made.pk]

    return make


def an_issued_sheet(fingerprint: str) -> Callable[[Job], list[Any]]:
    """A sheet that was issued; one without a fingerprint has the whole job attached."""

    def make(job: Job) -> list[Any]:
        issued = models.IssuedSheet.objects.create(
            job=job, kind="build", revision=90, paper="a4", language="en", data={},
            pdf=b"%PDF", sha256=sha256(b"%PDF").hexdigest(), fingerprint=fingerprint,
            issued_by=somebody(MANAGER), issued_at=timezone.now(),
        )  # fmt: skip
        return [issued.pk]

    return make


def a_print(*, to_issue: bool) -> Callable[[Job], list[Any]]:
    """A print that failed, of a draft or of a sheet to be issued."""

    def make(job: Job) -> list[Any]:
        order = models.PrintOrder.objects.create(
            job=job, kind="build", options={"paper": "a4", "language": "en", "boxes": []},
            to_issue=to_issue, asked_by=somebody(MANAGER), asked_at=timezone.now(), state="failed",
            trouble="broken",
        )  # fmt: skip
        return [order.pk]

    return make


def an_earlier_job(job: Job) -> list[Any]:
    """A job of the same model whose panels were listed."""
    models.Vehicle.objects.filter(pk=job.vehicle_id).update(model="Rare")
    earlier = factories.make_job(factories.make_car(maker=job.vehicle.maker, model="Rare"))
    models.Panel.objects.create(job=earlier, name="door card")
    return [earlier.pk]


def a_choice(job: Job) -> list[Any]:
    """The token of chosen cables that may be taken back."""
    run = job.runs.first()
    run._change_reason = "chosen token"
    run.save()
    return ["token"]


def a_person(job: Job) -> list[Any]:
    """Somebody who works here."""
    return [somebody(DESIGNER).pk]


def a_session(job: Job) -> list[Any]:
    """Where the manager is signed in as well: everybody else's is not found."""
    session = models.Session.objects.create(
        session_key="elsewhere", session_data="", user=somebody(MANAGER),
        expire_date=timezone.now() + dt.timedelta(days=1), seen_at=timezone.now(),
    )  # fmt: skip
    return [session.handle]


def rows(slug: str, model: Any, who: set[str]) -> dict[str, Rule]:
    """The addresses every kind of row has."""
    one = first(model)
    return {
        f"{slug}-add": Rule(get=who, post=who),
        f"{slug}-edit": Rule(get=who, post=who, args=one),
        f"{slug}-remove": Rule(post=who, args=one),
        f"{slug}-restore": Rule(post=who, args=one),
    }


def alone(**more: Any) -> Rule:
    """An address that belongs to no job."""
    return Rule(of_a_job=False, **more)


def _set_job(shelf: Shelf) -> Job:
    new = factories.make_job()
    item = models.EquipmentItem.objects.create(job=new, part=shelf["sub"], place="door")
    models.FactoryPart.objects.create(job=new, kind="speaker", place="door")
    models.Channel.objects.create(job=new, name="way", source="radio")
    for named in (models.Box, models.Ring, models.TrimPanel, models.GroundPoint):
        named.objects.create(job=new, name="invented")
    models.PowerNode.objects.create(job=new, kind="load", name="fan")
    models.Run.objects.create(job=new, kind="P", number=1)
    models.LoomJoin.objects.create(job=new, connector="radio")
    panel = models.Panel.objects.create(job=new, name="door card")
    models.PanelStep.objects.create(job=new, panel=panel, text="look")
    factories.make_fixing(panel, "clip")
    by = somebody(INSTALLER)
    factories.make_run_as_built(new.runs.get(), by)
    factories.make_part_as_built(new.factory_parts.get(), by)
    models.PanelContent.objects.create(job=new, panel=panel, description="felt")
    models.Measurement.objects.create(job=new, name="volts", kind="voltage")
    models.BayNote.objects.create(job=new, panel=panel, text="a scratch", written_by=by)
    read = {"measured_on": dt.date(2026, 11, 20), "measured_by": "somebody"}
    models.DriverSweep.objects.create(job=new, item=item, content="20 4 0", **read)
    models.BoxSweep.objects.create(job=new, box=new.boxes.first(), content="20 4 0", **read)
    models.CabinCurve.objects.create(job=new, place="boot", content="20 0 0", **read)
    return new


@pytest.fixture(scope="module")
def _job(_building, _shelf, _people) -> Job:
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
    return Job.objects.get(pk=_job.pk)


a_part = lambda job: [models.Part.objects.first().pk]  # noqa: E731
a_box = first(models.Box)
a_sweep = first(models.DriverSweep)

RULES: dict[str, Rule] = {
    "board": alone(get=EVERY),
    "search": alone(get=EVERY),
    "new-job": alone(get=DECIDES, post=DECIDES),
    "customers": alone(get=DECIDES),
    "workshop": alone(get=MANAGES, post=MANAGES),
    "style": alone(get=MANAGES),
    "upkeep": alone(get=MANAGES),
    "people": alone(get=MANAGES),
    "person-add": alone(get=MANAGES, post=MANAGES),
    "person": alone(get=MANAGES, post=MANAGES, args=a_person),
    "person-reset": alone(post=MANAGES, args=a_person),
    "person-leave": alone(post=MANAGES, args=a_person),
    "person-back": alone(post=MANAGES, args=a_person),
    "person-factor-off": alone(post=MANAGES, args=a_person),
    "account": alone(get=EVERY),
    "account-password": alone(get=EVERY, post=EVERY),
    "account-factor": alone(get=EVERY, post=EVERY),
    "account-sessions-end": alone(post=EVERY),
    "catalogue": alone(get=EVERY),
    "part-add": alone(get=DECIDES, post=DECIDES, args=given("driver")),
    "part-edit": alone(get=DECIDES, post=DECIDES, args=a_part),
    "part-remove": alone(post=DECIDES, args=a_part),
    "part-restore": alone(post=DECIDES, args=a_part),
    "part-history": alone(get=EVERY, args=a_part),
    "workshop-history": alone(get=MANAGES),
    "person-history": alone(get=MANAGES, args=a_person),
    "job": Rule(get=EVERY),
    "count": Rule(post=EVERY),
    **{name: Rule(get=EVERY, post=DECIDES) for name in ("brief", "customer", "car")},
    **{
        name: Rule(get=EVERY)
        for name in (
            *("equipment", "channels", "boxes", "dxf", "power", "supply", "schedule", "panels"),
            *("findings", "bay", "sheets", "history"),
        )
    },
    **rows("factory", models.FactoryPart, DECIDES),
    **rows("item", models.EquipmentItem, DECIDES),
    **rows("channel", models.Channel, DECIDES),
    **rows("box", models.Box, DECIDES),
    **rows("ring", models.Ring, DECIDES),
    **rows("trim-panel", models.TrimPanel, DECIDES),
    **rows("node", models.PowerNode, DECIDES),
    **rows("run", models.Run, DECIDES),
    **rows("ground", models.GroundPoint, DECIDES),
    **rows("join", models.LoomJoin, DECIDES),
    **rows("panel", models.Panel, DECIDES),
    **rows("step", models.PanelStep, DECIDES),
    # What was really found is written down by whoever found it.
    **rows("content", models.PanelContent, EVERY),
    **rows("measurement", models.Measurement, EVERY),
    **rows("fixing", models.Fixing, EVERY),
    **rows("run-as-built", models.RunAsBuilt, EVERY),
    **rows("factory-as-built", models.FactoryAsBuilt, EVERY),
    "run-as-built-preview": Rule(post=EVERY),
    "factory-as-built-preview": Rule(post=EVERY),
    "measurement-plan": Rule(post=EVERY),
    "bay-cars": alone(get=EVERY),
    "bay-read": Rule(post=EVERY),
    "bay-news": Rule(get=EVERY),
    "bay-acts": Rule(get=EVERY, post=EVERY),
    "bay-note": Rule(post=EVERY),
    "bay-photos": Rule(post=EVERY, args=first(models.Panel)),
    "photo-large": Rule(get=EVERY, args=a_photo),
    "panel-close": Rule(get=EVERY, post=EVERY, args=first(models.Panel)),
    "panel-reopen": Rule(post=EVERY, args=first(models.Panel)),
    "gate": Rule(get=EVERY),
    "gate-sign": Rule(post=EVERY),
    "gate-answer": Rule(post=EVERY),
    "panels-usual": Rule(post=DECIDES),
    "panels-learnt": Rule(post=DECIDES, args=an_earlier_job),
    "gate-release": Rule(post=MANAGES),
    "note-edit": Rule(get=EVERY, post=EVERY, args=first(models.BayNote)),
    "note-remove": Rule(post=EVERY, args=first(models.BayNote)),
    "note-restore": Rule(post=EVERY, args=first(models.BayNote)),
    "panel-empty": Rule(post=EVERY, args=first(models.Panel)),
    "rights": alone(get=EVERY),
    **rows("sweep", models.DriverSweep, EVERY),
    **rows("box-sweep", models.BoxSweep, EVERY),
    **rows("cabin-curve", models.CabinCurve, EVERY),
    **{
        f"{slug}-preview": Rule(post=DECIDES)
        for slug in ("box", "ring", "trim-panel", "node", "run", "box-study")
    },
    "sweep-preview": Rule(post=EVERY),
    "box-sweep-preview": Rule(post=EVERY),
    "sweep-use": Rule(post=DECIDES, args=a_sweep),
    "sweep-leave": Rule(post=DECIDES, args=a_sweep),
    "box-copy": Rule(post=DECIDES, args=a_box),
    "study": Rule(get=EVERY, args=a_box),
    "cabin": Rule(get=EVERY, args=a_box),
    "fit": Rule(get=EVERY, post=DECIDES, sent={"pick": "0"}),
    "fit-box": Rule(get=EVERY, post=DECIDES, sent={"pick": "0"}, args=a_box),
    "fit-undo": Rule(post=DECIDES, args=lambda job: [*a_box(job), 9]),
    "targets": Rule(get=EVERY, post=DECIDES, args=a_box),
    "targets-undo": Rule(post=DECIDES, args=lambda job: [*a_box(job), 9]),
    "choose": Rule(get=DECIDES, post=DECIDES),
    "choose-restore": Rule(post=DECIDES, args=a_choice),
    "run": Rule(get=EVERY, args=given("P01")),
    "photo-add": Rule(get=EVERY, post=EVERY, args=first(models.Panel)),
    "photo": Rule(get=EVERY, args=a_photo),
    "picture-edit": Rule(get=EVERY, post=EVERY, args=a_photo),
    "picture-remove": Rule(post=EVERY, args=a_photo),
    "picture-restore": Rule(post=EVERY, args=a_photo),
    "customer-data": Rule(get=MANAGES, post=MANAGES),
    "customer-file": Rule(get=MANAGES),
    "photo-show": Rule(post=DECIDES, args=a_photo),
    "panel-code-renew": Rule(post=DECIDES, args=first(models.Panel)),
    "panel-code-withdraw": Rule(post=DECIDES, args=first(models.Panel)),
    "decide": Rule(get=DECIDES, post=DECIDES, args=a_finding("look")),
    "decide a stop": Rule(get=MANAGES, post=MANAGES, args=a_finding("stop")),
    "decision-withdraw": Rule(post=DECIDES, args=a_decision("look")),
    "decision-withdraw of a stop": Rule(post=MANAGES, args=a_decision("stop")),
    "decision-restore": Rule(post=DECIDES, args=a_decision("look")),
    "decision-restore of a stop": Rule(post=MANAGES, args=a_decision("stop")),
    "tick": Rule(post=EVERY, args=first(models.PanelStep)),
    "measure": Rule(post=EVERY, args=first(models.Measurement)),
    "sheet-draft": Rule(get=EVERY, args=given("labels")),
    "sheet-issue": Rule(post=DECIDES, args=given("labels")),
    "sheet-print": Rule(get=EVERY, args=a_print(to_issue=True)),
    "sheet-print-state": Rule(get=EVERY, args=a_print(to_issue=True)),
    "sheet-print-again": Rule(post=EVERY, args=a_print(to_issue=False)),
    "sheet-print-again to issue": Rule(post=DECIDES, args=a_print(to_issue=True)),
    "sheet-issued": Rule(get=EVERY, args=an_issued_sheet("f")),
    "sheet-issued with all of the job": Rule(get=PRICES, args=an_issued_sheet("")),
}
# Before anybody is signed in; `account-session-end` finds one's own sessions only.
APART = {
    "worker",
    "login",
    "second-step",
    "logout",
    "set_language",
    "account-session-end",
    "certificate",
}


# Open to everybody, also on the public address, and what stands in the address of each.
PUBLIC: dict[str, list[Any]] = {"panel-page": ["token"], "panel-page-photo": ["token", 1]}


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
