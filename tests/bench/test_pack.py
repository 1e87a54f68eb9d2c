"""What a whole pack costs: time, memory and bytes, beside the same document in the bare engine."""

from __future__ import annotations

import io
import os
from pathlib import Path

import pytest
from django.core.files.base import ContentFile
from django.utils import timezone
from PIL import Image, ImageFilter

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Panel, Photo, SheetKind
from jobs.sheets import engine
from jobs.sheets.issue import printed
from tests.bench.clock import once

pytestmark = [
    pytest.mark.bench,
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
PANELS, PHOTOS = 40, 3  # of each panel
MEGABYTE = 1024**2
WORKER = 185 * MEGABYTE  # what the process that prints takes when it waits


def _carpet(width: int, height: int) -> Image.Image:
    """As much detail as a photo of a carpet and a loom has: noise at two sizes."""
    fine = Image.effect_noise((width, height), 60)
    coarse = Image.effect_noise((width // 25, height // 25), 120).resize((width, height))
    picture = Image.merge("RGB", (Image.blend(fine, coarse, 0.8), coarse, fine))
    return picture.filter(ImageFilter.GaussianBlur(0.7))


def _jpeg(picture: Image.Image) -> bytes:
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=85)
    return written.getvalue()


@pytest.fixture
def large(hatchback, cast) -> Job:
    """A job of 40 panels with three photos each, one of them of 60 megapixels in the store."""
    job = Job.objects.select_related("vehicle__customer").get(pk=hatchback.job.pk)
    for n in range(job.panels.count(), PANELS):
        Panel.objects.create(job=job, name=f"Panel {n}", position=n + 1, removal="Unclip, lift.")
    carpet, huge = _carpet(2600, 2200), _jpeg(_carpet(2236, 1677).resize((8944, 6708)))
    for n, panel in enumerate(job.panels.all()):
        for k in range(PHOTOS):
            left, top = 40 * n, 400 * k  # no two alike, or the engine would keep them once
            small = _jpeg(carpet.crop((left, top, left + 1000, top + 750)))
            Photo.objects.create(
                job=job, panel=panel, caption=f"Photo {n}.{k}", taken_by=cast.installer,
                small=ContentFile(huge if n == k == 0 else small, "x.jpg"),
                image=ContentFile(b"x", "x.jpg"),
            )  # fmt: skip
    assert job.photos.count() == PANELS * PHOTOS
    print(f"\nphotos of {len(small) // 1024} kB, one of {len(huge) // 1024} kB")
    return job


def _memory(what: str) -> int:
    """What a process takes now (VmRSS) or took at most (VmHWM): proc(5)."""
    lines = Path("/proc/self/status").read_text().splitlines()
    return 1024 * int(next(line for line in lines if line.startswith(what)).split()[1])


def _peak(job: Job) -> tuple[int, int]:
    """The memory that printing takes on top of a process of its own, and the bytes of the PDF."""
    out, into = os.pipe()
    child = os.fork()
    if child == 0:
        Path("/proc/self/clear_refs").write_text("5")  # what it took before does not count
        before = _memory("VmRSS")
        pdf = sheets.draft(work_out(load(job)), SheetKind.CUSTOMER, sheets.Options())
        os.write(into, f"{_memory('VmHWM') - before} {len(pdf)}".encode())
        os._exit(0)
    os.waitpid(child, 0)
    most, size = os.read(out, 100).split()
    return int(most), int(size)


def test_a_whole_pack_of_a_large_job(large) -> None:
    """The customer's pack of 40 panels, 120 photos: under 15 s, 400 MB and 15 MB, 1.15 of bare."""
    most, size = _peak(large)
    print(
        f"{most / MEGABYTE:.0f} MB on top of {WORKER // MEGABYTE}, {size / MEGABYTE:.1f} MB of PDF"
    )
    design, entry = work_out(load(large)), sheets.SHEETS[SheetKind.CUSTOMER]
    engine._styles()
    html = ""

    def write() -> None:
        nonlocal html
        html, _data = printed(design, entry, sheets.Options(), revision=None, at=timezone.now())

    written, ours = once(write), once(lambda: engine.render(html))
    bare = once(lambda: _bare(html))
    print(f"written in {written.nominal:.1f} s, printed in {ours.nominal:.1f} s at nominal speed")
    print(f"as we ask the engine {ours}; bare: {bare}; {ours.nominal / bare.nominal:.2f} x")
    assert WORKER + most < 400 * MEGABYTE
    assert size <= 15 * MEGABYTE
    assert written.nominal + ours.nominal < 15
    assert ours.nominal <= 1.15 * bare.nominal


def _bare(html: str) -> bytes:
    """The same document and styles, handed to the engine as its manual says."""
    import weasyprint

    _fonts, styles = engine._styles()
    fetcher = engine._fetcher()
    document = weasyprint.HTML(string=html, base_url=engine.BASE, url_fetcher=fetcher)
    return bytes(document.write_pdf(stylesheets=styles, pdf_variant="pdf/a-3a", pdf_tags=True))
