"""What a proxy says of a visitor is believed of named proxies only."""

from __future__ import annotations

import ipaddress
from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse

# Headers in which a proxy tells of the visitor behind it, and anybody may lie.
TOLD = (
    *("HTTP_X_FORWARDED_FOR", "HTTP_X_FORWARDED_PROTO", "HTTP_X_FORWARDED_HOST"),
    *("HTTP_X_FORWARDED_PORT", "HTTP_X_REAL_IP", "HTTP_FORWARDED"),
)
Address = ipaddress.IPv4Address | ipaddress.IPv6Address


def believed(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """Put the visitor's own address where every later part looks for it."""

    def answer(request: HttpRequest) -> HttpResponse:
        peer = _address(request.META.get("REMOTE_ADDR", ""))
        if _is_proxy(peer):
            visitor = _nearest_stranger(request.META.get("HTTP_X_FORWARDED_FOR", ""))
            request.META["REMOTE_ADDR"] = str(visitor or peer)
        else:
            for header in TOLD:
                request.META.pop(header, None)
        return get_response(request)

    return answer


def _nearest_stranger(told: str) -> Address | None:
    """Read the list from its end: what stands before the first stranger he may have written."""
    for text in reversed(told.split(",")):
        address = _address(text)
        if not _is_proxy(address):
            return address
    return None


def _address(text: str) -> Address | None:
    """Return an address, or none where there is no such thing."""
    try:
        address = ipaddress.ip_address(text.strip())
    except ValueError:
        return None
    return getattr(address, "ipv4_mapped", None) or address


def _is_proxy(address: Address | None) -> bool:
    return address is not None and any(address in proxy for proxy in settings.PROXIES)
