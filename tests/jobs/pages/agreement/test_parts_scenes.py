"""What is written down of parts to come, and what is ordered, is what was let stand."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import EquipmentItem, Stage
from tests.approval import figures, hold
from tests.jobs.factories import make_item, make_job, make_part
from tests.jobs.pages.forms.test_row_act_scenes import said
from tests.told import row

pytestmark = pytest.mark.django_db


def test_parts_are_written_down_and_ordered_as_was_let_stand(browse):
    """Ordered, in with shelf and serial number, missing, replaced by one of its kind only."""
    horn = make_part("Horn", supplier="North", order_number="N-1", maker="Low")
    lamp, bulb = make_part("Lamp"), make_part("Bulb", supplier="North")
    first, second, gone = make_job(number=417), make_job(number=418), make_job(number=419)
    items = [make_item(job, part, "boot", quantity=n, state="to_order")
             for job, part, n in ((first, horn, 1), (second, horn, 2), (first, lamp, 1),
                                  (second, bulb, 3), (gone, horn, 9))]  # fmt: skip
    gone.stage = Stage.HANDED_OVER
    gone.save()
    keys = [item.pk for item in items]
    told, client = [], browse("manager")

    def ordered(supplier: str) -> list[str]:
        answer = client.get(reverse("parts-order"), {"supplier": supplier, "csv": ""})
        return answer.content.decode("utf-8-sig").splitlines()

    orders = {"North": ordered("North"), "nobody": ordered(""), "South": ordered("South")}
    for who, act, ticked, more in (
        ("installer", "ordered", keys[:2], {"expected_on": "2026-03-05", "shelf": "B"}),
        ("installer", "missing", keys[2:3], {}),
        ("installer", "in", keys[:1], {"shelf": "A", f"serial-{keys[0]}": " S-1 "}),
        ("installer", "in", keys[1:2], {"shelf": "", f"serial-{keys[1]}": "n" * 121}),
        ("installer", "in", keys[:1], {"shelf": ""}),
        ("installer", "in", [], {}),
        ("installer", "dance", keys[:1], {}),
        ("installer", "ordered", keys[:1], {"expected_on": "soon"}),
        ("installer", "ordered", keys[:1], {"shelf": "s" * 41}),
        ("installer", "replaced", keys[2:3], {"by": bulb.pk}),
        ("designer", "replaced", keys[2:3], {"by": "999999"}),
        ("designer", "replaced", keys[2:3], {"by": bulb.pk}),
        ("installer", "ordered", ["x", "999999"], {}),
    ):
        answer = browse(who).post(
            reverse("parts-act"), {"act": act, "item": ticked, "cover": [], **more}
        )
        told.append(row(who, act, len(ticked), answer.status_code, *said(answer)))
    orders["North later"] = ordered("North")
    kept = [
        row(item.job.code, item.part.name, item.state, str(item.expected_on), item.shelf,
            len(item.serial), item.serial[:3], item.version)
        for item in EquipmentItem.objects.filter(pk__in=keys).order_by("pk")
    ]  # fmt: skip
    hold("parts/written", figures({"said": told, "kept": kept, "orders": orders}))
