"""The one Django app."""

from typing import Any

from django.apps import AppConfig
from django.db import connections
from django.db.migrations.loader import MigrationLoader
from django.db.models.signals import post_migrate


class JobsConfig(AppConfig):
    """Jobs, their cars and everything built for them."""

    name = "jobs"
    verbose_name = "Undertrim"

    def ready(self) -> None:
        """Finish an upgrade once every migration is in."""
        post_migrate.connect(match_former_decisions, sender=self)


def match_former_decisions(using: str, **_more: Any) -> None:
    """Match decisions from before findings knew their record.

    No migration can do it: it takes the calculators, and they need the tables as they are today.
    """
    loader = MigrationLoader(connections[using])
    if not set(loader.graph.leaf_nodes("jobs")) <= set(loader.applied_migrations):
        return
    from jobs.design.job import former_decisions

    former_decisions.match_former_decisions()
