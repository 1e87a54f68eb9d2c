"""The printed documents. `draft` prints a job as it stands; `issue` freezes it for ever."""

from jobs.sheets.engine import unavailable
from jobs.sheets.issue import draft, is_intact, issue
from jobs.sheets.registry import KINDS, LANGUAGES, SHEETS, Options, Sheet, may_open

__all__ = [
    "KINDS",
    "LANGUAGES",
    "SHEETS",
    "Options",
    "Sheet",
    "draft",
    "is_intact",
    "issue",
    "may_open",
    "unavailable",
]
