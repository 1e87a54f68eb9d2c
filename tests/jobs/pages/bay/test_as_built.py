"""Done differently: what is in the car is checked and printed, what was designed stands beside."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.records.as_built import differences
from jobs.design.records.data import from_data, to_data
from jobs.models import ItemAsBuilt, PanelContent, RunAsBuilt, SheetKind
from jobs.sheets.issue import printed
from tests.jobs.factories import make_amplifier, make_item_as_built
from tests.jobs.pages.forms_at import form_at
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _run(scene, run):
    return next(row for row in load(scene.job).runs if row.pk == run.pk)


def _sent(hatchback, run, **changed):
    address = reverse("run-as-built-add", args=[hatchback.code])
    form = form_at(address, RunAsBuilt(job=hatchback.job, run=run))
    return address, typed(form) | {"reason": "The duct was full."} | changed


def test_the_installer_says_how_it_lies_and_every_check_reads_that(hatchback, browse):
    """The designed row stays; the calculators, the record and the labels take what is there."""
    run = hatchback.main_run
    address, sent = _sent(hatchback, run, length="2.4 m")
    assert browse("installer").post(address, sent).status_code == 302
    built = _run(hatchback, run)
    assert (built.length, built.designed.length) == (2.4, 0.6)
    (difference,) = differences(built)
    assert (difference.label, difference.was, difference.now) == (
        "Length, one way", "0.60\xa0m", "2.40\xa0m",
    )  # fmt: skip
    assert [str(stop) for stop in built.route] == [str(stop) for stop in run.route]
    result = next(r for r in work_out(load(hatchback.job)).power.runs if r.run.pk == run.pk)
    assert result.run.length == 2.4
    run.refresh_from_db()
    assert run.length == 0.6


def test_a_new_stop_is_said_where_the_person_stands(hatchback, shelf, browse):
    """A fuse larger than its cable bears is a stop at once, in the answer to the save."""
    address, sent = _sent(hatchback, hatchback.six_run, fuse=shelf["150 A"].pk)
    client = browse("installer")
    preview = client.post(reverse("run-as-built-preview", args=[hatchback.code]), sent)
    assert "is-stop" in preview.content.decode()
    page = client.post(address, sent, follow=True)
    told = [str(m) for m in page.context["messages"] if "New stop" in str(m)]
    assert any("150\xa0A" in says for says in told), told


def test_what_has_to_be_decided_now_is_said_too(hatchback, browse):
    """A cable so long that it loses more than is aimed at: whoever laid it reads that at once."""
    address, sent = _sent(hatchback, hatchback.six_run, length="14 m")
    page = browse("installer").post(address, sent, follow=True)
    told = [str(m) for m in page.context["messages"] if "To decide now" in str(m)]
    assert any("loses" in says for says in told)
    again = browse("installer").get(reverse("bay", args=[hatchback.code]))
    assert not list(again.context["messages"])


def test_one_row_says_how_a_run_lies(hatchback, browse):
    """A second one is refused and what was typed stays; sent twice it is made once."""
    address, sent = _sent(hatchback, hatchback.main_run)
    client = browse("installer")
    assert client.post(address, sent).status_code == 302
    assert client.post(address, sent).status_code == 302
    assert RunAsBuilt.objects.filter(run=hatchback.main_run).count() == 1
    second = client.post(address, _sent(hatchback, hatchback.main_run)[1])
    assert second.status_code == 422
    assert "The duct was full." in second.content.decode()


def test_equipment_that_was_exchanged_is_checked_and_printed_as_it_is(hatchback, shelf, browse):
    """Channel, tree, box and record take the part and number that are in the car; also archived."""
    other = make_amplifier("Other Mono", channels=1, ratings=[(False, 4.0, 200.0)])
    ItemAsBuilt.objects.all().delete()
    address = reverse("item-as-built-add", args=[hatchback.code])
    form = form_at(address, ItemAsBuilt(job=hatchback.job, item=hatchback.mono))
    sent = typed(form) | {"part": other.pk, "serial": "OM-77", "reason": "Wrong one delivered."}
    no_amplifier = browse("installer").post(address, sent | {"part": shelf["sub"].pk})
    assert no_amplifier.status_code == 422
    assert "Wrong one delivered." in no_amplifier.content.decode()
    assert browse("installer").post(address, sent).status_code == 302
    saved = load(hatchback.job)
    for records in (saved, from_data(to_data(saved))):
        item = next(row for row in records.equipment if row.pk == hatchback.mono.pk)
        assert (item.part.name, item.serial) == ("Other Mono", "OM-77")
        assert item.designed is not None
        assert item.designed.part_id == hatchback.mono.part_id
        assert next(c for c in records.channels if c.pk == hatchback.bass.pk).amplifier is item
        assert next(n for n in records.nodes if n.pk == hatchback.mono_node.pk).equipment is item
        assert item.part_id in records.amplifiers
        html, _data = printed(
            work_out(records), sheets.SHEETS[SheetKind.PANELS], sheets.Options(), revision=1,
            at=timezone.now(),
        )  # fmt: skip
        text = " ".join(html.split())
        assert "OM-77" in text
        assert "Wrong one delivered." in text
    hatchback.mono.refresh_from_db()
    assert hatchback.mono.part.name != "Other Mono"


def test_another_part_is_checked_before_it_is_saved(hatchback, shelf, browse):
    """What the checks say of another amplifier stands beside the form, and nothing is written."""
    other = make_amplifier("Other Mono", channels=1, ratings=[])
    row = ItemAsBuilt.objects.get(item=hatchback.mono)
    address = reverse("item-as-built-edit", args=[hatchback.code, row.pk])
    sent = typed(form_at(address, row)) | {"part": other.pk, "row": row.pk}
    before = {finding.code for finding in work_out(load(hatchback.job)).findings}
    answer = browse("installer").post(reverse("item-as-built-preview", args=[hatchback.code]), sent)
    new = {finding.code for finding in answer.context["findings"]} - before
    assert new
    assert not ItemAsBuilt.objects.filter(part=other).exists()


def test_a_driver_measured_before_it_was_exchanged_is_measured_no_more(hatchback, shelf, cast):
    """Its sweep told of another driver; one of the day or later counts."""
    assert hatchback.sweep.pk in [sweep.pk for sweep in load(hatchback.job).sweeps]
    other = shelf["woofer"]
    row = make_item_as_built(hatchback.sub, cast.installer, part=other)
    assert hatchback.sweep.pk not in [sweep.pk for sweep in load(hatchback.job).sweeps]
    row.part = hatchback.sub.part
    row.save()
    assert hatchback.sweep.pk in [sweep.pk for sweep in load(hatchback.job).sweeps]


def test_a_number_read_off_the_new_unit_is_the_one_that_is_printed(hatchback, cast):
    """A single piece has the number of its exchange, whatever was noted where it lies."""
    content = PanelContent.objects.filter(job=hatchback.job, equipment=hatchback.sub).first()
    content.serial = "SUB-417"
    content.save()
    make_item_as_built(hatchback.sub, cast.installer, serial="SUB-999")
    rows = load(hatchback.job).contents
    assert next(row for row in rows if row.pk == content.pk).number == "SUB-999"


def test_sheets_print_what_is_there_beside_what_was_designed(hatchback, cast):
    """Build sheet and record name each difference, why and by whom; read back from archive too."""
    records = load(hatchback.job)
    for design in (work_out(records), work_out(from_data(to_data(records)))):
        for kind in (SheetKind.BUILD, SheetKind.PANELS):
            html, _data = printed(
                design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now()
            )
            text = " ".join(html.split()).replace("\xa0", " ")
            assert "A bracket was in the way." in text, kind
            assert "<td>5 m</td>" in text
            assert "4.98 m" in text
            assert cast.installer.full_name in text
            assert "taped to the loom" in text


def test_the_installer_says_that_something_is_fitted(hatchback, browse):
    """And that it is not after all; the entry is counted up, and the history has the name."""
    item, client = hatchback.six, browse("installer")
    url = reverse("item-fitted", args=[hatchback.code, item.pk])
    for fitted, state in (("1", "fitted"), ("1", "fitted"), ("0", "in")):
        assert client.post(url, {"fitted": fitted, "bay": "1"}).status_code == 302
        item.refresh_from_db()
        assert item.state == state
    assert item.version == hatchback.six.history.count()
    assert [entry.history_user.username for entry in item.history.all()[:2]] == ["ina", "ina"]


def test_the_installer_says_how_tight_a_ground_is(hatchback, browse):
    """What was measured at a ground point is written down by whoever stands there."""
    point, client = hatchback.sensor, browse("installer")
    url = reverse("ground-edit", args=[hatchback.code, point.pk])
    sent = typed(client.get(url).context["form"]) | {"torque": "9 N m", "resistance": "0.4 mΩ"}
    assert client.post(url, sent).status_code == 302
    point.refresh_from_db()
    assert (point.torque, point.resistance) == (9.0, pytest.approx(0.0004))
