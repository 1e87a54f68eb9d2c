"""Every kind of row answers the same questions; who may ask them: test_access_rules."""

import pytest
from django.urls import reverse

from jobs.models import ProcessorFile
from tests.jobs.pages.forms_at import form_at
from tests.jobs.pages.kinds import KINDS, every_kind, says_beside, third_kinds, typed

pytestmark = pytest.mark.django_db


def _add(hatchback, kind):
    return reverse(f"{kind.slug}-add", args=[hatchback.code])


def _row(hatchback, kind):
    ProcessorFile.objects.update(kept="processors/none")  # one that was sent is not sent again
    return kind.model.objects.filter(job=hatchback.job).first()


def _at(hatchback, kind, act, row):
    return reverse(f"{kind.slug}-{act}", args=[hatchback.code, row.pk])


@every_kind
def test_a_member_adds_a_row(hatchback, browse, kind):
    """The least that is asked for makes one row, and the answer leads back to its page."""
    client = browse(kind.who)
    before = set(kind.model.objects.values_list("pk", flat=True))
    new = form_at(_add(hatchback, kind), kind.model(job=hatchback.job))
    sent = typed(new) | kind.least(hatchback.job)
    answer = client.post(_add(hatchback, kind), sent)
    assert answer.status_code == 302, answer.context["form"].errors
    (new,) = kind.model.objects.exclude(pk__in=before)
    assert new.job == hatchback.job
    # The same form sent a second time, as by an impatient thumb; a file is read anew.
    for value in sent.values():
        getattr(value, "seek", lambda at: None)(0)
    assert client.post(_add(hatchback, kind), sent).status_code == 302
    assert kind.model.objects.exclude(pk__in=before).count() == 1


@third_kinds
def test_an_untouched_form_changes_nothing_but_its_version(hatchback, browse, kind):
    """Opening a row and saving it leaves every figure to the last digit."""
    client, row = browse(kind.who), _row(hatchback, kind)
    hidden = {"version", "done_at", "done_by", "changed_at"}  # who wrote it down last, and when
    names = [f.attname for f in kind.model._meta.concrete_fields if f.name not in hidden]
    was = {name: getattr(row, name) for name in names}
    page = client.get(_at(hatchback, kind, "edit", row))
    assert page.status_code == 200
    answer = client.post(_at(hatchback, kind, "edit", row), typed(page.context["form"]))
    assert answer.status_code == 302, answer.context["form"].errors
    row.refresh_from_db()
    assert {name: getattr(row, name) for name in names} == was


def test_a_method_no_form_sends_is_refused(hatchback, browse):
    """Nothing is edited by it; one code answers for all kinds."""
    kind = KINDS[0]
    client, row = browse("manager"), _row(hatchback, kind)
    assert client.put(_add(hatchback, kind)).status_code == 405
    assert client.delete(_at(hatchback, kind, "edit", row)).status_code == 405
    assert kind.model.objects.filter(pk=row.pk).exists()


@third_kinds
def test_a_wrong_figure_keeps_what_was_typed(hatchback, browse, kind):
    """The page comes back with the text in its field and the reason beside it; nothing is saved."""
    client = browse("consultant")
    count = kind.model.with_removed.count()
    new = form_at(_add(hatchback, kind), kind.model(job=hatchback.job))
    sent = typed(new) | kind.least(hatchback.job) | kind.wrong
    answer = client.post(_add(hatchback, kind), sent)
    assert answer.status_code == 422
    ((name, text),) = kind.wrong.items()
    assert says_beside(answer.content.decode(), name, text.strip())
    assert kind.model.with_removed.count() == count
    row = _row(hatchback, kind)
    url = _at(hatchback, kind, "edit", row)
    answer = client.post(url, typed(form_at(url, row)) | kind.wrong)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), name, text.strip())
    assert kind.model.objects.get(pk=row.pk).version == row.version


@third_kinds
def test_the_second_editor_is_told_and_shown_both(hatchback, browse, kind):
    """Whoever saves second sees both versions, and may then save knowingly."""
    first, second, row = browse("consultant"), browse(kind.who), _row(hatchback, kind)
    url = _at(hatchback, kind, "edit", row)
    theirs, mine = typed(form_at(url, row)), typed(form_at(url, row))
    text = next(
        n
        for n in (
            *("place", "name", "text", "fixing", "specimen", "connector", "told", "reason"),
            *("number", "measured_by", "set_by", "where", "note", "from_text"),
        )
        if n in theirs | mine or n == "from_text"
    )
    assert first.post(url, theirs | {text: "said first"}).status_code == 302
    answer = second.post(url, mine | {text: "said second"})
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "Somebody else saved this" in html
    assert "said first" in html
    assert "said second" in html
    assert getattr(kind.model.objects.get(pk=row.pk), text) == "said first"
    again = typed(answer.context["form"])
    assert second.post(url, again).status_code == 302
    assert getattr(kind.model.objects.get(pk=row.pk), text) == "said second"


@third_kinds
def test_a_removed_row_comes_back_whole(hatchback, browse, kind):
    """Removing hides a row and offers the way back; restoring brings the same row."""
    client, row = browse("manager"), _row(hatchback, kind)
    page = client.post(_at(hatchback, kind, "remove", row), follow=True)
    assert page.status_code == 200
    assert _at(hatchback, kind, "restore", row) in page.content.decode()
    assert not kind.model.objects.filter(pk=row.pk).exists()
    assert client.get(_at(hatchback, kind, "edit", row)).status_code == 404
    assert client.post(_at(hatchback, kind, "restore", row), follow=True).status_code == 200
    assert kind.model.objects.get(pk=row.pk).job == hatchback.job
