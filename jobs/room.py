"""Whether something failed for want of room on a disk, whoever ran out of it."""

from __future__ import annotations

import errno

# How each kind of database says that its disk is full.
# Source: sqlite.org/rescode.html (SQLITE_FULL); PostgreSQL, Appendix A, Error Codes (disk_full)
SQLITE_FULL, POSTGRES_FULL = "SQLITE_FULL", "53100"
FULL = {errno.ENOSPC, errno.EDQUOT}


def is_out_of_room(error: BaseException | None) -> bool:
    """Tell a full disk from everything else; Django keeps what a database said as the cause."""
    if isinstance(error, OSError):
        return error.errno in FULL
    cause = getattr(error, "__cause__", None)
    return (
        getattr(cause, "sqlite_errorname", "") == SQLITE_FULL
        or getattr(cause, "sqlstate", "") == POSTGRES_FULL
    )
