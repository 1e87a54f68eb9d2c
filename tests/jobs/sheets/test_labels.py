"""Cable labels: what is on them, where they sit, and that a phone can read their codes."""

from __future__ import annotations

import io
import shutil
import subprocess

import pytest
import segno
from django.urls import reverse
from PIL import Image
from pypdf import PdfReader

from jobs import sheets, units
from jobs.design.job.panel_page import work_out_panel_pages
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Run, SheetKind, Workshop
from jobs.panel_codes import give_codes
from jobs.sheets import codes
from jobs.sheets.panels import core_of
from jobs.sheets.stickers import sticker_sheets
from tests.jobs.factories import make_content, make_job

zxingcpp = pytest.importorskip("zxingcpp")

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
needs_poppler = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="pdftoppm of poppler is not installed"
)
DOTS = 150  # per inch: a poor office printer
INCH = 0.0254
NBSP = "\N{NO-BREAK SPACE}"
HOME = "http://workshop.invalid"  # of the workshop of the cast


def printed(job, *, paper: str = "a4", kind: SheetKind = SheetKind.LABELS) -> bytes:
    return sheets.draft(work_out(load(job)), kind, sheets.Options(paper=paper))


def pages(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def raster(pdf: bytes, number: int) -> Image.Image:
    """One page in black and white only, as the worst printer in the shop puts it on paper."""
    page = str(number)
    command = ["pdftoppm", "-mono", "-r", str(DOTS), "-f", page, "-l", page, "-"]
    done = subprocess.run(command, input=pdf, capture_output=True, check=True)
    return Image.open(io.BytesIO(done.stdout)).convert("L")


def read(picture: Image.Image) -> list[tuple[str, float, float]]:
    """(text, left, top) of every code on it, in metres, by a decoder that shares no code."""
    found = []
    for code in zxingcpp.read_barcodes(picture):
        corner = code.position.top_left
        found.append((code.text, corner.x / DOTS * INCH, corner.y / DOTS * INCH))
    return found


def _cables(run: Run) -> int:
    return 2 if run.kind == Run.Kind.POWER else 1


@needs_poppler
def test_a_phone_reads_every_code_off_a_poor_print(van, as_loaded):
    """Both sides of both flags of every cable lead to its run, at 150 dpi without a grey."""
    job = van.job
    picture = raster(as_loaded.sheet(van, SheetKind.LABELS), 2)
    texts = [text for text, _x, _y in read(picture)]
    # The plus and the minus of a power run are two cables.
    cables = [run.label for run in Run.objects.filter(job=job) for _ in range(_cables(run))]
    wanted = [HOME + reverse("run", args=[van.code, label]) for label in cables]
    assert sorted(texts) == sorted(wanted * 4)


@needs_poppler
def test_a_code_opens_the_record_it_stands_beside(van, as_loaded, browse):
    """The decoded address, without the host, is the page of that cable."""
    (text, *_place), *_ = read(raster(as_loaded.sheet(van, SheetKind.LABELS), 2))
    answer = browse("installer").get(text.removeprefix(HOME))
    assert answer.status_code == 200
    assert text.rstrip("/").rsplit("/", 1)[1] in answer.content.decode()


@needs_poppler
def test_labels_sit_where_the_stock_has_them(van):
    """The codes repeat by the pitch of the stock that was entered, in A4 and in Letter."""
    Workshop.objects.update(
        label_width=0.088, label_height=0.040, label_left=0.012, label_top=0.015,
        label_gap=0.002, label_row_gap=0.005, label_columns=2, label_rows=5, label_wrap=0.010,
    )  # fmt: skip
    for paper in ("a4", "letter"):
        found = read(raster(printed(van.job, paper=paper), 2))
        # Plus and minus of the link: four codes each, one row below the other.
        link = sorted((y, x) for text, x, y in found if van.link.label in text)
        first, second = (sorted((x, y) for y, x in half) for half in (link[:4], link[4:]))
        across = [x for x, _y in first]
        down = [min(y for _x, y in one) for one in (first, second)]
        # Near side, far side, then the same one label further.
        assert across[2] - across[0] == pytest.approx(0.090, abs=0.001)
        assert across[3] - across[1] == pytest.approx(0.090, abs=0.001)
        assert down[1] - down[0] == pytest.approx(0.045, abs=0.001)
        assert 0.012 < across[0] < 0.012 + 0.035  # on the near side of the first label
        assert 0.015 < down[0] < 0.015 + 0.010


def test_a_label_says_what_a_stranger_needs(hatchback, as_loaded):
    """Number, from and to, fuse, job and date stand on it, twice on each of two flags."""
    first, labels = pages(as_loaded.sheet(hatchback, SheetKind.LABELS))[:2]
    assert "full size" in first
    main, block = hatchback.main_run, hatchback.block.name
    # The main run on its own flags and as the fuse on them; the block on all four power runs.
    for words, times in (
        (main.label, 4 + 4), (f"F-{main}", 4), (block, 4 * 4), (hatchback.code, 4 * 9),
    ):  # fmt: skip
        assert labels.count(words) >= times
    assert units.show(main.fuse.rating, "current", exact=True).split(NBSP)[0] in labels


def test_sheets_follow_each_other_and_say_so(hatchback):
    """More runs than labels on a sheet go on with the next one, each headed by job and number."""
    Workshop.objects.update(label_rows=4)
    job = hatchback.job
    found = pages(printed(job))
    cables = sum(_cables(run) for run in Run.objects.filter(job=job))
    sheets = -(-cables * 2 // 8)
    for number, text in enumerate(found[1 : 1 + sheets], start=1):
        assert f"{number} / {sheets}" in text.replace("\n", " ")
    # Stickers for places, then for the wood, come last and are counted by themselves.
    wooden = len(sticker_sheets(work_out(load(job)), columns=2, per_sheet=8))
    places, wood = found[1 + sheets : -wooden], found[-wooden:]
    assert min(len(places), wooden) > 0
    for stickers in (places, wood):
        for number, text in enumerate(stickers, start=1):
            assert f"{number} / {len(stickers)}" in text.replace("\n", " ")


def test_without_an_address_no_code_is_printed_and_the_page_says_why(van):
    """An address nobody entered is not made up."""
    Workshop.objects.update(web_address="")
    pdf = printed(van.job)
    assert "the web address of this app is not entered" in " ".join(pages(pdf)[0].split())
    if shutil.which("pdftoppm"):
        assert read(raster(pdf, 2)) == []
    assert van.link.label in pages(pdf)[1]


def test_a_label_too_small_for_a_code_says_so(van):
    """A code that no phone can read is left out, not printed small."""
    Workshop.objects.update(label_width=0.040, label_height=0.012)
    assert "too small for one that a phone" in " ".join(pages(printed(van.job))[0].split())


def test_stock_wider_than_the_paper_is_told(van):
    """Labels beyond the edge of the paper are a stop on the first page."""
    Workshop.objects.update(label_columns=3)
    assert "do not fit on this paper" in " ".join(pages(printed(van.job))[0].split())


def test_a_job_without_cables_has_nothing_to_label(cast):
    """One page that says so."""
    job = make_job()
    (only,) = pages(printed(job))
    assert "nothing to label" in only


def codes_read(job: Job) -> list[str]:
    """Every code on the panel record as it is now."""
    pdf = printed(job, kind=SheetKind.PANELS)
    return [text for n in range(1, len(pages(pdf)) + 1) for text, _x, _y in read(raster(pdf, n))]


@needs_poppler
def test_the_code_of_a_panel_opens_its_public_page(saloon, settings):
    """Where there is a public address, each panel of the record has the address of its page."""
    settings.PUBLIC = "https://panels.example"
    give_codes(saloon.job)
    wanted = {
        "https://panels.example" + reverse("panel-page", args=[panel.token])
        for panel in saloon.job.panels.all()
    }
    assert set(codes_read(saloon.job)) == wanted
    assert wanted


@needs_poppler
def test_without_a_public_address_the_code_holds_the_core(saloon, settings):
    """Panel, sources, fuses and what is behind it, as text that a phone reads off the print."""
    settings.PUBLIC = ""
    texts = codes_read(saloon.job)
    panels = list(saloon.job.panels.all())
    assert len(texts) == len(panels) > 0
    for panel in panels:
        (text,) = (text for text in texts if text.startswith(f"{panel} ({saloon.code})"))
        assert "Isolate first: " in text


def test_a_core_that_is_too_long_is_cut_and_says_so(hatchback):
    """Never more than version 15 at level M (ISO/IEC 18004), and never as if it were whole."""
    for n in range(40):
        make_content(hatchback.door_left, description=f"Gerät {n} " + "ü" * 40)
    workshop = Workshop.current()
    pages_of = work_out_panel_pages(load(hatchback.job))
    core = next(core_of(one, workshop) for one in pages_of if one.panel == hatchback.door_left)
    assert core.endswith("… see the record")
    assert "AIRBAG" in core
    code = segno.make_qr(core, error="m", encoding="utf-8", boost_error=False)
    assert code.version <= 15
    full = segno.make_qr(
        "ü" * (codes.LONGEST_TEXT // 2), error="m", encoding="utf-8", boost_error=False
    )
    assert full.version == 15
    side, _height = code.symbol_size(border=codes.QUIET)
    assert 36e-3 / side >= codes.SMALLEST_MODULE


def test_the_cable_sheet_prints_the_numbers_of_the_page(hatchback, as_loaded, browse):
    """Cut lengths, forces and fuses are the same on page and paper."""
    html = browse("designer").get(reverse("schedule", args=[hatchback.code])).content.decode()
    printed_pages = pages(as_loaded.sheet(hatchback, SheetKind.CABLES))
    text = " ".join(" ".join(printed_pages).split())
    # By hand: 0.6 m of main run · 1.1 + 2 · 0.1 m; 250 lbf for its ring (UL 486A type); pairs of
    # the front 2 · (5.2 + 5.0 + 4.8) m · 1.1 + 12 · 0.1 m; a clip every 300 mm on the main run and
    # every 450 mm on the others (ISO 10133): 2 + 12 on power, 73 on speakers,
    # 13 + 2 + 2 on line, 2 + 12 on control runs.
    for words in ("0.86 m", "1112 N", "118 clips or ties", "150 A"):
        assert words in text.replace("\N{NO-BREAK SPACE}", " ")
        assert words in html.replace("\N{NO-BREAK SPACE}", " ")
    assert "34.2 m" in text.replace("\N{NO-BREAK SPACE}", " ")
