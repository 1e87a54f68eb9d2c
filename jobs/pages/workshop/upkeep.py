"""How the house runs, for the manager: disk, back-up, prints, devices, version."""

from __future__ import annotations

import datetime as dt
import shutil
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from config.workshop.certificate import days_left, read
from jobs import access, sheets, version
from jobs.backup import mark
from jobs.models import PrintOrder, Session

BACKUP_AGE = dt.timedelta(days=2)
FREE_DISK = 0.1  # of the whole
LATELY = dt.timedelta(days=7)
MOST_ROWS = 30
GIGABYTE = 1e9
# The own certificate is made anew two months before its end; then something is amiss.
CERTIFICATE_LEFT = 30  # days


@dataclass(frozen=True, kw_only=True)
class Disk:
    """The disk the data lie on."""

    free: float  # GB
    total: float  # GB

    @property
    def share(self) -> float:
        """How much of it is free."""
        return self.free / self.total if self.total else 0.0

    @property
    def percent(self) -> int:
        """The same as people say it, rounded down."""
        return int(100 * self.share)

    @property
    def is_low(self) -> bool:
        """Whether somebody should make room."""
        return self.share < FREE_DISK


def _disk() -> Disk:
    used = shutil.disk_usage(settings.VAR_DIR)
    return Disk(free=used.free / GIGABYTE, total=used.total / GIGABYTE)


@dataclass(frozen=True, kw_only=True)
class CertificateEnd:
    """When a certificate the front shows runs out."""

    file: str
    at: dt.datetime | None  # unknown where the file cannot be read
    days: int = 0

    @property
    def is_near(self) -> bool:
        """Whether somebody should get another one."""
        return self.at is not None and self.days < CERTIFICATE_LEFT


def _certificate_end(file: str) -> CertificateEnd:
    try:
        certificate = read(Path(file))
    except (OSError, ValueError):
        return CertificateEnd(file=file, at=None)
    return CertificateEnd(
        file=file,
        at=certificate.not_valid_after_utc,
        days=days_left(certificate, timezone.now()),
    )


def _database_size() -> int | None:
    """How much the database takes [bytes]; unknown where there is no way to ask."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_database_size(current_database())")
            return int(cursor.fetchone()[0])
    file = Path(str(connection.settings_dict["NAME"]))
    parts = [file.with_name(file.name + end) for end in ("", "-wal")]
    there = [part.stat().st_size for part in parts if part.is_file()]
    return sum(there) if there else None


@require_safe
def upkeep(request: HttpRequest) -> HttpResponse:
    """Show what somebody who looks after the house has to know, and what to do about it."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    orders = PrintOrder.objects.defer("pdf").select_related("job", "asked_by")
    backup = mark.read()
    now = timezone.now()
    devices = (
        Session.objects.filter(user__isnull=False, expire_date__gt=now, seen_at__gt=now - LATELY)
        .select_related("user")
        .order_by("-seen_at")
    )
    context = {
        "disk": _disk(),
        "backup": backup,
        "backup_is_old": backup is None or backup.age > BACKUP_AGE,
        "prints": sheets.is_alive(),
        "waiting": orders.filter(state__in=("waiting", "printing"))[:MOST_ROWS],
        "failed": orders.filter(state="failed").order_by("-finished_at")[:MOST_ROWS],
        "devices": devices[:MOST_ROWS],
        "database": connection.display_name,
        "database_size": _database_size(),
        "version": version.number(),
        "commit": version.commit(),
        "tls": settings.SECURE,
        "certificates": [_certificate_end(file) for file in settings.CERTIFICATES],
    }
    return render(request, "pages/workshop/upkeep.html", context)


urlpatterns = [path("upkeep/", upkeep, name="upkeep")]
