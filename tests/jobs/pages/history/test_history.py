"""What people read of a history: who, when, from what to what, in plain words."""

from __future__ import annotations

import datetime as dt
import re
from types import SimpleNamespace

import pytest
from django.db import connection
from django.db.models import JSONField
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from django.utils.html import strip_tags

from jobs import models
from jobs.models import EquipmentItem, User, Workshop
from jobs.pages.forms.rows_field import RowsField
from jobs.pages.history import words
from jobs.pages.history.kinds import FORMS, KINDS, ROWS, Kind
from jobs.pages.wood.rings_and_trim import TrimPanelForm
from tests.jobs.factories import make_job, make_rows, make_run_as_built
from tests.jobs.pages.kinds import KINDS as EVERY_KIND
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def read(client, url: str) -> str:
    """What a person reads of a page, in one line."""
    answer = client.get(url)
    assert answer.status_code == 200
    text = re.sub(r"\s+", " ", strip_tags(answer.content.decode()))
    return text.split("Sign out")[1].replace("\xa0", " ")


def history(job, of: str = "") -> str:
    """The address of a job's history."""
    return reverse("history", args=[job.code]) + (f"?of={of}" if of else "")


def save(client, job, slug: str, row, **changed: str) -> None:
    """Open a row, change some fields, save it."""
    url = reverse(f"{slug}-edit", args=[job.code, row.pk])
    sent = typed(client.get(url).context["form"]) | changed
    answer = client.post(url, sent)
    assert answer.status_code == 302, answer.context["form"].errors


def test_every_kind_of_row_has_a_history():
    """Whoever adds a kind of row adds it to the list of histories."""
    apart = {"picture", "note", "option"}  # made otherwise than by a form of their own
    assert {kind.slug for kind in EVERY_KIND} | apart == {row.slug for row in ROWS}
    parts = set(models.JobPart.__subclasses__())
    assert parts <= {kind.model for kind in KINDS.values()}


def test_a_change_is_told_from_what_to_what(hatchback, browse):
    """Lengths in the units they are typed in, choices by their words, records by their names."""
    box = hatchback.box
    save(browse("designer"), hatchback.job, "box", box, width="470 mm", kind="vented")
    said = read(browse("installer"), history(hatchback.job, f"box-{box.pk}"))
    assert "Dan Draw" in said
    assert "Width 480.0 mm → now 470.0 mm" in said
    assert "Kind sealed → now vented" in said
    assert "passive_radiator" not in said
    item = hatchback.sub
    other = models.Part.objects.exclude(pk=item.part_id).filter(kind="driver").first()
    save(browse("designer"), hatchback.job, "item", item, part=str(other.pk), state="fitted")
    said = read(browse("installer"), history(hatchback.job, f"item-{item.pk}"))
    assert f"Part {item.part} → now {other}" in said
    assert "State to order → now fitted" in said


def test_the_route_of_a_run_and_what_it_wakes_are_kept(hatchback, browse):
    """A route that is emptied stands in the history, by the names of its places."""
    run = hatchback.turn_on_run
    form = (
        browse("designer").get(reverse("run-edit", args=[hatchback.code, run.pk])).context["form"]
    )
    sent = typed(form) | {f"route-{part}": [] for part in ("panel", "place", "way", "edge")}
    sent["wakes"] = [hatchback.six.pk]
    assert (
        browse("designer")
        .post(reverse("run-edit", args=[hatchback.code, run.pk]), sent)
        .status_code
        == 302
    )
    said = read(browse("manager"), history(hatchback.job, f"run-{run.pk}"))
    assert "Route Trim of the boot, with the loom → now –" in said
    assert f"{hatchback.six}, {hatchback.mono} → now {hatchback.six}" in said


