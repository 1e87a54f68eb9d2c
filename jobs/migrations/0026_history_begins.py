from django.db import migrations
from django.utils import timezone


def note(apps, schema_editor):
    """Let the next entry of each history have one before it to be held against."""
    model = lambda name: apps.get_model('jobs', name)
    for run in model('Run').objects.all():
        stretches = model('Stretch').objects.filter(run=run).order_by('position', 'pk')
        _keep(model('HistoricalRun'), run, {
            'route': [[one.panel_id, one.place, one.follows_loom, one.edge] for one in stretches],
            'wakes': sorted(item.pk for item in run.wakes.all()),
        })
    for amplifier in model('Amplifier').objects.all():
        ratings = model('AmplifierRating').objects.filter(amplifier=amplifier, removed_at=None)
        ordered = ratings.order_by('bridged', '-load')
        _keep(model('HistoricalAmplifier'), amplifier, {
            'ratings': [[one.bridged, one.power, one.load] for one in ordered],
        })
    for name in ('User', 'Workshop'):
        entry = model(f'Historical{name}')
        kept = {field.attname for field in entry._meta.concrete_fields}
        for row in model(name).objects.all():
            values = {one.attname: getattr(row, one.attname) for one in row._meta.concrete_fields}
            entry.objects.create(
                history_date=timezone.now(), history_type='~',
                **{name: value for name, value in values.items() if name in kept},
            )


def _keep(entry, row, hanging):
    newest = entry.objects.filter(id=row.pk).order_by('-history_date', '-history_id').first()
    if newest is not None:
        entry.objects.filter(pk=newest.pk).update(hanging=hanging)


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0025_history_people_can_read'),
    ]

    operations = [
        migrations.RunPython(note, migrations.RunPython.noop),
    ]
