import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


DEMO = ('consultant', 'designer', 'installer', 'manager', 'stranger')


def forwards(apps, schema_editor):
    """Keep each person's one role as the first of several; know the demo by its five people."""
    User, Workshop = apps.get_model('jobs', 'User'), apps.get_model('jobs', 'Workshop')
    for user in User.objects.exclude(role=''):
        user.roles = [user.role]
        user.save(update_fields=['roles'])
    if User.objects.filter(username__in=DEMO).count() == len(DEMO):
        Workshop.objects.update(is_demo=True)


def backwards(apps, schema_editor):
    """Keep of several roles the one that may do most."""
    for user in apps.get_model('jobs', 'User').objects.all():
        may_most = [role for role in ('manager', 'consultant', 'designer', 'installer') if role in user.roles]
        user.role = may_most[0] if may_most else ''
        user.save(update_fields=['role'])


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0013_issued_sheet_fingerprint'),
    ]

    operations = [
        migrations.AddField(
            model_name='user',
            name='language',
            field=models.CharField(blank=True, choices=[('en', 'English'), ('de', 'German')], max_length=8, verbose_name='language'),
        ),
        migrations.AddField(
            model_name='user',
            name='must_change_password',
            field=models.BooleanField(default=False, editable=False),
        ),
        migrations.AddField(
            model_name='user',
            name='roles',
            field=models.JSONField(blank=True, default=list, verbose_name='roles'),
        ),
        migrations.AddField(
            model_name='user',
            name='version',
            field=models.PositiveIntegerField(default=1, editable=False),
        ),
        migrations.AddField(
            model_name='workshop',
            name='is_demo',
            field=models.BooleanField(default=False, editable=False),
        ),
        migrations.RunPython(forwards, backwards),
        migrations.RemoveField(
            model_name='user',
            name='role',
        ),
        migrations.CreateModel(
            name='AccountEvent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('did', models.CharField(choices=[('added', 'added'), ('roles', 'roles changed'), ('password', 'password changed'), ('reset', 'new start password'), ('left', 'left the workshop'), ('back', 'came back'), ('factor-on', 'second factor set up'), ('codes', 'new recovery codes'), ('factor-off', 'second factor taken off')], max_length=12)),
                ('at', models.DateTimeField(auto_now_add=True)),
                ('roles', models.JSONField(default=list)),
                ('by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-pk'],
            },
        ),
        migrations.CreateModel(
            name='Session',
            fields=[
                ('session_key', models.CharField(max_length=40, primary_key=True, serialize=False, verbose_name='session key')),
                ('session_data', models.TextField(verbose_name='session data')),
                ('expire_date', models.DateTimeField(db_index=True, verbose_name='expire date')),
                ('device', models.CharField(blank=True, choices=[('phone', 'a phone'), ('tablet', 'a tablet'), ('computer', 'a computer')], max_length=8)),
                ('address', models.GenericIPAddressField(null=True)),
                ('began_at', models.DateTimeField(null=True)),
                ('seen_at', models.DateTimeField()),
                ('user', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='sessions', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'verbose_name': 'session',
                'verbose_name_plural': 'sessions',
                'abstract': False,
            },
        ),
    ]
