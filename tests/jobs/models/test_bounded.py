"""A number that a form takes fits into its column, on every kind of database."""

from __future__ import annotations

from django.apps import apps
from django.db.models import IntegerField

from acoustics.carcass.panels import moulded, spacers, trim
from jobs.models import Driver, Ring
from jobs.models.box import moulded as typed

# Source: PostgreSQL 15 documentation, 8.1.1 Integer types; SQLite holds them all.
LARGEST = {"smallint": 32_767, "integer": 2_147_483_647}


def test_no_number_is_allowed_that_its_column_cannot_hold():
    """A mileage beyond 32 767 was taken by SQLite and refused by PostgreSQL."""
    checked = 0
    for model in apps.get_app_config("jobs").get_models():
        for field in model._meta.concrete_fields:
            most = getattr(field, "most", None)
            if isinstance(field, IntegerField) and most is not None:
                checked += 1
                small = "Small" in field.get_internal_type()
                assert most <= LARGEST["smallint" if small else "integer"], field
    assert checked > 20


def test_a_form_takes_as_many_as_the_calculator_works_out():
    """A list that is longer would be taken and then refused; one that is shorter is a limit too
    many. Of screws a data sheet may name as many as a ring."""
    assert (typed.MOST_FILLS, typed.MOST_SECTIONS) == (moulded.MOST_FILLS, moulded.MOST_SECTIONS)
    most = {name: Ring._meta.get_field(name).most for name in ("spacers", "screws", "layers")}
    assert most == {
        "spacers": spacers.MOST_SPACERS,
        "screws": trim.MOST_SCREWS,
        "layers": trim.MOST_LAYERS,
    }
    assert Driver._meta.get_field("screws").most == trim.MOST_SCREWS