def test_lists_that_no_form_types_are_told_in_words(hatchback, cast, browse):
    """What was checked, what was left open, the route as built: never the sign for nothing."""
    job, by, now = hatchback.job, cast.installer, timezone.now()
    rows = {
        "closing": models.PanelClosing.objects.create(
            job=job, panel=hatchback.sill, checked=["steps"], left_open=["photos"],
            reason="Late.", closed_by=by, closed_at=now,
        ),
        "release": models.StageRelease.objects.create(
            job=job, left_open={"keys": ["step 1"], "says": ["Steps not ticked: 1"]},
            reason="Late.", released_by=cast.manager, released_at=now,
        ),
        "run-as-built": make_run_as_built(hatchback.turn_on_run, by),
        "car-template": job.cartemplates.get(),
    }  # fmt: skip
    lists = {
        (slug, field.name)
        for slug, kind in KINDS.items()
        for field in words.fields_of(kind.model.history.model(), unseen=words.UNSAID)
        if isinstance(field, JSONField)
        if not isinstance(kind.form and kind.form.base_fields.get(field.name), RowsField)
    }
    told = {
        ("car-template", "takes"): "panels: how they come off, fixings, steps; cavities: the room",
        ("closing", "checked"): "Every step behind it is ticked.",
        ("closing", "left_open"): "Left open There are photos of it as it is now.",
        ("release", "left_open"): "Left open Steps not ticked: 1",
        ("run-as-built", "route"): "in order from its start Trim of the boot, with the loom",
    }
    assert lists == told.keys()
    for (slug, _field), sentence in told.items():
        assert sentence in read(browse("manager"), history(job, f"{slug}-{rows[slug].pk}"))


def test_a_budget_and_a_price_are_for_those_who_may_see_prices(hatchback, browse, shelf):
    """One rule for pages and for their histories."""
    browse("manager").post(
        reverse("brief", args=[hatchback.code]),
        typed(browse("manager").get(reverse("brief", args=[hatchback.code])).context["form"])
        | {"budget": "5000"},
    )
    part = shelf["sub"]
    url = reverse("part-edit", args=[part.pk])
    sent = typed(browse("consultant").get(url).context["form"]) | {"price": "199.5"}
    assert browse("consultant").post(url, sent).status_code == 302
    of_part = reverse("part-history", args=[part.pk])
    for role in ("consultant", "manager"):
        assert "5,000" in read(browse(role), history(hatchback.job)) or "5000" in read(
            browse(role), history(hatchback.job)
        )
        assert "199.5" in read(browse(role), of_part)
    for role in ("designer", "installer"):
        assert "udget" not in read(browse(role), history(hatchback.job))
        assert "199.5" not in read(browse(role), of_part)


def test_what_an_amplifier_gives_is_kept(browse, shelf):
    """Ratings are part of their amplifier."""
    url = reverse("part-edit", args=[shelf["mono"].pk])
    sent = typed(browse("designer").get(url).context["form"]) | {
        "ratings-power": "123 W",
        "ratings-load": "4 Ω",
        "ratings-bridged": "",
    }
    assert browse("designer").post(url, sent).status_code == 302
    said = read(browse("installer"), reverse("part-history", args=[shelf["mono"].pk]))
    assert "Power into each load" in said
    assert "→ now 123 W, 4 Ω" in said


def test_a_person_has_a_history_of_name_and_roles_and_of_nothing_else(cast, browse):
    """Roles in words; no password, no sign-in."""
    url = reverse("person", args=[cast.installer.pk])
    sent = typed(browse("manager").get(url).context["form"])
    sent |= {"roles": ["installer", "designer"], "last_name": "Fitter"}
    assert browse("manager").post(url, sent).status_code == 302
    person = User.objects.get(pk=cast.installer.pk)
    person.last_login = dt.datetime(2026, 11, 28, tzinfo=dt.UTC)
    entries = person.history.count()
    person.save(update_fields=["last_login"])
    assert person.history.count() == entries
    person.set_password("a password nobody reads")
    person.save()
    said = read(browse("manager"), reverse("person-history", args=[person.pk]))
    assert "Roles Installer → now Designer, Installer" in said
    assert "Last name Fit → now Fitter" in said
    assert "assword" not in said
    kept = {field.name for field in User.history.model._meta.get_fields()}
    assert not kept & {"password", "last_login", "email"}


def test_the_workshop_has_a_history(browse):
    """Settings that change what is cut are told with their units."""
    url = reverse("workshop")
    sent = typed(browse("manager").get(url).context["form"]) | {"kerf": "4 mm"}
    assert browse("manager").post(url, sent).status_code == 302
    said = read(browse("manager"), reverse("workshop-history"))
    assert "Width of the cut 3.2 mm → now 4.0 mm" in said
    assert Workshop.objects.count() == 1


def test_a_history_is_asked_by_person_and_kind(hatchback, browse, cast):
    """One person's saves, one kind's saves; what names no record of this job is not found."""
    save(browse("designer"), hatchback.job, "box", hatchback.box, width="470 mm")
    save(browse("consultant"), hatchback.job, "panel", hatchback.sill, fixings="three clips")
    client = browse("installer")
    by_dan = read(client, f"{history(hatchback.job)}?by={cast.designer.pk}")
    assert "470.0 mm" in by_dan
    assert "three clips" not in by_dan
    panels = read(client, history(hatchback.job, "panel"))
    assert "three clips" in panels
    assert "470.0 mm" not in panels
    other = make_job()
    for of in (
        f"box-{hatchback.box.pk}",
        "box-",
        "nothing",
        "nothing-3",
        "box-99999999999999999999",
    ):
        assert client.get(history(other, of)).status_code == 404
    strange = f"{history(hatchback.job)}?by=x&page=y"
    assert client.get(strange).status_code == 200


