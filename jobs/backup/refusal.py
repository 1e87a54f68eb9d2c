"""Why a back-up is not made or not restored."""


class BackupError(Exception):
    """One line for the person at the terminal; nothing has been changed."""
