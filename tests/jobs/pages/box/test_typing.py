"""What a key on the box page costs and leaves out: little is read, nothing folded is drawn."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.design.job.whole import findings_at, load, load_for_box, typed_box
from jobs.models import Box, Driver, Part, SheetMaterial
from tests.jobs.factories import make_item_as_built
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


@pytest.fixture(params=["hatchback", "saloon", "van"])
def scene(request, hatchback, saloon, van):
    return {"hatchback": hatchback, "saloon": saloon, "van": van}[request.param]


def said(records: Any, box: Box) -> dict[str, Any]:
    """Everything the page says of a box: figures, curves and findings with their decisions."""
    result = typed_box(records, box)
    findings = findings_at(records, result)
    return {
        "figures": [(figure.name, figure.value) for figure in result.figures],
        "curves": {name: curve.values.tolist() for name, curve in result.curves.items()},
        "findings": [(f.key, f.fingerprint, str(f.says), f.is_open) for f in findings],
        "trouble": result.trouble,
    }


def test_what_is_read_for_a_box_says_the_same_as_the_whole_job(scene):
    """A box worked out from the few rows read while it is typed is that of the whole job."""
    job = scene.job
    for pk in [box.pk for box in load(job).boxes]:
        whole, little = (
            said(records, next(box for box in records.boxes if box.pk == pk))
            for records in (load(job), load_for_box(job, Box.objects.get(pk=pk)))
        )
        assert whole == little
        assert whole["findings"]


def test_rows_that_were_not_read_stop_whoever_asks_for_them(hatchback):
    """They are never taken for none."""
    records = load_for_box(hatchback.job, hatchback.box)
    with pytest.raises(LookupError):
        list(records.panels)
    with pytest.raises(LookupError):
        len(records.grounds)
    with pytest.raises(LookupError):
        assert not records.payments


def test_a_key_reads_little(hatchback, browse, django_assert_max_num_queries):
    """Its queries do not follow what else the job holds."""
    ask, _sent = asked(hatchback, browse)
    ask(width="461 mm")
    with django_assert_max_num_queries(31):
        assert ask(width="462 mm").status_code == 200


def test_a_key_reads_the_sheets_of_wood_once(hatchback):
    """The sheet a box is cut from is among those the workshop buys."""
    box = Box.objects.get(pk=hatchback.box.pk)
    assert box.material_id
    with CaptureQueriesContext(connection) as read:
        load_for_box(hatchback.job, box)
    table = SheetMaterial._meta.db_table
    assert sum(f'FROM "{table}"' in query["sql"] for query in read) == 1


def asked(scene, browse):
    """Return who asks for the box as typed, with some fields changed, and what was sent."""
    client = browse("designer")
    page = client.get(reverse("box-edit", args=[scene.code, scene.box.pk]))
    sent = typed(page.context["form"]) | {"row": scene.box.pk}
    url = reverse("box-preview", args=[scene.code])
    return lambda **more: client.post(url, sent | more), sent


def test_what_is_folded_away_is_not_drawn_at_every_key(hatchback, browse):
    """Views, further curves and cut list come when they are unfolded, or were never folded."""
    ask, _sent = asked(hatchback, browse)
    whole = ask(width="461 mm").content.decode()
    folded = ask(width="461 mm", folded=["box-more", "box-list"]).content.decode()
    for word in ("Group delay", "taken by the driver"):
        assert (word in whole, word in folded) == (True, False), word
    assert folded.count('hx-trigger="toggle from:closest details once"') == 2
    assert 'hx-trigger="toggle' not in whole
    # What stands in sight is the same.
    for word in ("Level at 1 m", "Cone travel", "net volume"):
        assert word in folded


def saved_values(answer) -> list[str]:
    """The last saved values beside those being typed."""
    return [was for _label, _now, was in answer.context["results"]]


def test_the_saved_box_beside_is_worked_out_anew_when_a_figure_of_its_driver_changes(
    hatchback, browse
):
    """It is remembered for the same figures only, whoever changed them."""
    ask, _sent = asked(hatchback, browse)
    before = saved_values(ask(width="500 mm"))
    assert saved_values(ask(width="510 mm")) == before
    part = Driver.objects.get(pk=hatchback.sub.part_id)
    part.vas *= 1.5
    part.save()
    assert saved_values(ask(width="510 mm")) != before


def test_a_box_being_typed_plays_the_driver_that_was_really_fitted(hatchback, browse, cast, shelf):
    """Typed and saved agree on the driver, as it is in the car."""
    ask, _sent = asked(hatchback, browse)
    make_item_as_built(hatchback.sub, cast.installer, part=Part.objects.get(pk=shelf["flat"].pk))
    result = ask(width="461 mm").context["result"]
    assert result.driver.vas == pytest.approx(Driver.objects.get(pk=shelf["flat"].pk).vas)


def test_a_second_port_in_the_way_is_said_at_its_own_place(saloon, browse):
    """What stands in the second port is moved by the second port's place, not by the first's."""
    ask, _sent = asked(saloon, browse)
    tube = {"second_port_diameter": "30 mm", "second_port_length": "100 mm"}
    answer = ask(**tube, second_port_face="front", second_port_u="450 mm", second_port_v="185 mm")
    codes = {finding.code for finding in answer.context["findings"]}
    assert "parts-collide" in codes
    fields = answer.context["form"].fields
    assert "second port" in fields["second_port_u"].said
    assert not hasattr(fields["port_u"], "said")
