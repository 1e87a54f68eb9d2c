"""The column `xmax` becomes `linear_travel`: PostgreSQL keeps the former name for itself."""

from django.db import migrations

TABLES = ("jobs_driver", "jobs_historicaldriver")
FORMER, NOW = "xmax", "linear_travel"


def rename(apps, schema_editor):
    """Rename where the table was made before the first migration named it anew."""
    connection = schema_editor.connection
    for table in TABLES:
        with connection.cursor() as cursor:
            described = connection.introspection.get_table_description(cursor, table)
        if FORMER in {column.name for column in described}:
            quoted = [schema_editor.quote_name(name) for name in (table, FORMER, NOW)]
            schema_editor.execute("ALTER TABLE {} RENAME COLUMN {} TO {}".format(*quoted))


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0014_people'),
    ]

    operations = [
        migrations.RunPython(rename, migrations.RunPython.noop),
        # Of equal names the order is the database's own; the key decides it on both.
        migrations.AlterModelOptions(
            name='amplifierrating',
            options={'ordering': ['bridged', '-load', 'pk']},
        ),
        migrations.AlterModelOptions(
            name='customer',
            options={'ordering': ['name', 'pk']},
        ),
        migrations.AlterModelOptions(
            name='part',
            options={'ordering': ['kind', 'maker', 'name', 'pk']},
        ),
        migrations.AlterModelOptions(
            name='run',
            options={'base_manager_name': 'with_removed', 'ordering': ['kind', 'number', 'pk'], 'verbose_name': 'run'},
        ),
        migrations.AlterModelOptions(
            name='vehicle',
            options={'ordering': ['maker', 'model', 'pk']},
        ),
    ]
