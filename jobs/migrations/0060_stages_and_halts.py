"""The manager's word for any stage; jobs that are on hold, lost or cancelled."""

from django.db import migrations, models
import django.db.models.deletion


STAGES = [('enquiry', 'enquiry'), ('brief', 'brief'), ('spec', 'spec'), ('agreed', 'agreed'), ('parts', 'parts'), ('bay', 'in the bay'), ('set_up', 'set up'), ('handed_over', 'handed over'), ('aftercare', 'aftercare')]
HALTS = [('on_hold', 'on hold'), ('lost', 'lost'), ('cancelled', 'cancelled')]


def on_job(name, field):
    return [migrations.AddField(model, name, field.clone()) for model in ('job', 'historicaljob')]


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0120_setup_starting_values'),
    ]

    operations = [
        migrations.RenameModel('HandOverRelease', 'StageRelease'),
        migrations.RenameModel('HistoricalHandOverRelease', 'HistoricalStageRelease'),
        migrations.AlterModelOptions('stagerelease', {'base_manager_name': 'with_removed', 'ordering': ['pk'], 'verbose_name': 'stage released'}),
        migrations.AlterModelOptions('historicalstagerelease', {'get_latest_by': ('history_date', 'history_id'), 'ordering': ('-history_date', '-history_id'), 'verbose_name': 'historical stage released', 'verbose_name_plural': 'historical stage releaseds'}),
        migrations.AddField('stagerelease', 'stage', models.CharField(choices=STAGES, default='handed_over', max_length=12, verbose_name='to')),
        migrations.AddField('historicalstagerelease', 'stage', models.CharField(choices=STAGES, default='handed_over', max_length=12, verbose_name='to')),
        *on_job('halt', models.CharField(blank=True, choices=HALTS, default='', max_length=9, verbose_name='does not go on')),
        *on_job('halt_why', models.CharField(blank=True, default='', max_length=240, verbose_name='why it does not')),
        *on_job('look_again_on', models.DateField(blank=True, null=True, verbose_name='look again on')),
        *[migrations.AlterField(model, name, field) for model in ('job', 'historicaljob') for name, field in (
            ('halt', models.CharField(blank=True, choices=HALTS, max_length=9, verbose_name='does not go on')),
            ('halt_why', models.CharField(blank=True, max_length=240, verbose_name='why it does not')),
        )],
    ]
