"""A job is started from nothing, for a car that was here before, or like an earlier job."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.records.sides import in_the_mirror
from jobs.models import CarTemplate, Customer, Job, Vehicle
from tests.jobs.factories import make_car, make_job
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db
START = reverse("new-job")


@pytest.fixture
def plated(hatchback):
    """The hatchback with a plate."""
    Vehicle.objects.filter(pk=hatchback.job.vehicle_id).update(plate="OX 417-T")
    hatchback.job.refresh_from_db()
    hatchback.job.vehicle.save()
    return hatchback


def _car(**other: str) -> dict[str, str]:
    return {
        "new_customer": "Somebody New",
        "maker": "Maker",
        "model": "Model",
        "driver_side": "left",
        "energy": "combustion",
        "title": "A quiet one",
    } | other


@pytest.mark.parametrize("plate", ["ox417t", "OX 417 T", "ox-417 T"])
def test_a_known_plate_brings_its_car(plated, browse, plate):
    """However it is written, it is asked for once, and the same car keeps its row and its jobs."""
    client = browse("consultant")
    offered = client.get(reverse("known-cars"), {"plate": plate})
    assert f'value="same {plated.code}"' in offered.content.decode()
    sent = typed(client.get(START).context["form"]) | _car(plate=plate)
    asked = client.post(START, sent)
    assert asked.status_code == 422
    assert 'id="id_plate_error"' in asked.content.decode()
    assert f'value="same {plated.code}"' in asked.content.decode()
    chosen = client.post(START, sent | {"choose": f"same {plated.code}"})
    assert chosen.status_code == 200
    form = chosen.context["form"]
    assert "maker" not in form.fields
    assert form["title"].value() == "A quiet one"
    page = typed(form) | {"like": plated.code, "same": "1", "new_customer": ""}
    answer = client.post(START, page)
    assert answer.status_code == 302
    new = Job.objects.first()
    assert new.vehicle_id == plated.job.vehicle_id
    assert new.equipmentitems.count() == plated.job.equipmentitems.count()
    assert client.post(START, page).url == answer.url
    assert Job.objects.filter(vehicle=plated.job.vehicle).count() == 2


def test_another_car_may_bear_the_plate(plated, browse):
    """Somebody says so, and it gets a row of its own."""
    client = browse("consultant")
    sent = typed(client.get(START).context["form"]) | _car(plate="OX 417 T")
    page = client.post(START, sent | {"choose": "another"})
    assert page.context["form"]["plate"].value() == "OX 417 T"
    assert client.post(START, sent | {"another": "1"}).status_code == 302
    assert Job.objects.first().vehicle_id != plated.job.vehicle_id


def test_a_car_under_another_owner_leaves_the_earlier_visit_with_who_came_then(plated, browse):
    """The new job has a row of the car to itself, with all its figures."""
    client, owner = browse("consultant"), plated.job.vehicle.customer
    page = client.get(START, {"like": plated.code, "same": "1"})
    sent = typed(page.context["form"]) | {
        "like": plated.code,
        "same": "1",
        "known_customer": "",
        "new_customer": "The Next Owner",
        "title": "A second visit",
    }
    assert client.post(START, sent).status_code == 302
    new, before = Job.objects.first(), Job.objects.get(pk=plated.job.pk)
    assert (before.vehicle.customer, str(new.vehicle.customer)) == (owner, "The Next Owner")
    assert new.vehicle.battery_place == before.vehicle.battery_place
    assert Customer.objects.filter(name="The Next Owner").count() == 1


def test_a_second_car_of_the_model_starts_like_the_first(hatchback, browse):
    """The ticks are set; what is unticked is left out, and the car's figures come with a look."""
    client, car = browse("designer"), hatchback.job.vehicle
    offered = client.get(reverse("known-cars"), {"maker": car.maker.lower(), "model": car.model})
    assert f'value="like {hatchback.code}"' in offered.content.decode()
    page = client.get(START, {"like": hatchback.code})
    form = page.context["form"]
    assert form["maker"].value() == car.maker
    ticks = form["taken"].value()
    assert {"car", "equipment", "panels", "cables"} <= set(ticks)
    taken = [code for code in ticks if code != "values"]
    sent = typed(form) | _car(maker=car.maker, model=car.model)
    sent |= {"taken": taken, "like": hatchback.code, "driver_side": car.driver_side}
    assert client.post(START, sent).status_code == 302
    new = Job.objects.first()
    assert new.runs.count() == hatchback.job.runs.count()
    assert not new.measurements.exists()
    assert new.vehicle.figures_from == hatchback.code


