"""Lists typed as tables: a row is saved alone, copied, mirrored, removed and brought back."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse
from django.utils.text import capfirst

from jobs.models import Channel, EquipmentItem, Run
from jobs.pages.forms.row_acts import NotMadeError, _like
from jobs.pages.history.kinds import ITEM

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


def _page(hatchback, name="equipment"):
    return reverse(name, args=[hatchback.code])


def _table(client, url, name="table"):
    return client.get(url).context[name]


def _sent(row, **typed):
    """What a browser sends of one row: what is hidden in it, and its cells."""
    cells = {}
    for column in row.columns:
        for cell in column:
            control = str(cell.control)
            chosen = re.search(r'<option value="([^"]*)" selected', control)
            value = re.search(r' value="([^"]*)"', control)
            held = chosen if "<select" in control else value
            cells[cell.name] = held[1] if held else ""
    return dict(row.hidden) | cells | typed


def _row(table, record):
    return next(row for row in table.rows if row.record.pk == record.pk)


def _act(
    client, hatchback, act, *records, slug="item", token="8b6b1b8e-0000-4000-8000-000000000001"
):
    keys = [str(record.pk) for record in records]
    sent = {"act": act, "rows": keys, "token": token}
    return client.post(reverse(f"{slug}-rows", args=[hatchback.code]), sent, follow=True)


def test_a_row_is_saved_by_its_cells_alone(hatchback, browse):
    """What is typed into a cell is stored; what stands beside the table stays to the last digit."""
    client, item = browse("designer"), hatchback.six
    EquipmentItem.objects.filter(pk=item.pk).update(ventilated=True, private=True)
    row = _row(_table(client, _page(hatchback)), item)
    answer = client.post(row.page, _sent(row, place="under the tray"), headers=HTMX)
    assert answer.status_code == 302
    item.refresh_from_db()
    assert (item.place, item.ventilated, item.private) == ("under the tray", True, True)


def test_the_empty_row_makes_one_record(hatchback, browse):
    """The row at the foot adds a record; sent twice it is made once."""
    client = browse("designer")
    blank = _table(client, _page(hatchback)).blank
    sent = _sent(blank, part=str(hatchback.six.part_id), place="spare wheel", quantity="2")
    before = EquipmentItem.objects.count()
    for _ in range(2):
        assert client.post(blank.page, sent, headers=HTMX).status_code == 302
    assert EquipmentItem.objects.count() == before + 1
    assert EquipmentItem.objects.get(place="spare wheel").quantity == 2


def test_a_wrong_cell_is_told_at_the_cell(hatchback, browse):
    """A script is told cell by cell; without one the page of the row keeps what was typed."""
    client, item = browse("designer"), hatchback.six
    row = _row(_table(client, _page(hatchback)), item)
    sent = _sent(row, quantity="a dozen")
    answer = client.post(row.page, sent, headers=HTMX)
    assert answer.status_code == 422
    assert list(answer.json()["cells"]) == ["quantity"]
    plain = client.post(row.page, sent)
    assert plain.status_code == 422
    assert "a dozen" in plain.content.decode()


def test_two_people_in_one_row_keep_what_each_typed(hatchback, browse):
    """Another cell of the same row is no quarrel; the same cell is told with both values."""
    client, item = browse("designer"), hatchback.six
    row = _row(_table(client, _page(hatchback)), item)
    assert browse("consultant").post(row.page, _sent(row, place="boot")).status_code == 302
    assert client.post(row.page, _sent(row, serial="77"), headers=HTMX).status_code == 302
    item.refresh_from_db()
    assert (item.place, item.serial) == ("boot", "77")
    answer = client.post(row.page, _sent(row, place="dash", serial="77"), headers=HTMX)
    assert answer.status_code == 422
    wrong = answer.json()
    assert "boot" in str(wrong)
    assert wrong["version"] == str(item.version)
    again = _sent(row, place="dash", serial="77", version=wrong["version"])
    assert client.post(row.page, again, headers=HTMX).status_code == 302
    item.refresh_from_db()
    assert item.place == "dash"


def test_what_the_other_changed_comes_back_with_a_refusal(hatchback, browse):
    """A row that is refused is handed the cells of the other, so that the next save keeps them."""
    client, item = browse("designer"), hatchback.six
    row = _row(_table(client, _page(hatchback)), item)
    assert browse("consultant").post(row.page, _sent(row, place="boot")).status_code == 302
    wrong = client.post(row.page, _sent(row, quantity="?"), headers=HTMX).json()
    assert wrong["theirs"] == {"place": ["boot"]}


def test_a_row_removed_meanwhile_is_told(hatchback, browse):
    """Nothing is lost when somebody removes the row another is typing in."""
    client, item = browse("designer"), hatchback.six
    row = _row(_table(client, _page(hatchback)), item)
    item.remove()
    answer = client.post(row.page, _sent(row, place="boot"), headers=HTMX)
    assert answer.status_code == 409
    assert "still here" in answer.json()["row"][0]


def test_several_rows_are_copied_once(hatchback, browse):
    """A copy holds no number of one piece; a double click copies once."""
    client, item = browse("designer"), hatchback.six
    EquipmentItem.objects.filter(pk=item.pk).update(serial="S1", state="fitted")
    before = set(EquipmentItem.objects.values_list("pk", flat=True))
    for _ in range(2):
        assert _act(client, hatchback, "copy", item, hatchback.sub).status_code == 200
    new = EquipmentItem.objects.exclude(pk__in=before)
    assert sorted(row.part_id for row in new) == sorted([item.part_id, hatchback.sub.part_id])
    assert {(row.serial, row.state) for row in new} == {("", "to_order")}


def test_the_right_side_is_made_from_the_left(hatchback, browse):
    """Names, places and colours change sides; outputs go on counting; twice is told, not made."""
    client, job = browse("designer"), hatchback.job
    left = EquipmentItem.objects.create(job=job, part=hatchback.sub.part, place="front door left")
    _act(client, hatchback, "other-side", left)
    right = EquipmentItem.objects.get(job=job, place="front door right")
    near = Channel.objects.create(
        job=job, name="Helper left", source="head unit", speaker=left,
        amplifier=hatchback.six, amplifier_channel=30, highpass_frequency=1234.56789012,
    )  # fmt: skip
    _act(client, hatchback, "other-side", near, slug="channel")
    far = Channel.objects.get(job=job, name="Helper right")
    assert (far.speaker, far.amplifier, far.amplifier_channel) == (right, hatchback.six, 31)
    assert far.highpass_frequency == near.highpass_frequency
    again = _act(client, hatchback, "other-side", near, slug="channel")
    assert "there already" in again.content.decode()
    run = Run.objects.create(
        job=job, kind="S", number=80, channel=near, colour="WH", return_colour="WHBK"
    )
    _act(client, hatchback, "other-side", run, slug="run")
    other = Run.objects.get(job=job, channel=far)
    assert (other.colour, other.return_colour) == ("GY", "GYBK")


def test_without_a_counterpart_the_speaker_stays_open(hatchback, browse):
    """The right channel never drives the left speaker: without its own it has none."""
    client, job = browse("designer"), hatchback.job
    left = EquipmentItem.objects.create(job=job, part=hatchback.sub.part, place="A-pillar left")
    near = Channel.objects.create(job=job, name="Centre left", source="head unit", speaker=left)
    _act(client, hatchback, "other-side", near, slug="channel")
    assert Channel.objects.get(job=job, name="Centre right").speaker is None


def test_what_names_no_side_is_told(hatchback, browse):
    """A row in the middle of the car has no other side."""
    answer = _act(browse("designer"), hatchback, "other-side", hatchback.sub)
    assert "names no side" in answer.content.decode()


def test_several_rows_go_and_come_back_together(hatchback, browse):
    """One undo brings back all that were removed at once."""
    client = browse("designer")
    answer = _act(client, hatchback, "remove", hatchback.six, hatchback.sub)
    assert not EquipmentItem.objects.filter(pk__in=[hatchback.six.pk, hatchback.sub.pk]).exists()
    undo = re.search(r'action="([^"]+act=restore[^"]+)"', answer.content.decode())
    client.post(undo[1].replace("&amp;", "&"))
    assert EquipmentItem.objects.filter(pk__in=[hatchback.six.pk, hatchback.sub.pk]).count() == 2


def test_acts_on_rows_are_asked_the_five_questions(hatchback, van, browse):
    """Strangers find nothing, installers may not, no link does it, and nothing ticked is told."""
    url = reverse("item-rows", args=[hatchback.code])
    sent = {"act": "remove", "rows": [str(hatchback.six.pk)]}
    assert browse("stranger").post(url, sent).status_code == 404
    assert browse("installer").post(url, sent).status_code == 403
    client = browse("manager")
    assert client.get(url).status_code == 405
    assert client.post(url, {"act": "burn", "rows": ["1"]}).status_code == 404
    assert "Tick a row first" in client.post(url, {"act": "copy"}, follow=True).content.decode()
    client.post(reverse("item-rows", args=[van.code]), sent)
    assert EquipmentItem.objects.filter(pk=hatchback.six.pk).exists()


def test_who_may_not_type_reads_the_same_table(hatchback, browse):
    """An installer sees every cell and no control."""
    html = browse("installer").get(_page(hatchback)).content.decode()
    assert hatchback.six.place in html
    assert "data-row-table" not in html
    assert 'name="place"' not in html


def test_a_figure_keeps_its_unit_and_its_digits(hatchback, browse):
    """A cell takes what a field takes; one nobody touched keeps the digits it does not show."""
    client, channel = browse("designer"), Channel.objects.filter(job=hatchback.job).first()
    Channel.objects.filter(pk=channel.pk).update(lowpass_frequency=812.345678901)
    row = _row(_table(client, _page(hatchback, "channels")), channel)
    sent = _sent(row, highpass_frequency="0,1 kHz")
    assert client.post(row.page, sent, headers=HTMX).status_code == 302
    channel.refresh_from_db()
    assert channel.highpass_frequency == 100.0
    assert channel.lowpass_frequency == 812.345678901


def test_a_copy_that_cannot_be_kept_says_which_field_and_why(hatchback):
    """By the field's own words; what is of no field stands without one."""
    row = hatchback.six

    def change(_row, _form, sent):
        return sent | {"quantity": ["0"]}

    with pytest.raises(NotMadeError) as refused:
        _like(ITEM, hatchback.job, row, change, "")
    label = capfirst(str(ITEM.form.base_fields["quantity"].label))
    assert str(refused.value).startswith(f"{label}: ")
    assert "1" in str(refused.value)
    assert hatchback.job.equipmentitems.count() == len({*hatchback.job.equipmentitems.all()})
