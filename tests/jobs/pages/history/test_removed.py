"""What was removed stands in a folded list, and what is typed into it meanwhile is not lost."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils.html import strip_tags

from jobs.models import EquipmentItem, PanelStep
from jobs.pages.history.kinds import ROWS
from tests.jobs.factories import make_job, make_rows
from tests.jobs.pages.history.test_history import read
from tests.jobs.pages.kinds import PARTS, third_kinds, typed

pytestmark = pytest.mark.django_db


def said_of(html: str) -> str:
    """The text of a page in one line."""
    return " ".join(strip_tags(html).split())


def _at(job, slug: str, act: str, row) -> str:
    return reverse(f"{slug}-{act}", args=[job.code, row.pk])


@third_kinds
def test_a_removed_row_stands_on_its_page_with_who_and_when(hatchback, cast, browse, kind):
    """Folded under its kind, with a button back."""
    row = kind.model.objects.filter(job=hatchback.job).first()
    section = next(one.section for one in ROWS if one.slug == kind.slug)
    page = reverse(section, args=[hatchback.code])
    browse(kind.who).post(_at(hatchback.job, kind.slug, "remove", row))
    html = browse("manager").get(page).content.decode()
    assert "<details" in html
    said = said_of(html)
    assert "Removed: 1 × " in said
    assert str(row).rstrip(".") in said.replace("&#x27;", "'")
    assert f"{getattr(cast, kind.who).full_name}, " in said
    restore = _at(hatchback.job, kind.slug, "restore", row)
    assert f'action="{restore}"' in html
    to_installer = browse("installer").get(page).content.decode()
    assert (f'action="{restore}"' in to_installer) == kind.open_to_installer
    assert browse("manager").post(restore).status_code == 302
    assert kind.model.objects.filter(pk=row.pk).exists()


def test_a_panel_comes_back_with_what_is_on_it(hatchback, browse):
    """Steps and contents go out of sight with their panel and come back with it."""
    panel, client = hatchback.boot_floor, browse("designer")
    page = reverse("panels", args=[hatchback.code])
    step = PanelStep.objects.filter(panel=panel).first()
    assert "Bring back" not in read(client, page)
    client.post(_at(hatchback.job, "panel", "remove", panel))
    assert step.text not in read(client, page)
    client.post(_at(hatchback.job, "panel", "restore", panel))
    said = read(client, page)
    assert step.text in said
    assert "two bolts" in said


@third_kinds
def test_a_save_onto_a_removed_row_keeps_the_text_and_says_who(hatchback, cast, browse, kind):
    """Nothing is written before the typist says so; then the row is back with their text."""
    row, client = kind.model.objects.filter(job=hatchback.job).first(), browse("consultant")
    url = _at(hatchback.job, kind.slug, "edit", row)
    sent = typed(client.get(url).context["form"])
    words = (
        "place",
        "name",
        "text",
        "fixing",
        "specimen",
        "connector",
        "to_text",
        "measured_by",
        "reason",
        "where",
        "set_by",
        "note",
    )
    name = next(name for name in words if name in sent)
    sent[name] = "typed meanwhile"
    browse(kind.who).post(_at(hatchback.job, kind.slug, "remove", row))
    answer = client.post(url, sent)
    html = answer.content.decode()
    assert answer.status_code == 409
    assert f"{getattr(cast, kind.who).full_name} removed this" in html
    assert "typed meanwhile" in html
    assert not kind.model.objects.filter(pk=row.pk).exists()
    assert client.post(url, sent | {"bring_back": "1"}).status_code == 302
    assert getattr(kind.model.objects.get(pk=row.pk), name) == "typed meanwhile"
    said = read(client, f"{reverse('history', args=[hatchback.code])}?of={kind.slug}-{row.pk}")
    assert "brought back" in said
    assert "removed" in said


def test_a_removed_part_stands_under_the_catalogue(browse, shelf):
    """With who and when, under its kind and under all; whoever may spec brings it back."""
    part = shelf["sub"]
    url = reverse("catalogue")
    assert "Bring back" not in read(browse("manager"), url)
    browse("designer").post(reverse("part-remove", args=[part.pk]))
    browse("designer").get(url)  # the message is read
    for kind, there in (("", True), ("driver", True), ("fuse", False)):
        said = read(browse("manager"), f"{url}?kind={kind}")
        assert ("Removed: 1 × part" in said) == there
        assert (f"{part} Dan Draw, " in said) == there
    restore = reverse("part-restore", args=[part.pk])
    assert restore in browse("manager").get(url).content.decode()
    assert restore not in browse("installer").get(url).content.decode()
    with CaptureQueriesContext(connection) as few:
        browse("manager").get(url)
    for name, other in shelf.items():
        if name != "sub" and other.kind == part.kind:
            other.remove()
    with CaptureQueriesContext(connection) as many:
        browse("manager").get(url)
    assert len(many) <= len(few)


def test_a_part_removed_meanwhile_keeps_the_text_too(browse, shelf):
    """The catalogue answers as a job does."""
    assert PARTS
    part, client = shelf["sub"], browse("consultant")
    url = reverse("part-edit", args=[part.pk])
    sent = typed(client.get(url).context["form"]) | {"notes": "typed meanwhile"}
    browse("designer").post(reverse("part-remove", args=[part.pk]))
    answer = client.post(url, sent)
    assert answer.status_code == 409
    assert "Dan Draw removed this" in answer.content.decode()
    assert "typed meanwhile" in answer.content.decode()
    assert client.post(url, sent | {"bring_back": "1"}).status_code == 302
    part.refresh_from_db()
    assert (part.notes, part.removed_at) == ("typed meanwhile", None)


def test_a_sweep_in_use_is_changed_by_those_who_may_spec_only(hatchback, browse):
    """Edit, remove, leave and bring back alike: the boxes are worked out with it."""
    sweep, code = hatchback.sweep, hatchback.code
    url = reverse("sweep-edit", args=[code, sweep.pk])
    installer = browse("installer")
    sent = typed(installer.get(url).context["form"])
    assert installer.post(url, sent).status_code == 302  # of no box yet
    browse("designer").post(reverse("sweep-use", args=[code, sweep.pk]))
    sent = typed(installer.get(url).context["form"])
    assert "only who may decide" in installer.get(url).content.decode()
    assert installer.post(url, sent).status_code == 403
    for act in ("remove", "leave"):
        at = reverse(f"sweep-{act}", args=[code, sweep.pk])
        assert installer.post(at).status_code == 403
    sent = typed(browse("designer").get(url).context["form"])
    assert browse("designer").post(url, sent).status_code == 302
    browse("designer").post(reverse("sweep-remove", args=[code, sweep.pk]))
    assert installer.post(reverse("sweep-restore", args=[code, sweep.pk])).status_code == 403
    assert (
        browse("designer").post(reverse("sweep-restore", args=[code, sweep.pk])).status_code == 302
    )


def test_twenty_removed_rows_ask_no_more_than_one(shelf, browse):
    """The folded lists read each kind once."""
    job, client = make_job(), browse("designer")
    make_rows(job, 20)
    url = reverse("equipment", args=[job.code])
    items = list(EquipmentItem.objects.filter(job=job))

    def queries() -> int:
        client.get(url)
        with CaptureQueriesContext(connection) as seen:
            assert client.get(url).status_code == 200
        return len(seen)

    items[0].remove()
    one = queries()
    for item in items[1:20]:
        item.remove()
    assert queries() <= one
