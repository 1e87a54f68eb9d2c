"""The public address of an installation, as it is typed into the settings."""

from __future__ import annotations

from urllib.parse import urlsplit

from django.core.exceptions import ImproperlyConfigured


def public_host(address: str) -> str:
    """Return the name in `https://name`, empty for no address; anything else is refused.

    A path would never be reached, and an address that phones call unsafe is none to print.
    """
    if not address:
        return ""
    parts = urlsplit(address)
    if (
        parts.scheme != "https"
        or not parts.hostname
        or "@" in address
        or parts.netloc != address[len("https://") :]
    ):
        message = f"UNDERTRIM_PUBLIC is {address!r}; it must be https://name, without a path."
        raise ImproperlyConfigured(message)
    return parts.hostname
