"""The door a web server knocks on."""

import os
from threading import Thread

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
application = get_wsgi_application()

from jobs import sheets, units  # noqa: E402 - needs Django set up


def _warm_up() -> None:
    """Load what the first conversion and the first look at the PDF engine would load."""
    units.show(0.0, "length")
    sheets.unavailable()


Thread(target=_warm_up, daemon=True).start()
