"""`manage.py print_worker`: print what is asked for, where no server starts this process itself."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

from django.core.management.base import BaseCommand

from config.server import end_when_told
from jobs.sheets.printing.worker import Worker


class Command(BaseCommand):
    """Print until told to stop."""

    help = "Print the sheets that are asked for; the server starts such a process by itself."

    def handle(self, *args: Any, **options: Any) -> None:
        """Print; what is begun when told to stop waits for the next one."""
        worker = Worker()
        end_when_told(worker.leave)
        with suppress(KeyboardInterrupt):
            worker.run()
