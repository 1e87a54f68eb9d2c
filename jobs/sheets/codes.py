"""Codes that a phone reads off paper: an address of this app, drawn as strokes."""

from __future__ import annotations

from functools import lru_cache

import segno
from django.conf import settings
from django.urls import reverse

from jobs.models import Workshop

QUIET = 4  # modules left white round a code: ISO/IEC 18004
# A printed module smaller than this is lost on a scuffed label; common practice, no source.
SMALLEST_MODULE = 0.4e-3
# Bytes in a code of version 15 at level M (ISO/IEC 18004, table 7): 77 modules and the quiet zone
# are 0.42 mm each in a square of 36 mm.
LONGEST_TEXT = 412


def address(workshop: Workshop, path: str) -> str:
    """Return the full address of a page, or nothing while nobody has entered where the app is."""
    return workshop.web_address.rstrip("/") + path if workshop.web_address else ""


def public_address(path: str) -> str:
    """Return where everybody finds a public page, or nothing where there is no public address."""
    return settings.PUBLIC + path if settings.PUBLIC else ""


def standing_uri(workshop: Workshop, token: str) -> str:
    """Draw the code of an issued sheet, which says whether there is a newer one; or nothing.

    It leads to the public address, and where there is none to the workshop's own.
    """
    path = reverse("sheet-standing", args=[token])
    leads_to = public_address(path) or address(workshop, path)
    return code_uri(leads_to) if leads_to else ""


def module(text: str, side: float) -> float:
    """Return the size of one module of a code that fills a square of this side, in metres."""
    return float(side / segno.make_qr(text).symbol_size(border=QUIET)[0])


@lru_cache(maxsize=256)
def code_uri(text: str) -> str:
    """Draw a text as a picture of a code, quiet zone included.

    Strokes, not pixels: a poor printer would grey the edges of pixels until no phone reads them.
    """
    return str(segno.make_qr(text).svg_data_uri(border=QUIET, omitsize=True))


def fits(text: str) -> bool:
    """Whether a text goes into a code that is printed as words, not as an address."""
    return len(text.encode()) <= LONGEST_TEXT


@lru_cache(maxsize=256)
def text_uri(text: str) -> str:
    """Draw a text of several lines as a code, at the level that a scratch does not spoil."""
    code = segno.make_qr(text, error="m", encoding="utf-8", boost_error=False)
    return str(code.svg_data_uri(border=QUIET, omitsize=True))
