"""The hand-over as a page behind the customer's link; the language of customers and workshop."""

from __future__ import annotations

from django.db import migrations, models
from django.db.models.deletion import CASCADE

from jobs.models.sheets import new_token

LANGUAGES = [("en", "English"), ("de", "German")]


def of_a_customer() -> models.CharField:
    """Return the language of a customer."""
    return models.CharField(
        "language",
        max_length=8,
        choices=LANGUAGES,
        blank=True,
        help_text="Of what is printed for them and of the pages behind their links.",
    )


def of_the_workshop() -> models.CharField:
    """Return the language of a workshop."""
    return models.CharField(
        "language",
        max_length=8,
        choices=LANGUAGES,
        default="en",
        help_text="Of what is printed for a customer with whom no language is entered.",
    )


class Migration(migrations.Migration):
    """Two columns and a table."""

    dependencies = [("jobs", "0155_packs")]

    operations = [
        *(
            migrations.AddField(model_name=name, name="language", field=of_a_customer())
            for name in ("customer", "historicalcustomer")
        ),
        *(
            migrations.AddField(model_name=name, name="language", field=of_the_workshop())
            for name in ("workshop", "historicalworkshop")
        ),
        migrations.CreateModel(
            name="CustomerPage",
            fields=[
                (
                    "id",
                    models.BigAutoField("ID", primary_key=True, auto_created=True, serialize=False),
                ),
                ("token", models.CharField(max_length=22, unique=True, default=new_token)),
                ("html", models.TextField()),
                ("photos", models.JSONField(default=list)),
                ("withdrawn_at", models.DateTimeField(null=True)),
                (
                    "job",
                    models.OneToOneField("jobs.job", CASCADE, related_name="customer_page"),
                ),
                ("sheet", models.ForeignKey("jobs.issuedsheet", CASCADE, related_name="+")),
            ],
        ),
    ]
