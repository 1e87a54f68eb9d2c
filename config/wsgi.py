"""The door a web server knocks on."""

import os
from threading import Thread

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
application = get_wsgi_application()

from jobs import units  # noqa: E402 - needs Django set up

# The first conversion of a process loads the unit registry; nobody should wait for it.
Thread(target=units.show, args=(0.0, "length"), daemon=True).start()
