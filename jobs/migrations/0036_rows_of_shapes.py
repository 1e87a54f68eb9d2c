import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0047_held_flush_screws'),
    ]

    operations = [
        migrations.CreateModel(
            name='BoxCorner',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('x', models.FloatField(verbose_name='across')),
                ('y', models.FloatField(verbose_name='up')),
                ('bow', models.FloatField(default=0.0, verbose_name='bow of the edge after it')),
                ('outline', models.CharField(choices=[('own', 'own side profile'), ('cavity', 'cavity, side profile')], max_length=6, verbose_name='outline')),
                ('box', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='corners', to='jobs.box')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='InnerBrace',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('kind', models.CharField(choices=[('shelf', 'shelf'), ('upright', 'upright'), ('plate', 'plate'), ('strut across', 'strut across'), ('strut along', 'strut along'), ('strut up', 'strut up')], max_length=12, verbose_name='kind')),
                ('at', models.FloatField(verbose_name='at')),
                ('second', models.FloatField(blank=True, null=True, verbose_name='and at')),
                ('breadth', models.FloatField(blank=True, null=True, verbose_name='breadth')),
                ('open', models.FloatField(default=0.0, verbose_name='share cut out')),
                ('box', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='braces', to='jobs.box')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='Obstacle',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('name', models.CharField(max_length=60, verbose_name='name')),
                ('x', models.FloatField(verbose_name='front edge at')),
                ('y', models.FloatField(verbose_name='lower edge at')),
                ('depth', models.FloatField(verbose_name='depth')),
                ('height', models.FloatField(verbose_name='height')),
                ('start', models.FloatField(default=0.0, verbose_name='from the left')),
                ('end', models.FloatField(blank=True, null=True, verbose_name='to')),
                ('box', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='obstacles', to='jobs.box')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='SideThickness',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('face', models.CharField(choices=[('front', 'front'), ('rear', 'rear'), ('top', 'top'), ('bottom', 'bottom'), ('left', 'left'), ('right', 'right'), ('lower rear', 'lower rear'), ('upper rear', 'upper rear'), ('toe top', 'toe top'), ('riser', 'riser'), ('side 1', 'side 1'), ('side 2', 'side 2'), ('side 3', 'side 3'), ('side 4', 'side 4'), ('side 5', 'side 5'), ('side 6', 'side 6'), ('side 7', 'side 7'), ('side 8', 'side 8')], max_length=12, verbose_name='side')),
                ('thickness', models.FloatField(verbose_name='thickness')),
                ('box', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='sides', to='jobs.box')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='TrimCorner',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('x', models.FloatField(verbose_name='across')),
                ('y', models.FloatField(verbose_name='up')),
                ('bow', models.FloatField(default=0.0, verbose_name='bow of the edge after it')),
                ('trim_panel', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='corners', to='jobs.trimpanel')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='TrimOpening',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(editable=False)),
                ('u', models.FloatField(verbose_name='middle, from the left')),
                ('v', models.FloatField(verbose_name='middle, from below')),
                ('width', models.FloatField(verbose_name='width, or diameter')),
                ('height', models.FloatField(blank=True, null=True, verbose_name='height')),
                ('trim_panel', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='cut_outs', to='jobs.trimpanel')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'abstract': False,
            },
        ),
    ]
