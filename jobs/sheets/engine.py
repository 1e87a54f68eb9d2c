"""The only place that knows WeasyPrint: HTML in, PDF bytes out, nothing fetched from outside."""

from __future__ import annotations

import gc
import logging
import re
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from mimetypes import guess_type
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from django.conf import settings
from django.utils.translation import gettext as _

from jobs.sheets import photo_data

APT_LINE = "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
# Any address the templates write is below this name, which does not exist.
BASE = "https://app.invalid/"
DRAWING = "/drawing/"
Picture = tuple[bytes, str]  # and of which kind it is
# Text layout is not safe in two threads, and not faster either.
_one_at_a_time = threading.Lock()


@cache
def _weasyprint() -> Any:
    """Import the engine when it is first needed: without Pango the import itself fails."""
    import weasyprint

    return weasyprint


@cache
def unavailable() -> str:
    """Say why no PDF can be made on this machine, or nothing when it can."""
    try:
        _weasyprint()
    except OSError:
        return _("The text-layout library Pango is missing. Type: %(line)s") % {"line": APT_LINE}
    return ""


def _static_roots() -> dict[str, Path]:
    return {settings.STATIC_URL: settings.BASE_DIR / "jobs" / "static"}


def _fetcher(pictures: Sequence[Picture] = ()) -> Any:
    """Return a fetcher of a sheet's drawings, photos of the store and the app's static files."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class AppFetcher(URLFetcher):  # type: ignore[misc]
        def __init__(self) -> None:
            super().__init__(allowed_protocols=("data",), allow_redirects=False)

        def fetch(self, url: str, headers: Any = None) -> Any:
            parts = urlsplit(url)
            if parts.scheme == "data":
                return super().fetch(url, headers)
            if (parts.scheme, parts.netloc) == ("https", "app.invalid"):
                path = unquote(parts.path)
                if path.startswith(DRAWING):
                    content, kind = pictures[int(path.removeprefix(DRAWING))]
                    return URLFetcherResponse(url, content, {"Content-Type": kind})
                if path.startswith(photo_data.BEGINS):
                    content = photo_data.content(path.removeprefix(photo_data.BEGINS))
                    return URLFetcherResponse(url, content, {"Content-Type": "image/jpeg"})
                for prefix, root in _static_roots().items():
                    if path.startswith(prefix):
                        file = (root / path[len(prefix) :]).resolve()
                        if file.is_relative_to(root.resolve()) and file.is_file():
                            kind = guess_type(file.name)[0] or "application/octet-stream"
                            return URLFetcherResponse(
                                url, file.read_bytes(), {"Content-Type": kind}
                            )
            message = f"blocked: {url[:80]}"
            raise ValueError(message)

    return AppFetcher()


_SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_TITLE = re.compile(r"<title[^>]*>(.*?)</title>", re.DOTALL)


def _pictured(html: str) -> tuple[str, list[Picture]]:
    """Hand drawings over as pictures: within the page each stroke is styled like a paragraph."""
    pictures: list[Picture] = []

    def picture(match: re.Match[str]) -> str:
        drawing = match.group(0)
        title = _TITLE.search(drawing)
        if title is None:
            return drawing  # a small mark, which goes without saying
        pictures.append((drawing.encode(), "image/svg+xml"))
        return f'<img alt="{title.group(1)}" src="{DRAWING}{len(pictures) - 1}">'

    return _SVG.sub(picture, html), pictures


@cache
def _styles() -> tuple[Any, list[Any]]:
    """Return the fonts and the style sheets that all sheets share, read once by this process."""
    weasyprint = _weasyprint()
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    return fonts, [
        weasyprint.CSS(
            url=f"{BASE[:-1]}{settings.STATIC_URL}jobs/css/{name}",
            font_config=fonts,
            url_fetcher=_fetcher(),
        )
        for name in ("sheet-fonts.css", "sheet.css")
    ]


LAYING_OUT = "Step 5 - Creating layout - Page "


class _Listener(logging.Handler):
    """Hears from the engine which page it lays out; it says so to its log and nowhere else."""

    def __init__(self, tell: Callable[[int], None]) -> None:
        super().__init__()
        self.tell = tell

    def emit(self, record: logging.LogRecord) -> None:
        if record.msg.startswith(LAYING_OUT) and isinstance(record.args, tuple):
            self.tell(int(str(record.args[0])))


@contextmanager
def _telling(tell: Callable[[int], None]) -> Iterator[None]:
    """Tell of every page; one print at a time, so nobody else is heard."""
    log, listener = logging.getLogger("weasyprint.progress"), _Listener(tell)
    log.setLevel(logging.INFO)
    log.propagate = False
    log.addHandler(listener)
    try:
        yield
    finally:
        log.removeHandler(listener)
        log.setLevel(logging.NOTSET)


def _say_what_heads(document: Any, pdf: Any) -> None:
    """Say of each head of a table what it heads (ISO 32000-1, 14.8.5.7): the engine does not.

    A picture without words is a mark whose word stands beside it: it is read to nobody. Nor does a
    list of pairs hold boxes of pairs: what stands around each of them has no meaning of its own.
    """
    for page in document.pages:
        for box in page._page_box.descendants():
            cell = getattr(box, "mark", None)
            if cell is not None and cell["S"] == "/TH":
                heads_row = box.element.attrib.get("scope") == "row"
                cell["A"]["Scope"] = "/Row" if heads_row else "/Column"
    for element in pdf.objects:
        if not isinstance(element, dict):
            continue
        if element.get("S") == "/Figure" and "Alt" not in element:
            element["S"] = "/NonStruct"
            del element["A"]
        elif element.get("S") == "/Div" and _above(element, pdf).get("S") == "/L":
            element["S"] = "/NonStruct"


def _above(element: Any, pdf: Any) -> Any:
    """Return what an element of the structure stands in."""
    return pdf.objects[int(element["P"].split()[0])]


def render(
    html: str,
    *,
    attachments: list[tuple[str, bytes, str, Any]] | None = None,
    tell: Callable[[int], None] = lambda page: None,
) -> bytes:
    """Return the PDF of a document: tagged, its data attached, the same bytes for the same input.

    `attachments` are (file name, content, description, moment): without a moment of its own an
    attachment would carry the time of printing, and no two prints would be alike. `tell` is called
    with the number of each page before it is laid out.
    """
    weasyprint = _weasyprint()
    pictured, pictures = _pictured(html)
    del html
    with _one_at_a_time, _telling(tell):
        # Collecting garbage while a large tree grows costs more than a third of the time.
        gc.disable()
        try:
            fonts, styles = _styles()
            document = weasyprint.HTML(
                string=pictured, base_url=BASE, url_fetcher=_fetcher(pictures)
            ).render(font_config=fonts, stylesheets=styles)
            document.metadata.attachments += [
                weasyprint.Attachment(
                    string=content,
                    name=name,
                    description=description,
                    created=moment,
                    modified=moment,
                    relationship="Data",
                )
                for name, content, description, moment in attachments or []
            ]
            pdf: bytes = document.write_pdf(
                pdf_variant="pdf/a-3a", pdf_tags=True, finisher=_say_what_heads
            )
            return pdf
        finally:
            gc.enable()
