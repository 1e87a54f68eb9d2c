"""How a phone learns to trust the workshop's own certificate."""

from __future__ import annotations

import pytest
from django.test import Client, override_settings
from django.urls import reverse

from config.workshop.certificate import Place, fingerprint, make_authority, read

pytestmark = pytest.mark.django_db


def test_everybody_may_read_how(tmp_path):
    """Nobody is signed in on a phone that cannot speak to the app yet; its digits fit a phone."""
    place = Place(folder=tmp_path)
    make_authority(place, "Invented workshop", ["bench.workshop.test"])
    with override_settings(AUTHORITY=str(place.authority)):
        answer = Client().get(reverse("certificate"))
    assert answer.status_code == 200
    pairs = fingerprint(read(place.authority)).split(":")
    lines = [":".join(pairs[at : at + 8]) for at in range(0, 32, 8)]
    assert "<br>".join(lines) in answer.content.decode()
    assert Client().post(reverse("certificate")).status_code == 405


@pytest.mark.parametrize("authority", ["", "/nowhere/authority.crt", "manage.py"])
def test_without_one_there_is_no_such_page(authority):
    """An installation with a given certificate, or none, has nothing to show."""
    with override_settings(AUTHORITY=authority):
        assert Client().get(reverse("certificate")).status_code == 404
