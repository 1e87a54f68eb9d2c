"""Issued sheets in a chain, each with a code of its own; those of before are chained as they are."""

from __future__ import annotations

from django.db import migrations, models


def chain(apps, schema_editor):
    """Give every sheet its code and its link, oldest first."""
    from jobs.models.sheets import token_of
    from jobs.sheets.chain import digest, link

    sheets = apps.get_model("jobs", "IssuedSheet")
    jobs = apps.get_model("jobs", "Job")
    for job in sheets.objects.order_by().values_list("job_id", flat=True).distinct():
        before = ""
        for sheet in sheets.objects.filter(job_id=job).defer("pdf").order_by("pk").iterator():
            sheet.token = token_of(job, sheet.kind, sheet.revision)
            sheet.data_sha256 = digest(sheet.data)
            before = sheet.link = link(sheet, before)
            sheet.save(update_fields=["token", "data_sha256", "link"])
        jobs.objects.filter(pk=job).update(last_link=before)


class Migration(migrations.Migration):
    """Columns first without a rule, filled, then each code its own."""

    dependencies = [("jobs", "0140_photos_behind_links")]

    operations = [
        migrations.AddField(
            "job", "last_link", models.CharField(blank=True, editable=False, max_length=64, default=""),
            preserve_default=False,
        ),
        migrations.AddField(
            "historicaljob", "last_link",
            models.CharField(blank=True, editable=False, max_length=64, default=""),
            preserve_default=False,
        ),
        migrations.AddField(
            "issuedsheet", "data_sha256", models.CharField(max_length=64, default=""),
            preserve_default=False,
        ),
        migrations.AddField(
            "issuedsheet", "link", models.CharField(max_length=64, default=""),
            preserve_default=False,
        ),
        migrations.AddField(
            "issuedsheet", "reason",
            models.CharField(blank=True, max_length=240, verbose_name="what is new", default=""),
            preserve_default=False,
        ),
        migrations.AddField("issuedsheet", "token", models.CharField(max_length=22, null=True)),
        migrations.RunPython(chain, migrations.RunPython.noop),
        migrations.AlterField(
            "issuedsheet",
            "token",
            models.CharField(max_length=22, unique=True),
        ),
    ]  # fmt: skip
