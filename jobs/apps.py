"""The one Django app."""

from typing import Any

from django.apps import AppConfig
from django.db import connections
from django.db.migrations.loader import MigrationLoader
from django.db.models import Model
from django.db.models.signals import post_delete, post_migrate, post_save


class JobsConfig(AppConfig):
    """Jobs, their cars and everything built for them."""

    name = "jobs"
    verbose_name = "Undertrim"

    def ready(self) -> None:
        """Write down what each record is found by; finish an upgrade once every migration is in."""
        post_save.connect(write_words)
        post_delete.connect(forget_words)
        post_migrate.connect(finish_upgrade, sender=self)


def write_words(instance: Model, raw: bool = False, **_more: Any) -> None:
    """Keep the words of whatever is saved, wherever it is saved from."""
    from jobs import search

    if not raw:
        search.write(instance)


def forget_words(instance: Model, **_more: Any) -> None:
    """Drop the words of what is deleted."""
    from jobs import search

    search.forget(instance)


def finish_upgrade(using: str, **_more: Any) -> None:
    """Do what no migration can: it needs the tables and the calculators as they are today."""
    loader = MigrationLoader(connections[using])
    if not set(loader.graph.leaf_nodes("jobs")) <= set(loader.applied_migrations):
        return
    from jobs import search
    from jobs.design.job import former_decisions

    former_decisions.match_former_decisions()
    search.write_first()
