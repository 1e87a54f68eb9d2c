from django.db import migrations

BOX = ('profile', 'cavity_profile', 'cavity_obstacles', 'inner_braces', 'thicknesses')
TRIM = ('openings',)


def carry(apps, schema_editor):
    """Put every list of a box and of a trim panel into rows, and those of before into history."""
    model = lambda name: apps.get_model('jobs', name)
    for box in model('Box')._base_manager.all():
        for outline, corners in (('own', box.profile), ('cavity', box.cavity_profile)):
            _make(model('BoxCorner'), (
                {'box': box, 'outline': outline, 'x': corner[0], 'y': corner[1]}
                for corner in corners or ()
            ))
        _make(model('Obstacle'), ({'box': box, **_block(one)} for one in box.cavity_obstacles or ()))
        _make(model('InnerBrace'), ({'box': box, **_brace(one)} for one in box.inner_braces or ()))
        _make(model('SideThickness'), (
            {'box': box, 'face': face, 'thickness': thickness}
            for face, thickness in (box.thicknesses or {}).items()
        ))
    for panel in model('TrimPanel')._base_manager.all():
        _make(model('TrimOpening'), (
            {'trim_panel': panel, **dict(zip(('u', 'v', 'width', 'height'), opening))}
            for opening in panel.openings or ()
        ))
    for name, lists in (('HistoricalBox', BOX), ('HistoricalTrimPanel', TRIM)):
        for entry in model(name).objects.all():
            entry.hanging = {**(entry.hanging or {}), **{one: getattr(entry, one) for one in lists}}
            entry.save(update_fields=['hanging'])


def _make(model, rows):
    model.objects.bulk_create(
        [model(position=position, **row) for position, row in enumerate(rows, start=1)]
    )


def _block(one):
    xs, ys = zip(*one['points'])
    return {
        'name': one['name'], 'x': min(xs), 'y': min(ys),
        'depth': max(xs) - min(xs), 'height': max(ys) - min(ys),
        'start': one['start'] or 0.0, 'end': one['end'],
    }


def _brace(one):
    at, second, breadth = (*one['at'], None, None)[:3]
    return {
        'kind': one['kind'], 'at': at, 'second': second, 'breadth': breadth, 'open': one['open'],
    }


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0036_rows_of_shapes'),
    ]

    operations = [
        migrations.RunPython(carry, migrations.RunPython.noop),
    ]
