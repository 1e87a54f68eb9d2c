"""What a watcher asks without signing in: whether the app is up, and whether it can work."""

from __future__ import annotations

from collections.abc import Callable

from django.db import DatabaseError, InterfaceError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse, HttpResponseNotAllowed, JsonResponse

HEALTH, READY = "/health/", "/ready/"


def probed(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """Answer a watcher before anything else asks the database, or a browser to come by TLS."""

    def answer(request: HttpRequest) -> HttpResponse:
        if request.path_info not in (HEALTH, READY):
            return get_response(request)
        if request.method not in ("GET", "HEAD"):
            return HttpResponseNotAllowed(["GET", "HEAD"])
        trouble = _trouble() if request.path_info == READY else ""
        says = {"ok": not trouble} | ({"trouble": trouble} if trouble else {})
        return JsonResponse(says, status=503 if trouble else 200)

    return answer


def _trouble() -> str:
    """Return what keeps the app from working, empty when nothing does; a word, no detail."""
    try:
        executor = MigrationExecutor(connection)
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            return "migrations"
    except (DatabaseError, InterfaceError):
        return "database"
    return ""
