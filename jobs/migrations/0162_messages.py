import django.db.models.deletion
import uuid
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('jobs', '0161_intake'),
    ]

    operations = [
        migrations.CreateModel(
            name='Message',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('offer', 'offer'), ('addition', 'addition'), ('collect', 'the car can be fetched')], max_length=8)),
                ('key', models.UUIDField(default=uuid.uuid4, unique=True)),
                ('to', models.EmailField(max_length=254, verbose_name='to')),
                ('subject', models.CharField(max_length=120, verbose_name='subject')),
                ('text', models.TextField(verbose_name='text')),
                ('asked_at', models.DateTimeField()),
                ('state', models.CharField(choices=[('waiting', 'waits to be sent'), ('sending', 'is being sent'), ('sent', 'sent'), ('failed', 'not sent'), ('unsure', 'perhaps sent')], default='waiting', max_length=7)),
                ('trouble', models.CharField(blank=True, choices=[('no_server', 'No mail server is set.'), ('no_answer', 'The mail server did not answer.'), ('login', 'The mail server refused the name or the password.'), ('security', 'The mail server does not speak as safely as it is set to.'), ('refused', 'The mail server refused it.'), ('midway', 'The connection broke after it was handed over: ask the customer.'), ('old', 'It waited longer than a day.'), ('erased', 'The person was erased.')], max_length=9)),
                ('reply', models.PositiveSmallIntegerField(null=True)),
                ('tries', models.PositiveSmallIntegerField(default=0)),
                ('next_at', models.DateTimeField(null=True)),
                ('began_at', models.DateTimeField(null=True)),
                ('ended_at', models.DateTimeField(null=True)),
                ('asked_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('job', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='messages', to='jobs.job')),
                ('offer', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='jobs.offer')),
            ],
            options={
                'ordering': ['-asked_at', '-pk'],
                'indexes': [models.Index(fields=['state', 'next_at'], name='jobs_messag_state_2eb086_idx')],
            },
        ),
    ]
