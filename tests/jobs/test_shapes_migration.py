"""The migrations that made rows of the shapes of boxes and panels: no corner is lost."""

from __future__ import annotations

import pytest
from django.db.migrations.loader import MigrationLoader

NAMES = ("0036_rows_of_shapes", "0037_shapes_as_rows", "0038_shapes_are_rows")
BEFORE = ("jobs", "0047_held_flush_screws")
LISTS = {
    "profile": [[0, 0], [0.4, 0], [0, 0.3]],
    "cavity_profile": [[-0.02, -0.01], [0.37, -0.01], [0.25, 0.385]],
    "cavity_obstacles": [
        {"name": "hinge", "points": [[0.4, 0], [0.5, 0], [0.5, 0.2], [0.4, 0.2]], "start": None,
         "end": 0.25}
    ],
    "inner_braces": [
        {"kind": "shelf", "at": [0.15], "open": 0.5},
        {"kind": "strut up", "at": [0.1, 0.2, 0.03], "open": 0.0},
    ],
    "thicknesses": {"front": 0.022, "left": 0.012},
}  # fmt: skip


@pytest.mark.long  # what is written never changes
def test_every_list_becomes_rows_and_every_entry_keeps_its_own(apart):
    """Corners, blocks, braces, sides and openings are rows; the history keeps what was before."""
    loader = MigrationLoader(None, replace_migrations=False)
    before = loader.project_state(BEFORE)
    names = ("Customer", "Vehicle", "Job", "Box", "TrimPanel")
    models = {name: before.apps.get_model("jobs", name) for name in names}
    past = {name: before.apps.get_model("jobs", f"Historical{name}") for name in names[3:]}
    with apart.schema_editor() as tables:
        for model in before.apps.get_app_config("jobs").get_models():
            tables.create_model(model)
    car = models["Vehicle"].objects.create(customer=models["Customer"].objects.create())
    job = models["Job"].objects.create(number=1, vehicle=car)
    models["Box"].objects.create(job=job, name="first", **LISTS)
    models["Box"].objects.create(job=job, name="bare")
    openings = [[0.2, 0.15, 0.12], [0.08, 0.06, 0.1, 0.04]]
    models["TrimPanel"].objects.create(job=job, name="cover", openings=openings)
    entry = {"history_date": "2026-11-28T12:00Z", "history_type": "+", "id": 1, "job_id": job.pk}
    past["Box"].objects.create(name="first", **entry, **LISTS)
    past["TrimPanel"].objects.create(name="cover", **entry, openings=openings)
    state = before.clone()
    for name in NAMES:
        with apart.schema_editor() as tables:
            state = loader.get_migration("jobs", name).apply(state, tables)
    rows = {
        name: [
            tuple(getattr(row, column) for column in columns)
            for row in state.apps.get_model("jobs", name).objects.order_by("pk")
        ]
        for name, columns in {
            "BoxCorner": ("outline", "position", "x", "y", "bow"),
            "Obstacle": ("name", "x", "y", "depth", "height", "start", "end"),
            "InnerBrace": ("kind", "at", "second", "breadth", "open"),
            "SideThickness": ("face", "thickness"),
            "TrimOpening": ("u", "v", "width", "height"),
        }.items()
    }
    assert rows == {
        "BoxCorner": [
            *(("own", n, x, y, 0.0) for n, (x, y) in enumerate(LISTS["profile"], start=1)),
            *(
                ("cavity", n, x, y, 0.0)
                for n, (x, y) in enumerate(LISTS["cavity_profile"], start=1)
            ),
        ],
        "Obstacle": [("hinge", 0.4, 0.0, 0.5 - 0.4, 0.2, 0.0, 0.25)],
        "InnerBrace": [("shelf", 0.15, None, None, 0.5), ("strut up", 0.1, 0.2, 0.03, 0.0)],
        "SideThickness": [("front", 0.022), ("left", 0.012)],
        "TrimOpening": [(0.2, 0.15, 0.12, None), (0.08, 0.06, 0.1, 0.04)],
    }
    kept = state.apps.get_model("jobs", "HistoricalBox").objects.get().hanging
    assert kept == LISTS
