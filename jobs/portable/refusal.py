"""Why a file is not taken in."""


class RefusedFileError(Exception):
    """Why, in words for whoever brought it; nothing was changed."""
