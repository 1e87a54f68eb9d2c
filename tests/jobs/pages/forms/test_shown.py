"""What a page says of its findings and choices, against what the job holds."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import Customer, Job, Part, PowerNode
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def codes(html: str) -> list[str]:
    """Return the code of every finding a page shows."""
    return sorted(re.findall(r'data-code="([^"]+)"', html))


@pytest.mark.parametrize(
    "section", ["car", "equipment", "channels", "boxes", "power", "panels", "findings"]
)
def test_a_page_shows_what_its_step_counts(hatchback, van, saloon, browse, section):
    """No step of the strip counts a finding its page is silent about."""
    client = browse("designer")
    for scene in (hatchback, van, saloon):
        design = work_out(load(scene.job))
        meant = design.findings if section == "findings" else design.findings_of(section)
        page = client.get(reverse(section, args=[scene.code])).content.decode()
        assert codes(page) == sorted(one.code for one in meant)


def test_a_source_without_a_voltage_is_named(hatchback):
    """A battery nobody measured stops the tree, by its name and in plain words."""
    battery = hatchback.battery
    PowerNode.objects.filter(pk=battery.pk).update(voltage=None)
    design = work_out(load(hatchback.job))
    [stop] = [one for one in design.findings_of("power") if one.code == "source-without-voltage"]
    assert stop.severity == "stop"
    assert battery.name in stop.says
    assert "None" not in stop.says
    assert design.power.worst is None


def test_known_customers_are_found_by_part_of_their_name(hatchback, browse):
    """The list offers whom it knows, with a number where two have one name."""
    twin = Customer.objects.create(name="Hanna Lind")
    page = browse("consultant").get(reverse("customers"), {"known_customer": "lind"})
    assert f"Hanna Lind #{twin.pk}" in page.content.decode()
    assert page.content.decode().count("<option") == 2
    assert browse("stranger").get(reverse("customers")).status_code == 404
    assert browse("installer").get(reverse("customers")).status_code == 403


@pytest.mark.parametrize(
    ("text", "found"), [("Hanna Lind", True), ("hanna lind #{pk}", True), ("Hanna", False)]
)
def test_a_job_starts_with_a_known_customer(hatchback, browse, text, found):
    """A whole name or a numbered one is enough; a part of one is refused and kept."""
    hanna = Customer.objects.get(name="Hanna Lind")
    client = browse("consultant")
    url = reverse("new-job")
    sent = typed(client.get(url).context["form"]) | {
        "known_customer": text.format(pk=hanna.pk),
        "maker": "Maker",
        "model": "Model",
        "driver_side": "left",
        "energy": "combustion",
        "title": "More bass",
    }
    answer = client.post(url, sent)
    assert (answer.status_code == 302) is found
    if found:
        assert Job.objects.latest("number").vehicle.customer == hanna
    else:
        assert 'id="id_known_customer_error"' in answer.content.decode()
        assert text in answer.content.decode()


def test_two_of_one_name_are_told_apart(hatchback, browse):
    """A name two customers share is asked about."""
    Customer.objects.create(name="Hanna Lind")
    client = browse("consultant")
    sent = {"known_customer": "Hanna Lind", "title": "More bass"}
    answer = client.post(reverse("new-job"), sent)
    assert answer.status_code == 422
    assert "Two have this name" in answer.content.decode()


def test_a_part_entered_for_a_job_goes_back_to_it(hatchback, browse):
    """Who misses a part enters it and finds it chosen on the equipment form."""
    client = browse("consultant")
    catalogue = client.get(reverse("catalogue"), {"job": hatchback.code}).content.decode()
    add = reverse("part-add", args=[Part.Kind.OTHER]) + f"?job={hatchback.code}"
    assert add in catalogue
    answer = client.post(add, {"name": "Grommet set", "tax_class": "standard"}, follow=True)
    part = Part.objects.get(name="Grommet set")
    assert answer.request["PATH_INFO"] == reverse("item-add", args=[hatchback.code])
    assert re.search(rf'<option value="{part.pk}" selected', answer.content.decode())
    elsewhere = client.post(
        add.replace(hatchback.code, "//evil.example"), {"name": "Tape", "tax_class": "standard"}
    )
    assert elsewhere["Location"].startswith(reverse("catalogue"))


@pytest.mark.parametrize("slug", ["box", "run", "node"])
def test_a_group_steps_aside_in_every_language(hatchback, browse, slug):
    """Fields that mean nothing for the kind are marked so, whatever language the page is in."""
    client = browse("designer")
    url = reverse(f"{slug}-add", args=[hatchback.code])
    english, german = (
        re.findall('data-only="([^"]+)"', client.get(url, headers={"accept-language": one}).text)
        for one in ("en", "de")
    )
    assert english
    assert german == english


def test_beside_a_sentence_stand_figures_alone(hatchback, browse):
    """A value in words, such as which way of a cable, stands in the sentence and not once more."""
    hatchback.job.runs.filter(kind="P").update(conductor=None)
    page = browse("designer").get(reverse("power", args=[hatchback.code])).content.decode()
    assert "conductor-unknown" in page
    beside = re.findall(r"<dt>(?:here|limit)</dt>\s*<dd>([^<]*)</dd>", page)
    assert beside
    assert all(re.match(r"[-−]?\d", one) for one in beside)


def test_what_does_not_pass_is_not_proposed(hatchback, browse):
    """Where no choice passes, no cable or fuse stands under what would be chosen."""
    run = hatchback.main_run
    hatchback.job.runs.filter(pk=run.pk).update(return_kind="")
    page = browse("designer").get(reverse("choose", args=[hatchback.code])).content.decode()
    assert "Nothing passes" in page
    chosen = re.findall(r'data-label="would be chosen">\s*(.*?)\s*</td>', page, re.DOTALL)
    assert chosen
    assert set(chosen) == {"–"}


def test_sizes_of_cables_are_written_as_the_reader_writes_them(hatchback, browse):
    """On a German page every size has its decimal comma, what would be chosen too."""
    url = reverse("choose", args=[hatchback.code])
    page = browse("designer").get(url, headers={"accept-language": "de"}).content.decode()
    sizes = re.findall(r"[\d.,]+(?=(?:\s|&nbsp;)mm²)", page)
    assert any("," in one for one in sizes)
    assert not any("." in one for one in sizes)


def test_a_name_in_a_sentence_carries_no_record_number(hatchback, browse):
    """The tree tells its nodes apart by record number; what a person reads is the name alone."""
    hatchback.job.runs.filter(kind="P").update(fuse=None)
    page = browse("designer").get(reverse("power", args=[hatchback.code])).content.decode()
    assert "unprotected-conductor" in codes(page)
    assert f"has no fuse where it leaves {hatchback.block}. " in page
    assert "<dt>limit</dt><dd>fuse" not in page
