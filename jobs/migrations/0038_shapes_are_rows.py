from django.db import migrations


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0037_shapes_as_rows'),
    ]

    operations = [
        migrations.RemoveField(
            model_name='box',
            name='cavity_obstacles',
        ),
        migrations.RemoveField(
            model_name='box',
            name='cavity_profile',
        ),
        migrations.RemoveField(
            model_name='box',
            name='inner_braces',
        ),
        migrations.RemoveField(
            model_name='box',
            name='profile',
        ),
        migrations.RemoveField(
            model_name='box',
            name='thicknesses',
        ),
        migrations.RemoveField(
            model_name='historicalbox',
            name='cavity_obstacles',
        ),
        migrations.RemoveField(
            model_name='historicalbox',
            name='cavity_profile',
        ),
        migrations.RemoveField(
            model_name='historicalbox',
            name='inner_braces',
        ),
        migrations.RemoveField(
            model_name='historicalbox',
            name='profile',
        ),
        migrations.RemoveField(
            model_name='historicalbox',
            name='thicknesses',
        ),
        migrations.RemoveField(
            model_name='historicaltrimpanel',
            name='openings',
        ),
        migrations.RemoveField(
            model_name='trimpanel',
            name='openings',
        ),
    ]
