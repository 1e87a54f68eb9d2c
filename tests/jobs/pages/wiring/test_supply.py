"""The supply page and the fields it needs: read by members, entered where each belongs."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import translation

from jobs import units
from jobs.design.job.whole import load, work_out
from jobs.models import Job, PowerNode, Run, Vehicle
from tests.jobs.pages.forms_at import form_at
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


@pytest.fixture
def url(hatchback) -> str:
    return reverse("supply", args=[hatchback.code])


def test_a_member_reads_the_supply_in_figures(hatchback, browse, url):
    """Balance, reserve, drain, notes and heat stand on the page as they were worked out."""
    html = browse("installer").get(url).content.decode()
    supply = work_out(load(hatchback.job)).supply
    with translation.override("en"):
        shown = [units.show(supply.budget.spare_driving, "current")]
        shown.append(units.show(supply.budget.spare_idling, "current"))
        shown.append(units.show(supply.reserves[0].time, "duration"))
        shown.append(units.show(supply.key_off.total, "current"))
        shown += [units.show(one.sag.lowest, "voltage") for one in supply.bass]
        shown += [units.show(one.heat.average, "power") for one in supply.heat]
    for text in shown:
        assert text in html
    assert html.count('data-frame="') == len(supply.bass)
    assert all(f'data-code="{one.code}"' in html for one in supply.findings)
    assert url in browse("installer").get(reverse("power", args=[hatchback.code])).content.decode()


def test_unknown_figures_are_dashes_and_never_zeros(hatchback, browse, url):
    """A figure nobody entered shows as unknown."""
    Vehicle.objects.filter(jobs=hatchback.job).update(vehicle_current=None, sleep_current=None)
    html = browse("designer").get(url).content.decode()
    assert "not measured" in html
    assert 'data-code="vehicle-load-unknown"' in html
    assert "\N{EM DASH}" in html or "\N{EN DASH}" in html


def test_a_tree_with_a_gap_or_without_an_amplifier_says_what_to_do(hatchback, browse, url):
    """The page stands and names the next step."""
    client = browse("designer")
    Run.objects.filter(pk=hatchback.main_run.pk).update(length=None)
    html = client.get(url).content.decode()
    assert "the power tree must be complete first" in html
    PowerNode.objects.filter(job=hatchback.job, kind="amplifier").delete()
    html = client.get(url).content.decode()
    assert "No amplifier in the power tree" in html


def test_strangers_other_methods_and_no_such_job(browse, url):
    """A stranger finds nothing; the page is only read."""
    assert browse("stranger").get(url).status_code == 404
    client = browse("manager")
    assert client.post(url).status_code == 405
    assert client.delete(url).status_code == 405
    assert client.get(reverse("supply", args=["J-9999"])).status_code == 404


def test_the_programme_and_the_wished_time_are_entered_in_the_brief(hatchback, browse):
    """Choosing another programme there changes the average here; half a time is told."""
    client, url = browse("consultant"), reverse("brief", args=[hatchback.code])
    before = work_out(load(hatchback.job)).supply.budget.audio_average
    sent = typed(client.get(url).context["form"])
    wrong = client.post(url, sent | {"reserve_wanted": "a while"})
    assert wrong.status_code == 422
    assert 'id="id_reserve_wanted_error"' in wrong.content.decode()
    right = sent | {"programme": Job.Programme.COMPRESSED, "reserve_wanted": "2 h"}
    assert client.post(url, right).status_code == 302
    job = Job.objects.get(pk=hatchback.job.pk)
    assert job.reserve_wanted == pytest.approx(7200)
    assert work_out(load(job)).supply.budget.audio_average > before


def test_the_figures_of_the_car_are_entered_with_the_car(hatchback, browse):
    """Share left hot, recovery, the maker's limit and the two questions are fields of the car."""
    client, url = browse("designer"), reverse("car", args=[hatchback.code])
    sent = typed(client.get(url).context["form"])
    figures = {
        "charging_hot_share": "80 %",
        "recovery_current": "20 A",
        "accessory_limit": "50 A",
        "smart_charging": "unknown",
        "start_stop": "false",
    }
    answer = client.post(url, sent | figures)
    assert answer.status_code == 302, answer.context["form"].errors
    car = Vehicle.objects.get(jobs=hatchback.job)
    assert car.charging_hot_share == pytest.approx(0.8)
    assert (car.recovery_current, car.accessory_limit) == (20, 50)
    assert car.smart_charging is None
    assert car.start_stop is False


def test_a_part_asleep_may_draw_nothing_but_give_nothing(hatchback, browse):
    """Zero is an answer, a negative current is a slip and told beside its field."""
    node = hatchback.processor_node
    client, url = browse("designer"), reverse("node-edit", args=[hatchback.code, node.pk])
    sent = typed(form_at(url))
    wrong = client.post(url, sent | {"standby_current": "-1 mA"})
    assert wrong.status_code == 422
    assert 'id="id_standby_current_error"' in wrong.content.decode()
    assert client.post(url, sent | {"standby_current": "0"}).status_code == 302
    node.refresh_from_db()
    assert node.standby_current == 0.0


def test_the_battery_is_entered_with_the_rate_of_its_capacity(hatchback, browse):
    """Rated time, exponent and usable share are fields of a battery."""
    node = hatchback.battery
    client, url = browse("designer"), reverse("node-edit", args=[hatchback.code, node.pk])
    sent = typed(form_at(url))
    figures = {"rated_time": "10 h", "peukert": "1.2", "usable_share": "50 %"}
    assert client.post(url, sent | figures).status_code == 302
    node.refresh_from_db()
    assert (node.rated_time, node.peukert, node.usable_share) == (36_000, 1.2, 0.5)


def test_a_look_of_the_supply_is_decided_like_any_other(saloon, browse):
    """The saloon's closed-in amplifier is accepted from the supply page, by name."""
    client, url = browse("consultant"), reverse("supply", args=[saloon.code])
    findings = work_out(load(saloon.job)).findings
    look = next(one for one in findings if one.code == "amplifier-in-closed-space")
    decide = reverse("decide", args=[saloon.code, look.key])
    assert decide in client.get(url).content.decode()
    reason = "A grille goes in above and below it."
    client.post(decide, {"fingerprint": look.fingerprint, "reason": reason})
    html = client.get(url).content.decode()
    assert reason in html
    assert decide not in html
