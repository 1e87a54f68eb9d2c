"""Glue, tape and screws in the wood shop: what lacks goes on the equipment list, once."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import EquipmentItem, Part, Supply

pytestmark = pytest.mark.django_db


def test_what_lacks_is_put_on_the_list_once(browse, saloon):
    """A tape is chosen and ordered by whole rolls; one whose roll nobody knows is refused."""
    rolls = [
        Supply.objects.create(
            kind=Part.Kind.SUPPLY, name=name, use=Supply.Use.TAPE, pack_length=length
        )
        for name, length in (("Tape A", 0.5), ("Tape B", None))
    ]
    client, url = browse("designer"), reverse("shop-supplies", args=[saloon.code])
    shop = client.get(reverse("shop", args=[saloon.code])).content.decode()
    assert "gasket tape" in shop
    assert "Tape A" in shop
    refused = client.post(url, {"supply-tape": rolls[1].pk}, follow=True).content.decode()
    assert "what a pack holds" in refused
    for _tap in range(2):
        client.post(url, {"supply-tape": rolls[0].pk})
    (item,) = EquipmentItem.objects.filter(job=saloon.job, part=rolls[0].part_ptr)
    assert item.state == EquipmentItem.State.TO_ORDER
    assert item.quantity >= 2  # a driver's rim is more than half a metre of tape
    assert "Tape A" in client.get(reverse("parts")).content.decode()
    # Nonsense in the choice orders nothing.
    client.post(url, {"supply-tape": "bananas"})
    assert EquipmentItem.objects.filter(part=rolls[0].part_ptr).count() == 1