def test_saves_stand_under_the_hour_they_were_made_in(hatchback, browse):
    """By person and hour, the newest first."""
    save(browse("designer"), hatchback.job, "box", hatchback.box, width="470 mm")
    save(browse("consultant"), hatchback.job, "box", hatchback.box, width="460 mm")
    save(browse("designer"), hatchback.job, "box", hatchback.box, width="450 mm")
    save(browse("designer"), hatchback.job, "box", hatchback.box, height="350 mm")
    page = browse("manager").get(history(hatchback.job, f"box-{hatchback.box.pk}"))
    hours = page.context["history"].hours
    assert [(hour.who, len(hour.changes)) for hour in hours][:3] == [
        ("Dan Draw", 2), ("Cora Sell", 1), ("Dan Draw", 1)
    ]  # fmt: skip


def test_what_is_gone_is_still_called_by_its_name(hatchback, browse):
    """A record that was deleted for good is named as its history knew it last."""
    panel = hatchback.side_trim
    said_before = read(browse("manager"), history(hatchback.job, f"run-{hatchback.line_run.pk}"))
    assert "Trim of the boot" in said_before
    models.Stretch.objects.filter(panel=panel).delete()
    panel.delete()
    said = read(browse("manager"), history(hatchback.job, f"run-{hatchback.line_run.pk}"))
    assert "Trim of the boot" in said


def _queries(client: Client, url: str) -> int:
    client.get(url)
    with CaptureQueriesContext(connection) as seen:
        assert client.get(url).status_code == 200
    return len(seen)


def test_a_history_of_twenty_rows_asks_no_more_than_that_of_one(shelf, browse):
    """The number of queries follows the kinds that stand on the page."""
    job, client = make_job(), browse("designer")
    make_rows(job, 1)
    one = _queries(client, history(job, "item"))
    make_rows(job, 19)
    assert EquipmentItem.objects.filter(job=job).count() == 60
    assert client.get(history(job, "item")).context["history"].page.paginator.count >= 60
    assert _queries(client, history(job, "item")) == one


def test_a_history_is_paged(hatchback, browse):
    """Newer and older, with what was asked for kept in the address."""
    for n in range(60):
        hatchback.box.width = 0.3 + n / 1000
        hatchback.box.save()
    page = browse("manager").get(history(hatchback.job, "box"))
    assert page.context["history"].page.paginator.num_pages >= 2
    assert "?of=box&amp;page=2" in page.content.decode()
    older = read(browse("manager"), f"{history(hatchback.job, 'box')}&page=2")
    assert "new" in older


def test_what_was_signed_and_answered_is_told_in_its_sentence(hatchback, browse):
    """Neither the key of a factory function nor that of a channel or a question is ever read."""
    client, channel = browse("installer"), hatchback.job.channels.first()
    for check, of in (("function", "function 3"), ("polarity", f"channel {channel.pk}")):
        client.post(reverse("gate-sign", args=[hatchback.code]), {"check": check, "of": of})
    sent = {"question": "codes-before", "text": "none stored"}
    client.post(reverse("gate-answer", args=[hatchback.code]), sent)
    page = client.get(reverse("history", args=[hatchback.code])).content.decode()
    assert "Works as it did before: parking sensors and camera" in page
    assert f"Polarity is right: {channel.name}" in page
    assert "Fault codes read before the work" in page
    assert "function 3" not in page


def test_a_list_kept_with_a_part_is_read_as_its_form_says_it():
    """The curve of a fuse point by point; a list no form types is not read at all."""
    curve = models.Fuse._meta.get_field("curve")
    entry = SimpleNamespace(curve=[[1.35, 600.0], [2.0, 5.0]])
    form = FORMS[models.Part.Kind.FUSE]
    says = form.base_fields["curve"].words(entry.curve)
    assert "1.35" in says
    assert "600" in says
    for typed_by, read_as in ((form, says), (None, words.NOTHING), (TrimPanelForm, words.NOTHING)):
        kind = Kind(slug="fuse", model=models.Fuse, called="fuse", form=typed_by)
        assert words.value(kind, curve, entry, {}) == read_as
