"""The workshop's own choices are saved by whoever knows what stands there."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import Workshop
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def test_who_saves_on_top_of_another_is_told_once(browse):
    """What was typed stays, what the other saved is named; the next save replaces it knowingly."""
    url, client = reverse("workshop"), browse("manager")
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"phone": "000 555 0123"}).status_code == 302
    told = client.post(url, sent | {"name": "Another name"})
    assert told.status_code == 422
    page = " ".join(told.content.decode().split())
    assert "Saved meanwhile: Phone." in page
    assert 'value="Another name"' in page
    assert (Workshop.current().phone, Workshop.current().name) == ("000 555 0123", sent["name"])
    again = typed(told.context["form"])
    assert client.post(url, again).status_code == 302
    assert (Workshop.current().phone, Workshop.current().name) == (sent["phone"], "Another name")


def test_a_workshop_nobody_has_entered_yet_is_entered_here(browse):
    """A new installation has no such row until its manager saves it."""
    url, client = reverse("workshop"), browse("manager")
    Workshop.objects.all().delete()
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"name": "Entered first"}).status_code == 302
    assert Workshop.current().name == "Entered first"
