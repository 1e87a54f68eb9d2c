"""Wrong figures each get their own clear answer: beside the field, or as a finding."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import Amplifier, Box, Driver, Fuse, Run
from tests.jobs.factories import make_fuse, make_job
from tests.jobs.pages.forms_at import form_at, refused_at
from tests.jobs.pages.kinds import KINDS, says_beside, typed
from tests.jobs.pages.test_pages import PAGES

pytestmark = pytest.mark.django_db


def _codes(saloon, severity: str | None = None) -> set[str]:
    found = work_out(load(saloon.job)).findings
    return {one.code for one in found if severity in (None, one.severity)}


def _save(saloon, client, slug, row, **changed):
    url = reverse(f"{slug}-edit", args=[saloon.code, row.pk])
    return client.post(url, typed(form_at(url, row)) | changed)


def test_a_volume_that_is_none(saloon, browse):
    """A negative, zero, endless or unreadable volume is refused beside its field, text kept."""
    client, box, text = browse("designer"), saloon.box, "12 bananas"
    url = reverse("box-edit", args=[saloon.code, box.pk])
    sent = typed(form_at(url))
    for wrong in ("-3 L", "0 L", "9" * 40, "1" * 40 + " L", "1e400 L", "nan", "∞ L", "٣؛"):
        assert list(refused_at(url, sent | {"wanted_volume": wrong})) == ["wanted_volume"], wrong
    answer = _save(saloon, client, "box", box, wanted_volume=text)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "wanted_volume", text)
    assert Box.objects.get(pk=box.pk).wanted_volume == box.wanted_volume
    live = client.post(
        reverse("box-preview", args=[saloon.code]),
        {"row": box.pk, "name": "x", "wanted_volume": text},
    )
    assert live.status_code == 200
    assert "errorlist" in live.content.decode()


@pytest.mark.parametrize("row", ["²", "9" * 40, "-1", "x", "0"])
def test_a_preview_of_no_row(saloon, browse, row):
    """A row number nobody has is not found or ignored, never a stack trace."""
    answer = browse("designer").post(
        reverse("box-preview", args=[saloon.code]), {"row": row, "name": "x", "kind": "sealed"}
    )
    assert answer.status_code in {200, 404}


def test_a_cable_of_no_length(saloon, browse):
    """Zero and negative lengths are refused; an unknown length is a stop, never a zero."""
    client, run = browse("designer"), saloon.main_run
    for text in ("0 m", "-2 m"):
        answer = _save(saloon, client, "run", run, length=text)
        assert answer.status_code == 422
        assert says_beside(answer.content.decode(), "length", text)
    before = _codes(saloon)
    assert _save(saloon, client, "run", run, length="").status_code == 302
    assert Run.objects.get(pk=run.pk).length is None
    assert _codes(saloon, "stop") | _codes(saloon, "look") != before
    assert any("length" in code for code in _codes(saloon) - before)


def test_an_unknown_chassis_resistance(saloon, browse):
    """A way back through the chassis that nobody measured is a finding, never zero ohms."""
    client, run = browse("designer"), saloon.main_run
    before = _codes(saloon)
    answer = _save(saloon, client, "run", run, return_kind="chassis", chassis_resistance="")
    assert answer.status_code == 302
    new = _codes(saloon) - before
    assert any("chassis" in code or "return" in code for code in new), new


def test_a_fuse_above_its_cable(saloon, browse):
    """A fuse larger than the thinnest cable behind it bears is a stop."""
    client, run = browse("designer"), saloon.main_run
    big = make_fuse(500, Fuse.Type.SF51, breaking=6000, time=0.4)
    before = _codes(saloon, "stop")
    assert _save(saloon, client, "run", run, fuse=big.pk).status_code == 302
    new = _codes(saloon, "stop") - before
    assert any("fuse" in code for code in new), new


def test_an_amplifier_below_its_lowest_load(saloon, browse):
    """A load the amplifier must not drive is a stop."""
    before = _codes(saloon, "stop")
    Amplifier.objects.filter(pk=saloon.mono.part_id).update(lowest_load=40.0)
    new = _codes(saloon, "stop") - before
    assert any("load" in code for code in new), new


def test_qts_above_qms(saloon, browse):
    """A driver whose Qts exceeds its Qms contradicts itself, and the box page says so."""
    driver = Driver.objects.get(pk=saloon.flat.part_id)
    url = reverse("part-edit", args=[driver.pk])
    client = browse("designer")
    sent = typed(client.get(url).context["form"]) | {"qts": "5", "qms": "2", "qes": ""}
    before = _codes(saloon)
    assert client.post(url, sent).status_code == 302
    page = client.get(reverse("boxes", args=[saloon.code]))
    assert page.status_code == 200
    assert _codes(saloon) - before


def test_a_driver_deeper_than_its_box(saloon, browse):
    """A driver that does not go into its box is a stop."""
    before = _codes(saloon, "stop")
    Driver.objects.filter(pk=saloon.flat.part_id).update(depth=0.9, magnet_height=0.5)
    assert _codes(saloon, "stop") - before
    assert browse("installer").get(reverse("boxes", args=[saloon.code])).status_code == 200


def test_a_port_that_cannot_fit(saloon, browse):
    """A port longer than the box is deep, or wider than its wall, is said to be so."""
    client, box = browse("designer"), saloon.box
    answer = _save(
        saloon, client, "box", box, port_diameter="68 mm", port_length="1.4 m", wanted_tuning=""
    )
    assert answer.status_code == 302
    found = work_out(load(saloon.job)).open_stops
    assert any("port" in one.code for one in found), found


def test_an_empty_job_opens_on_every_page(browse):
    """A job of which nothing is known yet opens everywhere and claims nothing."""
    job = make_job()
    client = browse("manager")
    for name in PAGES:
        assert client.get(reverse(name, args=[job.code])).status_code == 200
    for kind in KINDS:
        assert client.get(reverse(f"{kind.slug}-add", args=[job.code])).status_code == 200
