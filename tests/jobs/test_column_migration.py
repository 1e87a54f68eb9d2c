"""The migration that renamed a column PostgreSQL keeps for itself: no figure is lost."""

from __future__ import annotations

from django.db.migrations.loader import MigrationLoader

BEFORE, AFTER = ("jobs", "0014_people"), ("jobs", "0015_both_databases")


def test_linear_travel_is_kept_where_its_column_had_another_name(apart):
    """Tables made by the first migration of before have `xmax`; those made since do not."""
    loader = MigrationLoader(None, replace_migrations=False)
    migration, before = loader.get_migration(*AFTER), loader.project_state(BEFORE)
    with apart.cursor() as tables:
        tables.execute("CREATE TABLE jobs_driver (xmax real)")
        tables.execute("INSERT INTO jobs_driver (xmax) VALUES (0.0125)")
        tables.execute("CREATE TABLE jobs_historicaldriver (linear_travel real)")
    with apart.schema_editor() as editor:
        migration.apply(before.clone(), editor)
    with apart.cursor() as tables:
        tables.execute("SELECT linear_travel FROM jobs_driver")
        assert tables.fetchall() == [(0.0125,)]
        tables.execute("SELECT linear_travel FROM jobs_historicaldriver")
        assert tables.fetchall() == []
