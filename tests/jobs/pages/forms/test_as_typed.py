"""A figure comes back as it was written, as long as the text still says what is stored."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import translation

from jobs.models import Box, Driver
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _saved(client, url, **texts):
    sent = typed(client.get(url).context["form"]) | texts
    assert client.post(url, sent).status_code == 302
    return client.get(url).context["form"]


@pytest.mark.parametrize("text", ["0.6 cu ft", "0,6 cu ft", "16.99 L", "1037 cu in", "¾ cu ft"])
def test_a_figure_comes_back_as_it_was_typed(shelf, browse, text):
    """Whatever unit it was written in stands there the next time, and a save keeps it."""
    client, url = browse("consultant"), reverse("part-edit", args=[shelf["woofer"].pk])
    form = _saved(client, url, vas=text)
    assert form["vas"].value() == text
    stored = Driver.objects.get(pk=shelf["woofer"].pk).vas
    again = _saved(client, url, notes="looked at once more")
    assert again["vas"].value() == text
    assert Driver.objects.get(pk=shelf["woofer"].pk).vas == stored


def test_a_bare_number_is_shown_with_its_unit(shelf, browse):
    """A number without a unit is read in the workshop's, and says so from then on."""
    client, url = browse("consultant"), reverse("part-edit", args=[shelf["woofer"].pk])
    assert _saved(client, url, vas="21")["vas"].value() == "21 L"


def test_what_changed_the_figure_is_not_hidden_by_an_old_text(shelf, browse):
    """A figure that something else changed is shown, never the text of before."""
    client, url = browse("consultant"), reverse("part-edit", args=[shelf["woofer"].pk])
    _saved(client, url, vas="0.6 cu ft")
    Driver.objects.filter(pk=shelf["woofer"].pk).update(vas=0.02)
    assert client.get(url).context["form"]["vas"].value() == "20 L"


def test_a_text_another_language_reads_otherwise(shelf, browse):
    """A decimal comma that would group thousands elsewhere is not shown there."""
    client, url = browse("consultant"), reverse("part-edit", args=[shelf["woofer"].pk])
    with translation.override("de"):
        sent = typed(client.get(url).context["form"]) | {"vas": "1,250 cu ft"}
        headers = {"Accept-Language": "de"}
        client.cookies["django_language"] = "de"
        assert client.post(url, sent, headers=headers).status_code == 302
    client.cookies["django_language"] = "en"
    shown = client.get(url).context["form"]["vas"].value()
    assert shown in {"1,250 cu ft", "35.39606 L"}
    assert Driver.objects.get(pk=shelf["woofer"].pk).vas == pytest.approx(1.25 * 0.3048**3)


def test_the_same_in_a_box_and_in_the_cell_of_a_table(hatchback, browse):
    """Inches on a box and feet of cable in a row stand there as they were typed."""
    client = browse("designer")
    url = reverse("box-edit", args=[hatchback.code, hatchback.box.pk])
    assert _saved(client, url, width="18.25 in")["width"].value() == "18.25 in"
    assert Box.objects.get(pk=hatchback.box.pk).width == pytest.approx(18.25 * 0.0254)
    run = hatchback.main_run
    _saved(client, reverse("run-edit", args=[hatchback.code, run.pk]), length="16' 6\"")
    table = client.get(reverse("power", args=[hatchback.code])).context["runs"][0]
    row = next(row for row in table.rows if row.record.pk == run.pk)
    controls = " ".join(str(cell.control) for column in row.columns for cell in column)
    assert "16&#x27; 6&quot;" in controls


def test_who_else_saved_sees_no_quarrel_in_a_spelling(hatchback, browse):
    """Of two people on one record, one who retypes a figure in inches changes that figure alone."""
    run = hatchback.main_run
    url = reverse("run-edit", args=[hatchback.code, run.pk])
    client = browse("designer")
    opened = typed(client.get(url).context["form"])
    _saved(browse("consultant"), url, length="5 m 20 cm")
    assert client.post(url, opened | {"zone": "boot"}).status_code == 302
    form = client.get(url).context["form"]
    assert (form["length"].value(), form["zone"].value()) == ("5 m 20 cm", "boot")
