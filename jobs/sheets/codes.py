"""Codes that a phone reads off paper: an address of this app, drawn as strokes."""

from __future__ import annotations

from functools import lru_cache

import segno

from jobs.models import Workshop

QUIET = 4  # modules left white round a code: ISO/IEC 18004
# A printed module smaller than this is lost on a scuffed label; common practice, no source.
SMALLEST_MODULE = 0.4e-3


def address(workshop: Workshop, path: str) -> str:
    """Return the full address of a page, or nothing while nobody has entered where the app is."""
    return workshop.web_address.rstrip("/") + path if workshop.web_address else ""


def module(text: str, side: float) -> float:
    """Return the size of one module of a code that fills a square of this side, in metres."""
    return float(side / segno.make_qr(text).symbol_size(border=QUIET)[0])


@lru_cache(maxsize=256)
def code_uri(text: str) -> str:
    """Draw a text as a picture of a code, quiet zone included.

    Strokes, not pixels: a poor printer would grey the edges of pixels until no phone reads them.
    """
    return str(segno.make_qr(text).svg_data_uri(border=QUIET, omitsize=True))
