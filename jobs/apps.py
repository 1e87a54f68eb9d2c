"""The one Django app."""

from django.apps import AppConfig


class JobsConfig(AppConfig):
    """Jobs, their cars and everything built for them."""

    name = "jobs"
    verbose_name = "Undertrim"
