"""“Go there” opens the page where a finding is cured, at its field."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.records.decisions import OF_THE_CAR
from jobs.design.wording import WORDS
from jobs.models import Decision, Vehicle
from jobs.pages.history import places
from jobs.pages.history.kinds import ROWS
from jobs.pages.job.brief import BriefForm
from jobs.pages.job.car import VehicleForm
from jobs.pages.job.equipment import EquipmentForm
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db


def _cure(scene, section, code, kind, key):
    return reverse("cure", args=[scene.code, section, code, kind, key])


def test_a_code_names_a_field_there_is():
    """Every code is one a finding has, and its field stands on the form it leads to."""
    maps = (places.ON_THE_CAR, places.IN_THE_BRIEF, places.ON_THE_EQUIPMENT, places.ON_THE_RECORD)
    assert set().union(*maps, places.ON_ITS_PAGE) <= set(WORDS)
    assert set(places.ON_THE_CAR.values()) <= set(VehicleForm.base_fields)
    assert set(places.IN_THE_BRIEF.values()) <= set(BriefForm.base_fields)
    assert set(places.ON_THE_EQUIPMENT.values()) <= set(EquipmentForm.base_fields)
    fields = set().union(*(row.form.base_fields for row in ROWS))
    assert set(places.ON_THE_RECORD.values()) <= fields


def test_it_leads_to_the_record_and_the_field(hatchback, browse):
    """A run's length to its form, a figure of the car to the car, air to the equipment."""
    client, run = browse("designer"), hatchback.main_run
    at = reverse("run-edit", args=[hatchback.code, run.pk])
    assert client.get(_cure(hatchback, "power", "length-unknown", "run", run.pk)).url == (
        f"{at}#id_length"
    )
    car = _cure(hatchback, "power", "vehicle-load-unknown", "vehicle", 1)
    assert client.get(car).url.endswith("/car/#id_vehicle_current")
    node = hatchback.six_node
    item = reverse("item-edit", args=[hatchback.code, node.equipment_id])
    air = _cure(hatchback, "power", "amplifier-air-unknown", "powernode", node.pk)
    assert client.get(air).url == f"{item}#id_ventilated"
    many = _cure(hatchback, "panels", "not-placed", "equipmentitem", node.equipment_id)
    assert client.get(many).url == reverse("panels", args=[hatchback.code])


def test_where_there_is_no_record_to_open_it_leads_to_the_page(hatchback, van, browse):
    """A row of another job, one that is not saved, a page there is not; an installer plans none."""
    run = van.job.runs.first()
    power = reverse("power", args=[hatchback.code])
    client = browse("designer")
    for key in (run.pk, "new", "9" * 30):
        assert client.get(_cure(hatchback, "power", "length-unknown", "run", key)).url == power
    findings = reverse("findings", args=[hatchback.code])
    assert client.get(_cure(hatchback, "nowhere", "x", "y", "1")).url == findings
    mine = _cure(hatchback, "power", "length-unknown", "run", hatchback.main_run.pk)
    assert browse("installer").get(mine).url == power
    assert browse("stranger").get(mine).status_code == 404
    assert client.post(mine).status_code == 405


def test_a_caution_of_the_car_is_ticked_once(hatchback, browse, cast):
    """Ticked on one job it is known on the next of the same car, by the same name."""
    client = browse("designer")
    Vehicle.objects.filter(pk=hatchback.job.vehicle_id).update(energy=Vehicle.Energy.HYBRID)
    car = reverse("car", args=[hatchback.code])
    page = client.get(car)
    caution = next(row for row in page.context["cautions"] if row.code == "high-voltage-car")
    url = reverse("caution-known", args=[hatchback.code, caution.key])
    assert url in page.content.decode()
    assert browse("installer").post(url).status_code == 403
    assert client.get(url).status_code == 405
    client.post(url, {"fingerprint": "0" * 64})
    assert not Decision.objects.filter(code="high-voltage-car").exists()
    client.post(url, {"fingerprint": caution.fingerprint})
    later = make_job(Vehicle.objects.get(pk=hatchback.job.vehicle_id))
    page = client.get(reverse("car", args=[later.code]))
    again = next(row for row in page.context["cautions"] if row.code == "high-voltage-car")
    assert again.decision.decided_by == cast.designer
    spec = client.get(reverse("findings", args=[hatchback.code])).context["groups"][0].findings
    other = next(row for row in spec if row.code not in OF_THE_CAR and row.is_open)
    asked = reverse("caution-known", args=[hatchback.code, other.key])
    answer = client.post(asked, {"fingerprint": other.fingerprint})
    assert answer.url == reverse("decide", args=[hatchback.code, other.key])
