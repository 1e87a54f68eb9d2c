"""The table of enclosures: every kind has its row, its load and its words."""

from __future__ import annotations

import pytest

from acoustics.enclosure.alignments import Shape
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import (
    Door,
    InfiniteBaffle,
    PassiveRadiatorBox,
    Sealed,
    Vented,
)
from acoustics.enclosure.port import Port, RoundOpening
from jobs.design.box.enclosures import enclosure
from jobs.design.wording.targets import undefined
from jobs.models import Box, Driver, EquipmentItem
from jobs.models.box.box_kinds import BOX_KINDS
from jobs.pages.box.box_form import BoxForm

# What each kind presents to the driver, by its definition.
LOADS = {
    Box.Kind.SEALED: Sealed,
    Box.Kind.VENTED: Vented,
    Box.Kind.PASSIVE_RADIATOR: PassiveRadiatorBox,
    Box.Kind.BAND_PASS_4: BandPass,
    Box.Kind.BAND_PASS_6: BandPass,
    Box.Kind.INFINITE_BAFFLE: InfiniteBaffle,
    Box.Kind.DOOR: Door,
}
CONE = Driver(name="cone", fs=20.0, qms=8.0, qes=20.0, re=3.5, vas=0.06, sd=0.03)
FIGURES = {
    "name": "box",
    "ql": 7.0,
    "front_volume": 0.02,
    "rear_port_diameter": 0.08,
    "rear_port_length": 0.2,
}


def test_every_kind_has_its_row():
    """A kind that can be chosen stands in the table, and nothing else does."""
    assert set(BOX_KINDS) == set(Box.Kind)


@pytest.mark.parametrize("kind", Box.Kind)
def test_every_kind_has_its_load(kind):
    """A box with every figure entered comes to the load of its kind."""
    radiator = EquipmentItem(part=CONE)
    CONE.driver = CONE
    box = Box(kind=kind, radiator=radiator, **FIGURES)
    port = Port(opening=RoundOpening(diameter=0.1), length=0.2)
    assert isinstance(enclosure(box, 0.05, port), LOADS[kind])


@pytest.mark.parametrize("kind", Box.Kind)
def test_what_a_kind_does_not_define_is_said(kind):
    """A target is either solved for a kind or refused in words, never both and never neither."""
    row = BOX_KINDS[kind]
    for figure in ("qtc", "f3", "volume", "loudest", "fb", "band"):
        assert bool(undefined(kind, figure)) == (figure not in row.targets)
    assert any(undefined(kind, shape) for shape in Shape) == (kind != Box.Kind.VENTED)


def test_fields_show_where_the_table_has_what_they_are_of():
    """Every group of fields that belongs to a kind belongs to at least one, and not to all."""
    shown = [kinds for kinds in BoxForm.only_for.values() if set(kinds) <= set(Box.Kind)]
    assert len(shown) == 7
    assert all(0 < len(kinds) < len(Box.Kind) for kinds in shown)
