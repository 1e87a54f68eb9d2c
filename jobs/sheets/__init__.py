"""The printed documents. `draft` prints a job as it stands; `issue` freezes it for ever."""

from jobs.sheets.engine import unavailable
from jobs.sheets.issue import KINDS, LANGUAGES, Options, draft, issue

__all__ = ["KINDS", "LANGUAGES", "Options", "draft", "issue", "unavailable"]