def test_a_car_driven_from_the_other_side_is_asked_about_once(hatchback, browse):
    """Nothing that was typed is lost; left and right are swapped or kept, as somebody says."""
    client, car = browse("designer"), hatchback.job.vehicle
    form = client.get(START, {"like": hatchback.code}).context["form"]
    other = "left" if car.driver_side == "right" else "right"
    sent = typed(form) | _car(maker=car.maker, model=car.model, driver_side=other)
    sent |= {"taken": ["equipment", "panels"], "like": hatchback.code}
    answer = client.post(START, sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert 'id="id_sides_error"' in html
    assert "A quiet one" in html
    assert client.post(START, sent | {"sides": "swap"}).status_code == 302
    there = set(hatchback.job.panels.values_list("name", "side"))
    here = set(Job.objects.first().panels.values_list("name", "side"))
    assert here != there
    turn = {"left": "right", "right": "left"}
    assert here == {(in_the_mirror(name), turn.get(side, side)) for name, side in there}


def test_a_job_that_has_begun_takes_over_what_it_has_not(hatchback, browse):
    """Installers may not, a number nobody has is told, and an unknown tick is refused."""
    car = hatchback.job.vehicle
    job = make_job(make_car(maker=car.maker, model=car.model, driver_side=car.driver_side))
    url = reverse("take", args=[job.code])
    client = browse("designer")
    assert browse("stranger").get(url).status_code == 404
    assert browse("installer").post(url).status_code == 403
    assert client.delete(url).status_code == 405
    assert f"?like={hatchback.code}" in client.get(url).content.decode()
    assert "There is no job J-9999." in client.get(url, {"like": "j-9999"}).content.decode()
    ticks = client.get(url, {"like": hatchback.code.lower()}).context["form"].offered
    assert "equipment" in {offer.code for offer in ticks}
    Vehicle.objects.filter(pk=job.vehicle_id).update(driver_side="right")
    asked = client.post(url, {"like": hatchback.code, "taken": ["panels"]})
    assert asked.status_code == 422
    assert "left and right" in asked.context["form"].errors["sides"][0]
    Vehicle.objects.filter(pk=job.vehicle_id).update(driver_side=car.driver_side)
    wrong = client.post(url, {"like": hatchback.code, "taken": ["the moon"]})
    assert wrong.status_code == 422
    sent = {"like": hatchback.code, "taken": ["equipment", "channels"]}
    assert client.post(url, sent).status_code == 302
    assert job.channels.count() == hatchback.job.channels.count()
    left = client.get(url, {"like": hatchback.code}).context["form"].offered
    assert "equipment" not in {offer.code for offer in left}


def test_the_car_page_leads_to_what_earlier_jobs_of_the_model_know(hatchback, browse):
    """Whoever decides what is built is offered them; an installer and another model are not."""
    car = hatchback.job.vehicle
    alike = make_job(make_car(maker=car.maker.upper(), model=car.model))
    other = make_job(make_car(maker=car.maker, model="Quite another"))
    offer = f"?like={hatchback.code}"
    assert offer in browse("designer").get(reverse("car", args=[alike.code])).content.decode()
    assert offer not in browse("installer").get(reverse("car", args=[alike.code])).content.decode()
    assert offer not in browse("designer").get(reverse("car", args=[other.code])).content.decode()


def test_an_earlier_job_nobody_may_see_gives_nothing(hatchback, browse):
    """A number that is typed into the address answers as any job that is not there."""
    client = browse("consultant")
    assert client.get(START, {"like": "J-9999"}).status_code == 404
    assert client.get(reverse("known-cars")).status_code == 200
    assert browse("installer").get(reverse("known-cars")).status_code == 403
    assert browse("stranger").get(reverse("known-cars")).status_code == 404
    assert client.post(reverse("known-cars")).status_code == 405


def test_a_job_starts_from_the_template_of_a_model(hatchback, browse):
    """Offered before a model is typed and for its own; what is typed stays, the rest is filled."""
    client, template = browse("consultant"), CarTemplate.objects.get()
    Vehicle.objects.filter(pk=hatchback.job.vehicle_id).update(battery_place="boot floor, right")
    named = f'value="template {template.pk}"'
    assert named in client.get(START).content.decode()
    other = client.get(reverse("known-cars"), {"maker": "Another", "model": "Car"})
    assert named not in other.content.decode()
    chosen = client.post(START, _car(maker="", model="Five Plus", choose=named[7:-1]))
    form = chosen.context["form"]
    assert (form["model"].value(), form["maker"].value()) == ("Five Plus", "Hatchmaker")
    assert form["taken"].value() == ["car", "panels", "cavities"]
    sent = typed(form) | _car(maker="Hatchmaker", model="Five Plus") | {"template": template.pk}
    assert client.post(START, sent | {"like": hatchback.code}).status_code == 302
    job = Job.objects.first()
    assert (job.vehicle.model, job.vehicle.battery_place) == ("Five Plus", "boot floor, right")
    assert job.panels.count() == hatchback.job.panels.count()
    room = job.boxes.get()
    assert room.cavity_profile == hatchback.box.cavity_profile
    assert (room.driver, room.width, job.equipmentitems.count()) == (None, None, 0)


def test_a_template_has_a_name_of_its_own(hatchback, browse):
    """A second one of that name would not say which car; it is told whose the first is."""
    url = reverse("car-template-add", args=[hatchback.code])
    answer = browse("designer").post(url, {"name": "five, ALL years", "takes": ["panels"]})
    assert answer.status_code == 422
    assert f"{hatchback.code} is kept under this name already." in answer.content.decode()
