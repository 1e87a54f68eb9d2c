"""A photo may be of a visit, and then of no panel."""

from __future__ import annotations

from typing import Any

import django.db.models.deletion
from django.db import migrations, models


def behind_a_panel(apps: Any, _editor: Any) -> None:
    """On the way back: a photo of a visit goes to the panel it was about, or to the first one."""
    photos, panels = apps.get_model("jobs", "Photo"), apps.get_model("jobs", "Panel")
    for photo in photos._base_manager.filter(panel=None).select_related("visit"):
        first = panels._base_manager.filter(job=photo.job_id).order_by("position", "pk").first()
        photos._base_manager.filter(pk=photo.pk).update(panel=photo.visit.panel_id or first.pk)


def nothing(_apps: Any, _editor: Any) -> None:
    """On the way here every photo is behind a panel."""


class Migration(migrations.Migration):
    dependencies = [("jobs", "0200_moulded_and_bearing")]

    operations = [
        migrations.AlterModelOptions(
            name="photo",
            options={
                "base_manager_name": "with_removed",
                "ordering": [
                    models.OrderBy(models.F("panel__position"), nulls_last=True),
                    "pk",
                ],
                "verbose_name": "photo",
            },
        ),
        migrations.AddField(
            model_name="historicalphoto",
            name="visit",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="jobs.servicevisit",
                verbose_name="visit",
            ),
        ),
        migrations.AddField(
            model_name="photo",
            name="visit",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="photos",
                to="jobs.servicevisit",
                verbose_name="visit",
            ),
        ),
        migrations.AlterField(
            model_name="photo",
            name="panel",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="photos",
                to="jobs.panel",
                verbose_name="panel",
            ),
        ),
        migrations.RunPython(nothing, behind_a_panel),
    ]
