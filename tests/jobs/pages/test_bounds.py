"""A figure that cannot be is refused where it is typed, and what was typed stays."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import Channel, Customer, FactoryPart, Job, PowerNode
from tests.jobs.factories import make_factory_part
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db


def _refused(client, url, name, text, **more):
    """Send one field changed; return what is said beside it."""
    sent = typed(client.get(url).context["form"]) | more | {name: text}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), name, text)
    assert list(answer.context["form"].errors) == [name]
    return str(answer.context["form"].errors[name])


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("cabin_length", "2.9 mm", "at least"),
        ("cabin_length", "20 m", "at most"),
        ("charging_hot_share", "250 %", "at most"),
        ("year", "20", "1886"),
        ("year", "1800", "1886"),
        ("year", "3000", "at most"),
        ("vin", "ABC", "seventeen"),
        ("vin", "WVWZZZ1KZ3O123456", "seventeen"),  # an O for a zero
        ("battery_charge", "7000 Ah", "at most"),
        ("sleep_current", "50 A", "at most"),
    ],
)
def test_the_car(hatchback, browse, name, text, says):
    """What no car has is told at its field, with the limit in the unit it is read in."""
    client, url = browse("consultant"), reverse("car", args=[hatchback.code])
    assert says in _refused(client, url, name, text)


def test_a_limit_is_said_in_the_unit_of_the_field(hatchback, browse):
    """A limit of a length reads as a length, never as a bare number of metres."""
    client, url = browse("consultant"), reverse("car", args=[hatchback.code])
    assert "500" in _refused(client, url, "cabin_length", "2.9 mm").replace("\u00a0", " ")


def test_the_year_may_be_the_next(hatchback, browse):
    """Cars of the coming year are sold before it begins; the year after is a slip."""
    client, url = browse("consultant"), reverse("car", args=[hatchback.code])
    next_year = timezone.localdate().year + 1
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"year": str(next_year)}).status_code == 302
    _refused(client, url, "year", str(next_year + 1))


def test_an_old_car_may_have_a_short_number(hatchback, browse):
    """Seventeen characters came with ISO 3779; before 1981 makers numbered as they liked."""
    client, url = browse("consultant"), reverse("car", args=[hatchback.code])
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"year": "1968", "vin": "118 417"}).status_code == 302


def test_idle_above_rated(hatchback, browse):
    """A generator gives less at idle than it is rated for."""
    client, url = browse("consultant"), reverse("car", args=[hatchback.code])
    _refused(client, url, "charging_current_idle", "200 A", charging_current="150 A")


def test_a_channel_on_which_nothing_is_left(hatchback, browse):
    """A high-pass above the low-pass leaves silence."""
    url = reverse("channel-edit", args=[hatchback.code, hatchback.bass.pk])
    _refused(browse("designer"), url, "highpass_frequency", "2.5 kHz")


def test_a_speaker_of_ours_and_one_of_the_factory(hatchback, browse):
    """One channel drives the one or the other."""
    other = FactoryPart.objects.filter(job=hatchback.job, kind="speaker").first()
    url = reverse("channel-edit", args=[hatchback.code, hatchback.bass.pk])
    client = browse("designer")
    sent = typed(client.get(url).context["form"]) | {"factory_speaker": str(other.pk)}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["factory_speaker"]


def test_only_a_speaker_that_stays_is_offered(hatchback, browse):
    """A head unit, or a speaker that was taken out, is no speaker that stays in use."""
    gone = make_factory_part(hatchback.job, "dashboard", fate="removed")
    head = make_factory_part(hatchback.job, "centre stack", kind="head_unit", fate="in_use")
    url = reverse("channel-add", args=[hatchback.code])
    offered = browse("designer").get(url).context["form"].fields["factory_speaker"].queryset
    assert {gone.pk, head.pk}.isdisjoint(offered.values_list("pk", flat=True))
    assert offered.exists()


def test_no_power_below_the_lowest_load(hatchback, browse, as_loaded):
    """Below what an amplifier is made for no figure of its power is printed."""
    row = hatchback.bass
    Channel.objects.filter(pk=row.pk).update(speaker_count=12, coil_connection="parallel")
    answer = browse("designer").get(reverse("channels", args=[hatchback.code]))
    result = next(one for one in answer.context["plan"] if one.channel.pk == row.pk)
    assert result.below_lowest
    assert result.power_there is None
    beside = next(one for one in answer.context["table"].rows if one.record.pk == row.pk).beside
    assert dict(beside)["power"] == "—"


@pytest.mark.parametrize(
    ("name", "text"), [("voltage", "130 V"), ("cca", "7000 A"), ("usable_share", "800 %")]
)
def test_a_source_no_car_has(hatchback, browse, name, text):
    """A slip of ten or of a unit is told before the tree is worked out with it."""
    url = reverse("node-edit", args=[hatchback.code, hatchback.battery.pk])
    assert "at most" in _refused(browse("designer"), url, name, text)
    assert PowerNode.objects.get(pk=hatchback.battery.pk).voltage == hatchback.battery.voltage


@pytest.mark.parametrize(
    ("name", "text", "more"),
    [
        ("coils", "7", {}),
        ("cutout_diameter", "210 mm", {"outer_diameter": "200 mm", "bolt_circle": ""}),
        ("bolt_circle", "170 mm", {"outer_diameter": "165 mm", "cutout_diameter": "140 mm"}),
        ("bolt_circle", "130 mm", {"outer_diameter": "165 mm", "cutout_diameter": "140 mm"}),
        ("magnet_height", "80 mm", {"depth": "70 mm"}),
        ("xmax", "4 m", {}),
        ("re", "3.4 kΩ", {}),
    ],
)
def test_a_driver_that_cannot_be(shelf, browse, name, text, more):
    """Sizes and figures no driver has are told at the one that is wrong."""
    url = reverse("part-edit", args=[shelf["woofer"].pk])
    _refused(browse("consultant"), url, name, text, **more)


def test_an_amplifier_for_no_voltage(shelf, browse):
    """The lowest voltage it works at lies below the highest it stands."""
    url = reverse("part-edit", args=[shelf["six"].pk])
    _refused(browse("consultant"), url, "minimum_voltage", "16 V", highest_voltage="14.4 V")


def test_an_amplifier_that_idles_above_its_fuse(shelf, browse):
    """What it takes without a signal is far below what its fuse bears."""
    url = reverse("part-edit", args=[shelf["six"].pk])
    _refused(browse("consultant"), url, "quiescent_current", "9 A", fuse_rating="8 A")


NEW = {
    "maker": "Hatchmaker",
    "model": "Five",
    "driver_side": "left",
    "energy": "combustion",
    "title": "A box",
}


def test_a_known_and_a_new_customer_are_asked_about(hatchback, browse):
    """Neither is dropped in silence: nothing is made until one of the two is empty."""
    known = Customer.objects.get(pk=hatchback.job.vehicle.customer_id)
    before = Job.objects.count()
    client, url = browse("consultant"), reverse("new-job")
    both = NEW | {"known_customer": known.name, "new_customer": "Somebody Else"}
    answer = client.post(url, both)
    assert answer.status_code == 422
    assert Job.objects.count() == before
    told = str(answer.context["form"].errors["new_customer"])
    assert known.name in told
    assert "Somebody Else" in told
    assert client.post(url, both | {"known_customer": ""}).status_code == 302


def test_a_driver_of_before_there_were_limits_fits_nothing_and_says_why(hatchback, browse):
    """A stored cut-out wider than its flange is a sentence on the page, not an error."""
    driver = hatchback.sub.part.driver
    type(driver).objects.filter(pk=driver.pk).update(outer_diameter=0.2, cutout_diameter=0.21)
    client, url = browse("designer"), reverse("fit-box", args=[hatchback.code, hatchback.box.pk])
    sent = typed(client.get(url).context["form"]) | {"facing": "front"}
    assert client.post(url, sent).status_code in {200, 422}
