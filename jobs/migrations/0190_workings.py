"""The workings: what the figures of a job rest on, on a sheet of their own."""

from __future__ import annotations

from django.db import migrations, models

KINDS = [
    ("build", "build sheet"),
    ("panels", "panel record"),
    ("handover", "hand-over"),
    ("cut", "cut sheet"),
    ("templates", "paper templates"),
    ("cables", "cable sheet"),
    ("labels", "cable labels"),
    ("compare", "boxes side by side"),
    ("spec", "spec and price"),
    ("setup", "set-up sheet"),
    ("options", "options side by side"),
    ("intake", "intake"),
    ("glovebox", "glove box page"),
    ("customer", "pack for the customer"),
    ("bay", "pack for the bay"),
    ("workings", "workings"),
]


class Migration(migrations.Migration):
    """One more kind."""

    dependencies = [("jobs", "0181_mileage")]

    operations = [
        migrations.AlterField(
            model_name=name, name="kind", field=models.CharField(max_length=10, choices=KINDS)
        )
        for name in ("issuedsheet", "printorder")
    ]
