import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0171_own_plans'),
    ]

    operations = [
        migrations.CreateModel(
            name='HistoricalAbsence',
            fields=[
                ('id', models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name='ID')),
                ('hanging', models.JSONField(null=True)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('entry_token', models.UUIDField(db_index=True, editable=False, null=True)),
                ('removed_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('first_day', models.DateField(verbose_name='day')),
                ('last_day', models.DateField(blank=True, null=True, verbose_name='until')),
                ('from_time', models.TimeField(blank=True, null=True, verbose_name='from')),
                ('to_time', models.TimeField(blank=True, null=True, verbose_name='to')),
                ('kind', models.CharField(choices=[('holiday', 'holiday'), ('sick', 'sick'), ('other', 'away')], default='holiday', max_length=7, verbose_name='why')),
                ('history_id', models.AutoField(primary_key=True, serialize=False)),
                ('history_date', models.DateTimeField(db_index=True)),
                ('history_change_reason', models.CharField(max_length=100, null=True)),
                ('history_type', models.CharField(choices=[('+', 'Created'), ('~', 'Changed'), ('-', 'Deleted')], max_length=1)),
                ('history_user', models.ForeignKey(null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('person', models.ForeignKey(blank=True, db_constraint=False, null=True, on_delete=django.db.models.deletion.DO_NOTHING, related_name='+', to=settings.AUTH_USER_MODEL, verbose_name='person')),
            ],
            options={
                'verbose_name': 'historical absence',
                'verbose_name_plural': 'historical absences',
                'ordering': ('-history_date', '-history_id'),
                'get_latest_by': ('history_date', 'history_id'),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name='Absence',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('entry_token', models.UUIDField(editable=False, null=True, unique=True)),
                ('removed_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('first_day', models.DateField(verbose_name='day')),
                ('last_day', models.DateField(blank=True, null=True, verbose_name='until')),
                ('from_time', models.TimeField(blank=True, null=True, verbose_name='from')),
                ('to_time', models.TimeField(blank=True, null=True, verbose_name='to')),
                ('kind', models.CharField(choices=[('holiday', 'holiday'), ('sick', 'sick'), ('other', 'away')], default='holiday', max_length=7, verbose_name='why')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='absences', to=settings.AUTH_USER_MODEL, verbose_name='person')),
            ],
            options={
                'verbose_name': 'absence',
                'ordering': ['first_day', 'from_time', 'pk'],
                'indexes': [models.Index(fields=['first_day', 'last_day'], name='jobs_absenc_first_d_0257b9_idx')],
            },
        ),
    ]
