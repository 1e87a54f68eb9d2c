"""Wrong figures each get their own clear answer: beside the field, or as a finding."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import Amplifier, Box, Driver, Fuse, Job, Run
from tests.jobs.pages.kinds import KINDS, says_beside, typed
from tests.jobs.pages.test_pages import PAGES

pytestmark = pytest.mark.django_db
CODE = "J-0003"  # a vented box and one power run


def _codes(severity: str | None = None) -> set[str]:
    found = work_out(load(Job.objects.get(number=3))).findings
    return {one.code for one in found if severity in (None, one.severity)}


def _save(client, slug, row, **changed):
    url = reverse(f"{slug}-edit", args=[CODE, row.pk])
    return client.post(url, typed(client.get(url).context["form"]) | changed)


@pytest.mark.parametrize(
    "text", ["-3 L", "0 L", "12 bananas", "9" * 40, "1" * 40 + " L", "1e400 L", "nan", "∞ L", "٣؛"]
)
def test_a_volume_that_is_none(demo, browse, text):
    """A negative, zero, endless or unreadable volume is refused beside its field, text kept."""
    client, box = browse("designer"), demo[CODE].boxes.get(chosen=True)
    answer = _save(client, "box", box, wanted_volume=text)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "wanted_volume", text)
    assert Box.objects.get(pk=box.pk).wanted_volume == box.wanted_volume
    live = client.post(
        reverse("box-preview", args=[CODE]), {"row": box.pk, "name": "x", "wanted_volume": text}
    )
    assert live.status_code == 200
    assert "errorlist" in live.content.decode()


@pytest.mark.parametrize("row", ["²", "9" * 40, "-1", "x", "0"])
def test_a_preview_of_no_row(demo, browse, row):
    """A row number nobody has is not found or ignored, never a stack trace."""
    answer = browse("designer").post(
        reverse("box-preview", args=[CODE]), {"row": row, "name": "x", "kind": "sealed"}
    )
    assert answer.status_code in {200, 404}


def test_a_cable_of_no_length(demo, browse):
    """Zero and negative lengths are refused; an unknown length is a stop, never a zero."""
    client, run = browse("designer"), demo[CODE].runs.get(kind="P")
    for text in ("0 m", "-2 m"):
        answer = _save(client, "run", run, length=text)
        assert answer.status_code == 422
        assert says_beside(answer.content.decode(), "length", text)
    before = _codes()
    assert _save(client, "run", run, length="").status_code == 302
    assert Run.objects.get(pk=run.pk).length is None
    assert _codes("stop") | _codes("look") != before
    assert any("length" in code for code in _codes() - before)


def test_an_unknown_chassis_resistance(demo, browse):
    """A way back through the chassis that nobody measured is a finding, never zero ohms."""
    client, run = browse("designer"), demo[CODE].runs.get(kind="P")
    before = _codes()
    answer = _save(client, "run", run, return_kind="chassis", chassis_resistance="")
    assert answer.status_code == 302
    new = _codes() - before
    assert any("chassis" in code or "return" in code for code in new), new


def test_a_fuse_above_its_cable(demo, browse):
    """A fuse larger than the thinnest cable behind it bears is a stop."""
    client, run = browse("designer"), demo[CODE].runs.get(kind="P")
    big = Fuse.objects.create(kind="fuse", name="invented 500", type="sf51", rating=500)
    before = _codes("stop")
    assert _save(client, "run", run, fuse=big.pk).status_code == 302
    new = _codes("stop") - before
    assert any("fuse" in code for code in new), new


def test_an_amplifier_below_its_lowest_load(demo, browse):
    """A load the amplifier must not drive is a stop."""
    channel = demo[CODE].channels.get()
    before = _codes("stop")
    Amplifier.objects.filter(pk=channel.amplifier.part_id).update(lowest_load=40.0)
    new = _codes("stop") - before
    assert any("load" in code for code in new), new


def test_qts_above_qms(demo, browse):
    """A driver whose Qts exceeds its Qms contradicts itself, and the box page says so."""
    driver = Driver.objects.get(pk=demo[CODE].boxes.get(chosen=True).driver.part_id)
    url = reverse("part-edit", args=[driver.pk])
    client = browse("designer")
    sent = typed(client.get(url).context["form"]) | {"qts": "5", "qms": "2", "qes": ""}
    before = _codes()
    assert client.post(url, sent).status_code == 302
    page = client.get(reverse("boxes", args=[CODE]))
    assert page.status_code == 200
    assert _codes() - before


def test_a_driver_deeper_than_its_box(demo, browse):
    """A driver that does not go into its box is a stop."""
    before = _codes("stop")
    Driver.objects.filter(pk=demo[CODE].boxes.get(chosen=True).driver.part_id).update(
        depth=0.9, magnet_height=0.5
    )
    assert _codes("stop") - before
    assert browse("installer").get(reverse("boxes", args=[CODE])).status_code == 200


def test_a_port_that_cannot_fit(demo, browse):
    """A port longer than the box is deep, or wider than its wall, is said to be so."""
    client, box = browse("designer"), demo[CODE].boxes.get(chosen=True)
    answer = _save(client, "box", box, port_diameter="68 mm", port_length="1.4 m", wanted_tuning="")
    assert answer.status_code == 302
    found = work_out(load(Job.objects.get(number=3))).open_stops
    assert any("port" in one.code for one in found), found


def test_an_empty_job_opens_on_every_page(demo, browse):
    """A job of which nothing is known yet opens everywhere and claims nothing."""
    job = Job.objects.create(number=77, vehicle=demo[CODE].vehicle, title="nothing yet")
    client = browse("manager")
    for name in PAGES:
        assert client.get(reverse(name, args=[job.code])).status_code == 200
    for kind in KINDS:
        assert client.get(reverse(f"{kind.slug}-add", args=[job.code])).status_code == 200
