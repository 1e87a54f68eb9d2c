"""The printed documents, asked for and printed by `printing`."""

from jobs.sheets.chain import is_as_issued
from jobs.sheets.engine import unavailable
from jobs.sheets.issue import draft, issue
from jobs.sheets.printing.orders import (
    ahead_of,
    ask_again,
    ask_for_draft,
    ask_to_issue,
    options_of,
    pages_last_time,
)
from jobs.sheets.printing.worker import is_alive
from jobs.sheets.registry import (
    KINDS,
    LANGUAGES,
    SHEETS,
    Options,
    Sheet,
    may_follow,
    may_open,
)
from jobs.sheets.speaking import spoken
from jobs.sheets.templates import parts_to_pick

__all__ = [
    "KINDS",
    "LANGUAGES",
    "SHEETS",
    "Options",
    "Sheet",
    "ahead_of",
    "ask_again",
    "ask_for_draft",
    "ask_to_issue",
    "draft",
    "is_alive",
    "is_as_issued",
    "issue",
    "may_follow",
    "may_open",
    "options_of",
    "pages_last_time",
    "parts_to_pick",
    "spoken",
    "unavailable",
]
